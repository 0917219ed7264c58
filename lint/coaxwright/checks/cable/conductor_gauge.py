"""A class that is called by a trade series has the center conductor of that series.

Only the trade's series have one center each: types with a military number are made with several.
Source: ANSI/SCTE 74, dimensions, from memory.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from math import pi, sqrt

from coaxwright.checks.contract import Check, CheckContext, DoesNotApply, NotMet, Verdict
from coaxwright.checks.limits import LimitKind, Limits
from coaxwright.checks.selectors import OWN_CLASS, OwnClass
from coaxwright.design.quantities import WireSize
from coaxwright.design.value_types import NUMBER, QUANTITY, TEXT, WORD, Phrase, phrase
from coaxwright.physics.comparison import at_least, at_most

_HALF_A_GAUGE = 92 ** (1 / 78)
"""Ratio of diameters half a gauge apart: 1.06. Source: ASTM B258, the ratio of one gauge to the next is 92^(1/39)."""
_SERIES = re.compile(r"\bseries (?:59|6|7|11)\b")


def conductor_gauge(own: OwnClass, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """Each center that is stated is within half a gauge of that of the series."""
    made = own.cable_class
    named = _SERIES.search(" ".join((made.name, made.description)).casefold())
    if named is None:
        yield DoesNotApply("no series")
        return
    wanted = limits.row(WireSize, "center", named.group())
    stated = list(_stated_centers(own))
    if wanted is None or not stated:
        yield DoesNotApply("no center")
        return
    for said, diameter_mm in stated:
        if not _is_of(diameter_mm, wanted):
            values = {
                "class": made.name,
                "series": named.group(),
                "found": said,
                "wanted": wanted,
                "belongs": _belongs(diameter_mm, limits),
            }
            cites = (("center", named.group()),)
            yield NotMet("other center", own.place, values, at_key=own.is_here, cites=cites)
            return


def _belongs(diameter_mm: float, limits: Limits) -> Phrase:
    """The series that has such a center, if one does."""
    for (series,) in limits.keys("center"):
        size = limits.row(WireSize, "center", series)
        if size is not None and _is_of(diameter_mm, size):
            return Phrase("series", {"series": series})
    return Phrase("none")


def _stated_centers(own: OwnClass) -> Iterator[tuple[Phrase, float]]:
    """The centers that the author states, with their diameters [mm]; a size counts before a diameter."""
    made = own.cable_class
    sizes = [(center.name, center.size) for center in made.centers.values() if center.size is not None]
    if own.states("centers") and sizes:
        for name, size in sizes:
            yield Phrase("size", {"size": size, "metal": name}), _diameter_mm(WireSize.parse(size))
    elif own.states("center diameter"):
        diameter_mm = made.center_diameter_m * 1e3
        yield Phrase("diameter", {"mm": diameter_mm}), diameter_mm


def _is_of(diameter_mm: float, wanted: WireSize) -> bool:
    right_mm = _diameter_mm(wanted)
    return at_least(diameter_mm, right_mm / _HALF_A_GAUGE) and at_most(diameter_mm, right_mm * _HALF_A_GAUGE)


def _diameter_mm(size: WireSize) -> float:
    return sqrt(4 * size.area_mm2 / pi)


CHECK = Check(
    name="cable.conductor-gauge",
    each=OWN_CLASS,
    judge=conductor_gauge,
    cases={
        "other center": {
            "class": WORD,
            "series": WORD,
            "found": phrase(size={"size": TEXT, "metal": WORD}, diameter={"mm": NUMBER}),
            "wanted": QUANTITY,
            "belongs": phrase(series={"series": WORD}, none={}),
        }
    },
    does_not_apply={"no series": {}, "no center": {}},
    limits={"center": LimitKind(WireSize, by=("series",))},
)
