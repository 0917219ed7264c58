"""The attenuation of a data sheet is not below what smooth copper of its diameters loses, nor far above it.

least <= attenuation / that of smooth copper <= most, from a frequency on at which the skin effect rules.
Source: Schelkunoff, The Electromagnetic Theory of Coaxial Transmission Lines and Cylindrical Shields, 1934; the limits
are common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator
from math import log

from coaxwright.catalogue.measures import Percent
from coaxwright.checks.contract import Check, CheckContext, DoesNotApply, NotMet, Verdict
from coaxwright.checks.limits import LimitKind, Limits
from coaxwright.checks.selectors import OWN_CLASS, OwnClass
from coaxwright.design.quantities import Frequency
from coaxwright.design.value_types import FREQUENCY, NUMBER, TEXT, WORD, Phrase, Values, optional, phrase
from coaxwright.frozen_value import frozen_value
from coaxwright.physics.comparison import at_least, at_most
from coaxwright.physics.geometry import is_a_line
from coaxwright.physics.line_loss import CrossSection, conductor_loss_db_per_m

_FACTOR = 3.2808
"""Feet in a meter."""


def sheet_plausible(own: OwnClass, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """Every figure of it is one that its diameters allow."""
    made = own.cable_class
    outer_m, inner_m, velocity = made.dielectric_diameter_m, made.center_diameter_m, made.velocity_factor
    if not own.states("attenuation") or not is_a_line(made.impedance_ohm, outer_m, inner_m, velocity):
        yield DoesNotApply("no attenuation")
        return
    least, most = limits.one(Percent, "least"), limits.one(Percent, "most")
    odd = list(_odd(own, least, most, limits.one(Frequency, "from")))
    if not odd:
        return
    worst = max(odd, key=lambda figure: figure.order)
    case, limit = ("too low", "least") if worst.is_low else ("too high", "most")
    share = least.share if worst.is_low else most.share
    values = {
        "class": made.name,
        "stated": _per_100_m(worst.stated),
        "frequency": worst.freq_hz,
        "physical": _per_100_m(worst.physical),
        limit: _per_100_m(share * worst.physical),
        "diameters": Phrase("over", {"outer": outer_m * 1e3, "inner": inner_m * 1e3}),
        "slip": _slip(worst.share),
    }
    yield NotMet(case, own.place, values, at_key=own.is_here, cites=((limit,),))


@frozen_value
class _Odd:
    """A figure [dB/m] that is below what physics allows, or far above it."""

    freq_hz: float
    stated: float
    physical: float
    is_low: bool

    @property
    def share(self) -> float:
        return self.stated / self.physical

    @property
    def order(self) -> tuple[float, float, float, bool]:
        """How far off it is, either way."""
        return (abs(log(self.share)) if self.share > 0 else 1e9, self.freq_hz, self.stated, self.is_low)


def _odd(own: OwnClass, least: Percent, most: Percent, lowest: Frequency) -> Iterator[_Odd]:
    made = own.cable_class
    line = CrossSection(made.dielectric_diameter_m, made.center_diameter_m, made.velocity_factor)
    for freq_hz, stated in zip(*made.attenuation.published.points, strict=True):
        if not at_least(freq_hz, lowest.freq_hz):
            continue
        physical = conductor_loss_db_per_m(freq_hz, line)
        is_low = not at_least(stated / physical, least.share)
        if is_low or not at_most(stated / physical, most.share):
            yield _Odd(freq_hz, stated, physical, is_low)


def _per_100_m(loss_db_per_m: float) -> Phrase:
    """Finely enough for the thinnest cable and the thickest."""
    return Phrase("per 100 m", {"loss": 100 * loss_db_per_m})


def _slip(share: float) -> Phrase | None:
    """Where a slip between 100 m and 100 ft would explain a figure, which."""
    for factor, wrong, right in ((_FACTOR, "dB/100 m", "dB/100 ft"), (1 / _FACTOR, "dB/100 ft", "dB/100 m")):
        if 0.9 <= share / factor <= 2.0:
            return Phrase("units", {"wrong": wrong, "right": right})
    return None


_PER_100_M = phrase(**{"per 100 m": {"loss": NUMBER}})
_LOSS: Values = {
    "class": WORD,
    "stated": _PER_100_M,
    "frequency": FREQUENCY,
    "physical": _PER_100_M,
    "diameters": phrase(over={"outer": NUMBER, "inner": NUMBER}),
    "slip": optional(phrase(units={"wrong": TEXT, "right": TEXT})),
}

CHECK = Check(
    name="cable.sheet-plausible",
    each=OWN_CLASS,
    judge=sheet_plausible,
    cases={"too low": {**_LOSS, "least": _PER_100_M}, "too high": {**_LOSS, "most": _PER_100_M}},
    does_not_apply={"no attenuation": {}},
    limits={"least": LimitKind(Percent), "most": LimitKind(Percent), "from": LimitKind(Frequency)},
)
