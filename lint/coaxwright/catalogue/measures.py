"""Quantities that only data sheets use: shares in per cent; resistance, capacitance and impedance per length."""

from __future__ import annotations

import re
from typing import ClassVar

from coaxwright.design.quantities import Quantity
from coaxwright.design.quantities.base import DECIMAL, SIGNED, number

_M_PER_UNIT = {"ohm/1000 ft": 304.8, "ohm/km": 1000.0, "pF/ft": 0.3048, "pF/m": 1.0}


class Percent(Quantity):
    """A share in per cent; ``share`` [-] of 1."""

    __slots__ = ("share",)
    NAME: ClassVar[str] = "share in per cent"
    EXAMPLES: ClassVar[tuple[str, ...]] = ("85 %", "-8.0 %")
    UNITS: ClassVar[tuple[str, ...]] = ("%",)
    PATTERN: ClassVar[str] = f"^{SIGNED} ?%$"

    share: float

    def _read(self, match: re.Match[str]) -> None:
        self.share = number(self.text.removesuffix("%").rstrip()) / 100


class ResistancePerLength(Quantity):
    """The direct-current resistance of one conductor per length at 20 °C; ``resistance_ohm_per_m`` [ohm/m]."""

    __slots__ = ("resistance_ohm_per_m",)
    NAME: ClassVar[str] = "resistance per length"
    EXAMPLES: ClassVar[tuple[str, ...]] = ("6.39 ohm/1000 ft", "21 ohm/km")
    UNITS: ClassVar[tuple[str, ...]] = ("ohm/1000 ft", "ohm/km")
    PATTERN: ClassVar[str] = f"^{DECIMAL} (?:ohm/1000 ft|ohm/km)$"

    resistance_ohm_per_m: float

    def _read(self, match: re.Match[str]) -> None:
        value, _, unit = self.text.partition(" ")
        self.resistance_ohm_per_m = float(value) / _M_PER_UNIT[unit]


class CapacitancePerLength(Quantity):
    """The capacitance of a cable per length; ``capacitance_pf_per_m`` [pF/m]."""

    __slots__ = ("capacitance_pf_per_m",)
    NAME: ClassVar[str] = "capacitance per length"
    EXAMPLES: ClassVar[tuple[str, ...]] = ("15.9 pF/ft", "52 pF/m")
    UNITS: ClassVar[tuple[str, ...]] = ("pF/ft", "pF/m")
    PATTERN: ClassVar[str] = f"^{DECIMAL} (?:pF/ft|pF/m)$"

    capacitance_pf_per_m: float

    def _read(self, match: re.Match[str]) -> None:
        value, _, unit = self.text.partition(" ")
        self.capacitance_pf_per_m = float(value) / _M_PER_UNIT[unit]


class TransferImpedance(Quantity):
    """The transfer impedance of a shield per length; ``impedance_ohm_per_m`` [ohm/m]."""

    __slots__ = ("impedance_ohm_per_m",)
    NAME: ClassVar[str] = "transfer impedance"
    EXAMPLES: ClassVar[tuple[str, ...]] = ("5 mohm/m",)
    UNITS: ClassVar[tuple[str, ...]] = ("mohm/m",)
    PATTERN: ClassVar[str] = f"^{DECIMAL} mohm/m$"

    impedance_ohm_per_m: float

    def _read(self, match: re.Match[str]) -> None:
        self.impedance_ohm_per_m = float(self.text.removesuffix("mohm/m")) / 1000
