"""Lengths in feet and inches or in meters, and the limits that documents publish as a pair of both."""

from __future__ import annotations

import re
from decimal import Decimal
from math import radians, tan
from typing import Any, ClassVar

from coaxwright.design.quantities.base import DECIMAL, INTEGER, NUMBER, Quantity, alternatives, number
from coaxwright.design.words import NEIGHBORS
from coaxwright.physics.comparison import at_least, at_most

FOOT_M = 0.3048  # international foot, exact by definition (1959)
INCH_M = 0.0254

_FEET = ("ft", "feet", "foot", "'", "\N{PRIME}")
_INCHES = ("in", "inch", "inches", '"', "\N{DOUBLE PRIME}")
_METRIC = {
    "m": 1.0,
    "metre": 1.0,
    "metres": 1.0,
    "meter": 1.0,
    "meters": 1.0,
    "cm": 0.01,
    "mm": 0.001,
    "km": 1000.0,
}
_UNITS: dict[str, float] = {**dict.fromkeys(_FEET, FOOT_M), **dict.fromkeys(_INCHES, INCH_M), **_METRIC}
_FEET_AND_INCHES = f"{INTEGER} ?{alternatives(_FEET)} ?{NUMBER} ?{alternatives(_INCHES)}"
_SINGLE = f"{NUMBER} ?{alternatives(_UNITS)}"


class Length(Quantity):
    """A length; ``length_m`` [m] and, for comparison in the author's own system, ``feet`` where it was written so."""

    __slots__ = ("is_metric", "length_ft", "length_m")
    NAME: ClassVar[str] = "length"
    EXAMPLES: ClassVar[tuple[str, ...]] = ("85 ft", "26 m", "6 ft 4 in", "300 mm")
    UNITS: ClassVar[tuple[str, ...]] = ("ft", "in", "m", "cm", "mm", "km", "feet", "inch", "metre", "meter")
    PATTERN: ClassVar[str] = f"^(?:{_SINGLE}|{_FEET_AND_INCHES})$"

    length_m: float
    length_ft: float
    is_metric: bool

    def _read(self, match: re.Match[str]) -> None:
        single = _SINGLE_PARTS.match(self.text)
        if single is not None:
            value, unit = single.groups()
            self.is_metric = unit in _METRIC
            self.length_m = number(value) * _UNITS[unit]
            if unit in _FEET:
                self.length_ft = number(value)
            elif unit in _INCHES:
                self.length_ft = number(value) / 12
            else:
                self.length_ft = self.length_m / FOOT_M
            return
        feet, inches = _FEET_AND_INCHES_PARTS.match(self.text).groups()  # type: ignore[union-attr]
        self.is_metric = False
        self.length_ft = number(feet) + number(inches) / 12
        self.length_m = number(feet) * FOOT_M + number(inches) * INCH_M


_SINGLE_PARTS = re.compile(f"^({NUMBER}) ?({alternatives(_UNITS)})$")
_FEET_AND_INCHES_PARTS = re.compile(f"^({INTEGER}) ?{alternatives(_FEET)} ?({NUMBER}) ?{alternatives(_INCHES)}$")


_ROUNDED = 0.08
"""The share by which the metric half of a length may stand off the other; of those that are shipped, 5.5 % at most.

Source: common practice, no source.
"""


class LengthPair(Quantity):
    """A published limit such as ``20 ft (6.0 m)``: two limits, each binding whoever works in its system."""

    __slots__ = ("feet", "metric")
    NAME: ClassVar[str] = "length in both systems"
    EXAMPLES: ClassVar[tuple[str, ...]] = ("20 ft (6.0 m)",)
    UNITS: ClassVar[tuple[str, ...]] = ()
    PATTERN: ClassVar[str] = rf"^{DECIMAL} (?:ft|in) \({DECIMAL} (?:m|mm)\)$"

    feet: Length
    metric: Length

    def _read(self, match: re.Match[str]) -> None:
        feet, _, metric = self.text.partition(" (")
        self.feet = Length.parse(feet)
        self.metric = Length.parse(metric.removesuffix(")"))

    @property
    def agrees(self) -> bool:
        """Whether the two are one length in round figures: a quarter of an inch is published as 6 mm."""
        return abs(self.metric.length_m - self.feet.length_m) <= _ROUNDED * self.feet.length_m

    @property
    def closer(self) -> str:
        """What the first of the two is in the other system: ``20 ft are 6.1 m``."""
        in_mm = self.metric.text.endswith("mm")
        metric = f"{shown(self.feet.length_m * 1000, 0)} mm" if in_mm else in_meters(self.feet.length_m).text
        return f"{self.feet.text} are {metric}"

    def for_author(self, is_metric: bool) -> Length:
        """The half of the pair that binds an author who writes meters (or feet)."""
        return self.metric if is_metric else self.feet


