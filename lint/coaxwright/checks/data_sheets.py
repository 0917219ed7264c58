"""Do the figures of a cable class of the author's own agree with one another, and with physics?"""

from __future__ import annotations

import re
from collections.abc import Iterator
from math import log, pi, sqrt

from coaxwright.catalogue import CableClass
from coaxwright.catalogue.measures import Percent
from coaxwright.checks.contract import Check, CheckContext, DoesNotApply, NotMet, Verdict
from coaxwright.checks.limits import LimitKind, Limits
from coaxwright.checks.phrasing import frequency, ohms
from coaxwright.checks.selectors import OWN_CLASS, OwnClass
from coaxwright.design.quantities import Frequency, WireSize, shown
from coaxwright.physics.comparison import at_least, at_most
from coaxwright.physics.geometry import capacitance_of_impedance_pf_per_m, characteristic_impedance_ohm
from coaxwright.physics.line_loss import CrossSection, conductor_loss_db_per_m

_FINEST_M = 1e-6
"""No centre is finer. Source: common practice, no source; the finest drawn wires measure some micrometres."""
_STRANDS_LOOK_LIKE = 0.94
"""A stranded centre works as a solid one of 0.94 to 0.985 of its diameter. Source: amateur handbooks, from memory."""
_HALF_A_GAUGE = 92 ** (1 / 78)
"""Ratio of diameters half a gauge apart: 1.06. Source: ASTM B258, the ratio of one gauge to the next is 92^(1/39)."""
_SERIES = re.compile(r"\bseries (?:59|6|7|11)\b")


