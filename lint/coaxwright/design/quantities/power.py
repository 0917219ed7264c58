"""Voltage, current and resistance of a feed over the coax, and the bending moment of a mast."""

from __future__ import annotations

import re
from typing import ClassVar

from coaxwright.design.quantities.base import DECIMAL, Quantity, alternatives

_VOLTS = {"V": 1.0, "mV": 1e-3, "kV": 1e3}
_AMPERES = {"A": 1.0, "mA": 1e-3}
_OHMS = {
    "ohm": 1.0,
    "ohms": 1.0,
    "\N{GREEK CAPITAL LETTER OMEGA}": 1.0,
    "\N{OHM SIGN}": 1.0,
    "mohm": 1e-3,
    "kohm": 1e3,
}


class Voltage(Quantity):
    """A voltage; ``voltage_v`` [V]."""

    __slots__ = ("voltage_v",)
    NAME: ClassVar[str] = "voltage"
    EXAMPLES: ClassVar[tuple[str, ...]] = ("15 V", "240 V")
    UNITS: ClassVar[tuple[str, ...]] = tuple(_VOLTS)
    PATTERN: ClassVar[str] = f"^{DECIMAL} ?{alternatives(_VOLTS)}$"

    voltage_v: float

    def _read(self, match: re.Match[str]) -> None:
        self.voltage_v = _value(self.text, _VOLTS)


class Current(Quantity):
    """A current; ``current_a`` [A]."""

    __slots__ = ("current_a",)
    NAME: ClassVar[str] = "current"
    EXAMPLES: ClassVar[tuple[str, ...]] = ("100 mA", "0.5 A")
    UNITS: ClassVar[tuple[str, ...]] = tuple(_AMPERES)
    PATTERN: ClassVar[str] = f"^{DECIMAL} ?{alternatives(_AMPERES)}$"

    current_a: float

    def _read(self, match: re.Match[str]) -> None:
        self.current_a = _value(self.text, _AMPERES)


class Resistance(Quantity):
    """A direct-current resistance; ``resistance_ohm`` [ohm]."""

    __slots__ = ("resistance_ohm",)
    NAME: ClassVar[str] = "resistance"
    EXAMPLES: ClassVar[tuple[str, ...]] = ("0.8 ohm", "25 mohm")
    UNITS: ClassVar[tuple[str, ...]] = tuple(_OHMS)
    PATTERN: ClassVar[str] = f"^{DECIMAL} ?{alternatives(_OHMS)}$"

    resistance_ohm: float

    def _read(self, match: re.Match[str]) -> None:
        self.resistance_ohm = _value(self.text, _OHMS)


class BendingMoment(Quantity):
    """The bending moment that the wind puts on a mast at its upper support; ``moment_nm`` [N m]."""

    __slots__ = ("moment_nm",)
    NAME: ClassVar[str] = "bending moment"
    EXAMPLES: ClassVar[tuple[str, ...]] = ("900 N m",)
    UNITS: ClassVar[tuple[str, ...]] = ("N m", "Nm")
    PATTERN: ClassVar[str] = f"^{DECIMAL} ?(?:N m|Nm)$"

    moment_nm: float

    def _read(self, match: re.Match[str]) -> None:
        self.moment_nm = float(_PARTS.fullmatch(self.text).group(1))  # type: ignore[union-attr]


_PARTS = re.compile(f"({DECIMAL}) ?(\\D+)")


def _value(text: str, units: dict[str, float]) -> float:
    value, unit = _PARTS.fullmatch(text).groups()  # type: ignore[union-attr]
    return float(value) * units[unit]