class RoofSlope(Quantity):
    """The slope of a roof, as the trade writes it: ``4 in 12``, or in degrees; ``rise_per_run`` [-]."""

    __slots__ = ("rise_per_run",)
    NAME: ClassVar[str] = "roof slope"
    EXAMPLES: ClassVar[tuple[str, ...]] = ("4 in 12", "18 deg")
    UNITS: ClassVar[tuple[str, ...]] = ("deg", "\N{DEGREE SIGN}")
    PATTERN: ClassVar[str] = (
        rf"^(?:{DECIMAL} in [1-9][0-9]{{0,2}}|[0-8]?[0-9](?:\.[0-9]{{1,15}})? ?" + "(?:deg|\N{DEGREE SIGN}))$"
    )

    rise_per_run: float

    def _read(self, match: re.Match[str]) -> None:
        rise, parted, run = self.text.partition(" in ")
        if parted:
            self.rise_per_run = float(rise) / float(run)
        else:
            self.rise_per_run = tan(radians(float(rise.removesuffix("deg").removesuffix("\N{DEGREE SIGN}"))))


class Beside(Quantity):
    """What runs or stands beside a cable, with its distance: ``power cable at 12 in``."""

    __slots__ = ("distance", "what")
    NAME: ClassVar[str] = "neighbor with its distance"
    EXAMPLES: ClassVar[tuple[str, ...]] = ("power cable at 12 in", "lightning conductor at 2 m")
    UNITS: ClassVar[tuple[str, ...]] = ()
    PATTERN: ClassVar[str] = f"^{alternatives(NEIGHBORS)} at (?:{_SINGLE}|{_FEET_AND_INCHES})$"

    what: str
    distance: Length

    def _read(self, match: re.Match[str]) -> None:
        self.what, _, distance = self.text.partition(" at ")
        self.distance = Length.parse(distance)


def in_system(length: Length, is_metric: bool) -> float:
    """A length as a number of meters, or of feet: limits are compared in the author's own system."""
    return length.length_m if is_metric else length.length_ft


def is_at_most(length: Length, limit: Length) -> bool:
    """Whether a length is not above a limit, in the system in which its author writes."""
    return at_most(in_system(length, length.is_metric), in_system(limit, length.is_metric))


def is_at_least(length: Length, limit: Length) -> bool:
    """Whether a length is not below a limit, in the system in which its author writes."""
    return at_least(in_system(length, length.is_metric), in_system(limit, length.is_metric))


def total(lengths: list[Length]) -> Length:
    """The sum, in feet where every part was written in feet or inches, otherwise in meters; empty is 0 m."""
    if len(lengths) == 1:
        return lengths[0]
    if lengths and not any(length.is_metric for length in lengths):
        return in_feet(sum(length.length_ft for length in lengths))
    return in_meters(sum(length.length_m for length in lengths))


def in_feet(length_ft: float, decimals: int = 1) -> Length:
    """A computed length that is shown in feet."""
    return _computed(length_ft, "ft", decimals)


def in_meters(length_m: float, decimals: int = 2) -> Length:
    """A computed length that is shown in meters."""
    return _computed(length_m, "m", decimals)


def in_system_of(author: Length, length_m: float) -> Length:
    """A computed length shown as ``author`` writes."""
    return in_meters(length_m) if author.is_metric else in_feet(length_m / FOOT_M)


def _computed(value: float, unit: str, decimals: int) -> Length:
    quantity: Any = Length.__new__(Length)
    quantity.text = f"{shown(value, decimals)} {unit}"
    quantity.is_metric = unit == "m"
    quantity.length_m = value if unit == "m" else value * FOOT_M
    quantity.length_ft = value / FOOT_M if unit == "m" else value
    return quantity  # type: ignore[no-any-return]


def shown(value: float, decimals: int) -> str:
    """A number for people: at most ``decimals`` places, never rounded to a zero that it is not."""
    text = f"{value + 0.0:.{decimals}f}"  # adding zero makes the negative zero plain
    if float(text) == 0 and value != 0:
        text = f"{Decimal(f'{value:.1g}'):f}"
    return text.rstrip("0").rstrip(".") if "." in text else text
