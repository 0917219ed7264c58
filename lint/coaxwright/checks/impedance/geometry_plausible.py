"""What a data sheet says of impedance, velocity, capacitance and diameters fits together.

Z0 = 59.96 VF ln(D/d); C = 3335.6 / (Z0 VF). Judged of figures that are all the author's own: what is taken from another
class is not theirs to agree with. Source: Schelkunoff, The Electromagnetic Theory of Coaxial Transmission Lines and
Cylindrical Shields, 1934, derived; the tolerance is common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.catalogue import CableClass
from coaxwright.catalogue.measures import Percent
from coaxwright.checks.contract import Check, CheckContext, DoesNotApply, NotMet, Verdict
from coaxwright.checks.limits import LimitKind, Limits
from coaxwright.checks.selectors import OWN_CLASS, OwnClass
from coaxwright.design.value_types import IMPEDANCE, NUMBER, QUANTITY, SHARE, WORD, Phrase, Values, phrase
from coaxwright.physics.comparison import at_least, at_most
from coaxwright.physics.geometry import (
    capacitance_of_impedance_pf_per_m,
    characteristic_impedance_ohm,
    is_a_line,
)

_STRANDS_LOOK_LIKE = 0.94
"""A stranded center works as a solid one of 0.94 to 0.985 of its diameter. Source: amateur handbooks, from memory."""


def geometry_plausible(own: OwnClass, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """The figures agree within the tolerance."""
    tolerance = limits.one(Percent, "tolerance")
    made = own.cable_class
    has_dimensions = own.states("impedance", "velocity", "center diameter", "dielectric diameter")
    stated_pf = made.capacitance_pf_per_m if own.states("impedance", "velocity", "capacitance") else None
    if not has_dimensions and stated_pf is None:
        yield DoesNotApply("too little stated")
        return
    outer_m, inner_m, velocity = made.dielectric_diameter_m, made.center_diameter_m, made.velocity_factor
    values: dict[str, object] = {"class": made.name, "velocity": velocity, "impedance": made.impedance_ohm}
    diameters = Phrase("over", {"outer": outer_m * 1e3, "inner": inner_m * 1e3})
    if not is_a_line(made.impedance_ohm, outer_m, inner_m, velocity):
        yield NotMet("impossible", own.place, values | {"diameters": diameters}, at_key=own.is_here)
        return
    values["tolerance"] = tolerance
    cites = (("tolerance",),)
    if has_dimensions:
        lowest_ohm, highest_ohm = _computed_ohm(made)
        if not _is_within(made.impedance_ohm, lowest_ohm, highest_ohm, tolerance.share):
            values |= {"diameters": diameters, "computed": Phrase("impedance", {"impedance": lowest_ohm})}
            values["deviation"] = abs(made.impedance_ohm / lowest_ohm - 1)
            yield NotMet("dimensions", own.place, values, at_key=own.is_here, cites=cites)
            return
    if stated_pf is not None:
        computed_pf = capacitance_of_impedance_pf_per_m(made.impedance_ohm, velocity)
        if not _is_within(stated_pf, computed_pf, computed_pf, tolerance.share):
            values |= {"capacitance": _capacitance(stated_pf), "computed": _capacitance(computed_pf)}
            values["deviation"] = abs(stated_pf / computed_pf - 1)
            yield NotMet("capacitance", own.place, values, at_key=own.is_here, cites=cites)


def _computed_ohm(made: CableClass) -> tuple[float, float]:
    """The impedance [ohm] of a solid center of the diameter, and of the thinnest that its strands may look like."""
    is_stranded = any(center.strands > 1 for center in made.centers.values())
    looks_like = _STRANDS_LOOK_LIKE if is_stranded else 1.0
    outer_mm, inner_mm = made.dielectric_diameter_m * 1e3, made.center_diameter_m * 1e3
    solid_ohm = characteristic_impedance_ohm(outer_mm, inner_mm, made.velocity_factor)
    return solid_ohm, characteristic_impedance_ohm(outer_mm, inner_mm * looks_like, made.velocity_factor)


def _is_within(stated: float, lowest: float, highest: float, share: float) -> bool:
    return at_least(stated, lowest * (1 - share)) and at_most(stated, highest * (1 + share))


def _capacitance(capacitance_pf_per_m: float) -> Phrase:
    return Phrase("capacitance", {"capacitance": capacitance_pf_per_m})


_CAPACITANCE: Values = {"capacitance": NUMBER}
_STATED: Values = {"class": WORD, "impedance": IMPEDANCE, "velocity": SHARE}
_DIAMETERS: Values = {"diameters": phrase(over={"outer": NUMBER, "inner": NUMBER})}
_OFF: Values = {
    **_STATED,
    "computed": phrase(impedance={"impedance": IMPEDANCE}, capacitance=_CAPACITANCE),
    "tolerance": QUANTITY,
    "deviation": SHARE,
}

CHECK = Check(
    name="impedance.geometry-plausible",
    each=OWN_CLASS,
    judge=geometry_plausible,
    cases={
        "dimensions": {**_OFF, **_DIAMETERS},
        "capacitance": {**_OFF, "capacitance": phrase(capacitance=_CAPACITANCE)},
        "impossible": {**_STATED, **_DIAMETERS},
    },
    does_not_apply={"too little stated": {}},
    limits={"tolerance": LimitKind(Percent)},
    former_values=dict(off="{deviation:1 decimals}"),  # noqa: C408
)
