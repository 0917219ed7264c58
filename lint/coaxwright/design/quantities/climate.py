"""Temperatures and the range of temperatures of a place."""

from __future__ import annotations

import re
from typing import ClassVar

from coaxwright.design.quantities.base import SIGNED, Quantity, alternatives, nearest_range, number

_CELSIUS = ("\N{DEGREE SIGN}C", "deg C", "C")
_FAHRENHEIT = ("\N{DEGREE SIGN}F", "deg F", "F")
_TEMPERATURE = f"{SIGNED} ?{alternatives((*_CELSIUS, *_FAHRENHEIT))}"


class Temperature(Quantity):
    """A temperature; ``temperature_c`` [degrees Celsius]."""

    __slots__ = ("temperature_c",)
    NAME: ClassVar[str] = "temperature"
    EXAMPLES: ClassVar[tuple[str, ...]] = ("20 \N{DEGREE SIGN}C", "68 \N{DEGREE SIGN}F")
    UNITS: ClassVar[tuple[str, ...]] = (*_CELSIUS, *_FAHRENHEIT)
    PATTERN: ClassVar[str] = f"^{_TEMPERATURE}$"

    temperature_c: float

    def _read(self, match: re.Match[str]) -> None:
        value, unit = _PARTS.fullmatch(self.text).groups()  # type: ignore[union-attr]
        degrees = number(value)
        self.temperature_c = degrees if unit in _CELSIUS else (degrees - 32) / 1.8


class TemperatureRange(Quantity):
    """The coldest and hottest a place gets: ``-10 °F to 130 °F``; ``coldest_c`` and ``hottest_c`` [°C]."""

    __slots__ = ("coldest_c", "hottest_c")
    NAME: ClassVar[str] = "temperature range"
    EXAMPLES: ClassVar[tuple[str, ...]] = (
        "-10 \N{DEGREE SIGN}F to 130 \N{DEGREE SIGN}F",
        "-25 to 55 \N{DEGREE SIGN}C",
    )
    UNITS: ClassVar[tuple[str, ...]] = ()
    PATTERN: ClassVar[str] = f"^{SIGNED}(?: ?{alternatives((*_CELSIUS, *_FAHRENHEIT))})? to {_TEMPERATURE}$"

    coldest_c: float
    hottest_c: float

    @classmethod
    def nearest(cls, text: object) -> str | None:
        """``10–130 °F`` as it is written here: ``10 to 130 °F``."""
        return nearest_range(cls, text)

    def _read(self, match: re.Match[str]) -> None:
        coldest, _, hottest = self.text.partition(" to ")
        unit = _PARTS.fullmatch(hottest).group(2)  # type: ignore[union-attr]
        self.coldest_c = Temperature.parse(coldest if coldest[-1].isalpha() else f"{coldest} {unit}").temperature_c
        self.hottest_c = Temperature.parse(hottest).temperature_c


_PARTS = re.compile(f"({SIGNED}) ?(\\D+)")