def geometry_plausible(own: OwnClass, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """What a data sheet says of impedance, velocity, capacitance and diameters fits together.

    Judged of figures that are all the author's own: what is taken from another class is not theirs to agree with.
    """
    tolerance = limits.quantity(Percent, "tolerance")
    assert tolerance is not None
    made = own.cable_class
    has_dimensions = own.states("impedance", "velocity", "centre diameter", "dielectric diameter")
    has_capacitance = own.states("impedance", "velocity", "capacitance") and made.capacitance_pf_per_m is not None
    if not has_dimensions and not has_capacitance:
        yield DoesNotApply("it does not state enough of its own")
        return
    values = {"class": made.name, "velocity": _percent(made.velocity_factor), "impedance": ohms(made.impedance_ohm)}
    values["diameters"] = f"{_mm(made.dielectric_diameter_m)} over {_mm(made.centre_diameter_m)}"
    if not _is_possible(made):
        yield _at(own, "impossible", values)
        return
    if has_dimensions:
        lowest_ohm, highest_ohm = _computed_ohm(made)
        if not _is_within(made.impedance_ohm, lowest_ohm, highest_ohm, tolerance.share):
            values |= {"computed": ohms(lowest_ohm), "tolerance": tolerance.text}
            values["off"] = _percent(abs(made.impedance_ohm / lowest_ohm - 1))
            yield _at(own, "dimensions", values, (("tolerance",),))
            return
    if has_capacitance:
        computed = capacitance_of_impedance_pf_per_m(made.impedance_ohm, made.velocity_factor)
        stated = made.capacitance_pf_per_m
        assert stated is not None
        if not _is_within(stated, computed, computed, tolerance.share):
            values |= {"capacitance": f"{shown(stated, 1)} pF/m", "computed": f"{shown(computed, 1)} pF/m"}
            values |= {"tolerance": tolerance.text, "off": _percent(abs(stated / computed - 1))}
            yield _at(own, "capacitance", values, (("tolerance",),))


def _computed_ohm(made: CableClass) -> tuple[float, float]:
    """The impedance [ohm] of a solid centre of the diameter, and of the thinnest that its strands may look like."""
    is_stranded = any(centre.strands > 1 for centre in made.centres.values())
    looks_like = _STRANDS_LOOK_LIKE if is_stranded else 1.0
    outer_mm, inner_mm = made.dielectric_diameter_m * 1e3, made.centre_diameter_m * 1e3
    solid_ohm = characteristic_impedance_ohm(outer_mm, inner_mm, made.velocity_factor)
    return solid_ohm, characteristic_impedance_ohm(outer_mm, inner_mm * looks_like, made.velocity_factor)


def _is_possible(made: CableClass) -> bool:
    """Whether it is a line at all: no wire is finer, and no dielectric of a cable slower than a tenth of light."""
    thicker = made.dielectric_diameter_m > made.centre_diameter_m >= _FINEST_M
    return thicker and 0.1 <= made.velocity_factor <= 1 and made.impedance_ohm >= 1


def _is_within(stated: float, lowest: float, highest: float, share: float) -> bool:
    return at_least(stated, lowest * (1 - share)) and at_most(stated, highest * (1 + share))


def sheet_plausible(own: OwnClass, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """The attenuation of a data sheet is not below what smooth copper of its diameters loses, nor far above it."""
    made = own.cable_class
    least, most = limits.quantity(Percent, "least"), limits.quantity(Percent, "most")
    lowest = limits.quantity(Frequency, "from")
    assert least is not None
    assert most is not None
    assert lowest is not None
    if not own.states("attenuation") or not _is_possible(made):
        yield DoesNotApply("it states no attenuation of its own that could be compared")
        return
    line = CrossSection(made.dielectric_diameter_m, made.centre_diameter_m, made.velocity_factor)
    worst: tuple[float, float, float, bool] | None = None
    for freq_hz, stated in zip(*made.attenuation.published.points, strict=True):
        if not at_least(freq_hz, lowest.freq_hz):
            continue
        physical = conductor_loss_db_per_m(freq_hz, line)
        share = stated / physical
        is_low = not at_least(share, least.share)
        if is_low or not at_most(share, most.share):
            off = abs(log(share)) if share > 0 else 1e9
            worst = max(worst, (off, freq_hz, stated, is_low)) if worst else (off, freq_hz, stated, is_low)
    if worst is None:
        return
    _, freq_hz, stated, is_low = worst
    physical = conductor_loss_db_per_m(freq_hz, line)
    values = {
        "class": made.name,
        "stated": _loss(stated),
        "frequency": frequency(freq_hz),
        "physical": _loss(physical),
        "least": f"{_loss(least.share * physical)}",
        "most": f"{_loss(most.share * physical)}",
        "diameters": f"{_mm(made.dielectric_diameter_m)} over {_mm(made.centre_diameter_m)}",
        "slip": _slip(stated / physical),
    }
    yield _at(own, "too low" if is_low else "too high", values, (("least" if is_low else "most",),))


def _slip(share: float) -> str:
    """Where a slip between 100 m and 100 ft would explain a figure, a clause that says so."""
    for factor, wrong, right in ((3.2808, "dB/100 m", "dB/100 ft"), (1 / 3.2808, "dB/100 ft", "dB/100 m")):
        if 0.9 <= share / factor <= 2.0:
            return f"; {wrong} written as {right} would explain it"
    return ""


def conductor_gauge(own: OwnClass, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """A class that is called by a trade series has the centre of that series.

    Only the trade's series have one centre each: types with a military number are made with several.
    """
    made = own.cable_class
    named = _SERIES.search(f"{made.name} {made.description}".casefold())
    if named is None:
        yield DoesNotApply("it is not called by a trade series")
        return
    wanted = limits.quantity(WireSize, "centre", named.group())
    stated = list(_stated_centres(own))
    if wanted is None or not stated:
        yield DoesNotApply("it states no centre of its own")
        return
    for said, diameter_mm in stated:
        if not _is_of(diameter_mm, wanted):
            belongs = [s for (s,) in limits.keys("centre") if _is_of(diameter_mm, _size(s, limits))]
            values = {"class": made.name, "series": named.group(), "found": said, "wanted": wanted.text}
            values["belongs"] = belongs[0] if belongs else "another construction"
            yield _at(own, "other centre", values, (("centre", named.group()),))
            return


def _stated_centres(own: OwnClass) -> Iterator[tuple[str, float]]:
    """The centres that the author states, in words, with their diameters [mm]; a size counts before a diameter."""
    made = own.cable_class
    sizes = [(centre.name, centre.size) for centre in made.centres.values() if centre.size is not None]
    if own.states("centres") and sizes:
        for name, size in sizes:
            yield f"{size} {name}", _diameter_mm(WireSize.parse(size))
    elif own.states("centre diameter"):
        yield _mm(made.centre_diameter_m), made.centre_diameter_m * 1e3


def _is_of(diameter_mm: float, wanted: WireSize) -> bool:
    right_mm = _diameter_mm(wanted)
    return at_least(diameter_mm, right_mm / _HALF_A_GAUGE) and at_most(diameter_mm, right_mm * _HALF_A_GAUGE)


def _size(series: str, limits: Limits) -> WireSize:
    size = limits.quantity(WireSize, "centre", series)
    assert size is not None  # the series is a key of the table
    return size


def _diameter_mm(size: WireSize) -> float:
    return sqrt(4 * size.area_mm2 / pi)


def _at(own: OwnClass, case: str, values: dict[str, str], cites: tuple[tuple[str, ...], ...] = ()) -> NotMet:
    return NotMet(case, own.place, values, at_key=own.is_here, cites=cites)


def _mm(length_m: float) -> str:
    return f"{shown(length_m * 1e3, 2)} mm"


def _percent(share: float) -> str:
    return f"{shown(100 * share, 1)} %"


def _loss(loss_db_per_m: float) -> str:
    """Per 100 m, finely enough for the thinnest cable and the thickest."""
    return f"{shown(100 * loss_db_per_m, 2)} dB/100 m"


_OFF = ("class", "impedance", "velocity", "computed", "tolerance", "off")
_LOSS = ("class", "stated", "frequency", "physical", "diameters", "slip")

CHECKS = (
    Check(
        name="geometry-plausible",
        each=OWN_CLASS,
        judge=geometry_plausible,
        cases={
            "dimensions": (*_OFF, "diameters"),
            "capacitance": (*_OFF, "capacitance"),
            "impossible": ("class", "impedance", "velocity", "diameters"),
        },
        reads=("catalogue", "cables.*.type"),
        limits={"tolerance": LimitKind(Percent)},
    ),
    Check(
        name="sheet-plausible",
        each=OWN_CLASS,
        judge=sheet_plausible,
        cases={"too low": (*_LOSS, "least"), "too high": (*_LOSS, "most")},
        reads=("catalogue", "cables.*.type"),
        limits={"least": LimitKind(Percent), "most": LimitKind(Percent), "from": LimitKind(Frequency)},
    ),
    Check(
        name="conductor-gauge",
        each=OWN_CLASS,
        judge=conductor_gauge,
        cases={"other centre": ("class", "series", "found", "wanted", "belongs")},
        reads=("catalogue", "cables.*.type"),
        limits={"centre": LimitKind(WireSize, by=("series",))},
    ),
)
