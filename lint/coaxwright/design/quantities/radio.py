"""Frequencies, bands, levels, decibels and impedances."""

from __future__ import annotations

import re
from math import log10
from typing import ClassVar

from coaxwright.design.quantities.base import (
    DECIMAL,
    FRACTION,
    NUMBER,
    SIGNED,
    Quantity,
    alternatives,
    nearest_range,
    number,
)

_HERTZ = {"Hz": 1.0, "kHz": 1e3, "MHz": 1e6, "GHz": 1e9}
_FREQUENCY = f"{DECIMAL} ?{alternatives(_HERTZ)}"

DBMV_OF_DBM_75_OHM = 10 * log10(75) + 30
"""0 dBm in 75 ohm is 48.75 dBmV (identity: V = sqrt(P R))."""
_DBMV_OFFSET = {"dBmV": 0.0, "dB\N{MICRO SIGN}V": -60.0, "dB\N{GREEK SMALL LETTER MU}V": -60.0, "dBuV": -60.0}
_LEVEL_UNITS = (*_DBMV_OFFSET, "dBm")


class Frequency(Quantity):
    """A frequency; ``freq_hz`` [Hz]."""

    __slots__ = ("freq_hz",)
    NAME: ClassVar[str] = "frequency"
    EXAMPLES: ClassVar[tuple[str, ...]] = ("533 MHz", "1.2 GHz")
    UNITS: ClassVar[tuple[str, ...]] = tuple(_HERTZ)
    PATTERN: ClassVar[str] = f"^{_FREQUENCY}$"

    freq_hz: float

    def _read(self, match: re.Match[str]) -> None:
        value, unit = _NUMBER_AND_UNIT.fullmatch(self.text).groups()  # type: ignore[union-attr]
        self.freq_hz = float(value) * _HERTZ[unit]


class Band(Quantity):
    """A band of frequencies; ``low_hz`` and ``high_hz`` [Hz]."""

    __slots__ = ("high", "low")
    NAME: ClassVar[str] = "band"
    EXAMPLES: ClassVar[tuple[str, ...]] = ("54 MHz to 1002 MHz", "5 to 42 MHz")
    UNITS: ClassVar[tuple[str, ...]] = ()
    PATTERN: ClassVar[str] = f"^{DECIMAL}(?: ?{alternatives(_HERTZ)})? to {_FREQUENCY}$"

    low: Frequency
    high: Frequency

    @classmethod
    def nearest(cls, text: object) -> str | None:
        """``54-1002 MHz`` as it is written here: ``54 to 1002 MHz``."""
        return nearest_range(cls, text)

    def _read(self, match: re.Match[str]) -> None:
        low, _, high = self.text.partition(" to ")
        unit = _NUMBER_AND_UNIT.fullmatch(high).group(2)  # type: ignore[union-attr]
        ends = (Frequency.parse(low if low[-1].isalpha() else f"{low} {unit}"), Frequency.parse(high))
        self.low, self.high = sorted(ends, key=lambda end: end.freq_hz)  # the other way round it is the same band

    @property
    def low_hz(self) -> float:
        return self.low.freq_hz

    @property
    def high_hz(self) -> float:
        return self.high.freq_hz


class Level(Quantity):
    """A signal level. ``level_dbmv`` [dBmV] is defined for voltages; dBm is taken in 75 ohm."""

    __slots__ = ("level_dbmv",)
    NAME: ClassVar[str] = "level"
    EXAMPLES: ClassVar[tuple[str, ...]] = ("6 dBmV", "66 dB\N{MICRO SIGN}V", "-42 dBm")
    UNITS: ClassVar[tuple[str, ...]] = _LEVEL_UNITS
    PATTERN: ClassVar[str] = f"^{SIGNED} ?{alternatives(_LEVEL_UNITS)}$"

    level_dbmv: float

    def _read(self, match: re.Match[str]) -> None:
        value, unit = _NUMBER_AND_UNIT.fullmatch(self.text).groups()  # type: ignore[union-attr]
        offset = DBMV_OF_DBM_75_OHM if unit == "dBm" else _DBMV_OFFSET[unit]
        self.level_dbmv = number(value) + offset


class LevelAt(Quantity):
    """A level at one frequency: ``10 dBmV at 54 MHz``."""

    __slots__ = ("frequency", "level")
    NAME: ClassVar[str] = "level at a frequency"
    EXAMPLES: ClassVar[tuple[str, ...]] = ("10 dBmV at 54 MHz",)
    UNITS: ClassVar[tuple[str, ...]] = ()
    PATTERN: ClassVar[str] = f"^{SIGNED} ?{alternatives(_LEVEL_UNITS)} at {_FREQUENCY}$"

    level: Level
    frequency: Frequency

    def _read(self, match: re.Match[str]) -> None:
        level, _, frequency = self.text.partition(" at ")
        self.level = Level.parse(level)
        self.frequency = Frequency.parse(frequency)


class FieldStrength(Quantity):
    """A field strength at an antenna; ``field_dbuv_per_m`` [dBuV/m]."""

    __slots__ = ("field_dbuv_per_m",)
    NAME: ClassVar[str] = "field strength"
    EXAMPLES: ClassVar[tuple[str, ...]] = ("62 dB\N{MICRO SIGN}V/m",)
    UNITS: ClassVar[tuple[str, ...]] = (
        "dB\N{MICRO SIGN}V/m",
        "dB\N{GREEK SMALL LETTER MU}V/m",
        "dBuV/m",
    )
    PATTERN: ClassVar[str] = f"^{SIGNED} ?{alternatives(UNITS)}$"

    field_dbuv_per_m: float

    def _read(self, match: re.Match[str]) -> None:
        value, _ = _NUMBER_AND_UNIT.fullmatch(self.text).groups()  # type: ignore[union-attr]
        self.field_dbuv_per_m = number(value)


class Decibels(Quantity):
    """A gain, loss or ratio; ``ratio_db`` [dB]."""

    __slots__ = ("ratio_db",)
    NAME: ClassVar[str] = "ratio in decibels"
    EXAMPLES: ClassVar[tuple[str, ...]] = ("3.5 dB",)
    UNITS: ClassVar[tuple[str, ...]] = ("dB",)
    PATTERN: ClassVar[str] = f"^{SIGNED} ?dB$"

    ratio_db: float

    def _read(self, match: re.Match[str]) -> None:
        self.ratio_db = number(self.text.removesuffix("dB").rstrip())


class Loss(Quantity):
    """What a passive part loses; ``loss_db`` [dB], never below zero."""

    __slots__ = ("loss_db",)
    NAME: ClassVar[str] = "loss in decibels"
    EXAMPLES: ClassVar[tuple[str, ...]] = ("3.5 dB",)
    UNITS: ClassVar[tuple[str, ...]] = ("dB",)
    PATTERN: ClassVar[str] = f"^{DECIMAL} ?dB$"

    loss_db: float

    @classmethod
    def nearest(cls, text: object) -> str | None:
        """``-3.5 dB`` as it is written here: a loss has no sign."""
        unsigned = text.lstrip("-+\N{MINUS SIGN}") if isinstance(text, str) else text
        return unsigned if isinstance(unsigned, str) and cls.matches(unsigned) else super().nearest(unsigned)

    def _read(self, match: re.Match[str]) -> None:
        self.loss_db = float(self.text.removesuffix("dB").rstrip())


class AntennaGain(Quantity):
    """The gain of an antenna over an isotropic radiator; ``gain_dbi`` [dBi]. A half-wave dipole has 2.15 dBi."""

    __slots__ = ("gain_dbi",)
    NAME: ClassVar[str] = "antenna gain"
    EXAMPLES: ClassVar[tuple[str, ...]] = ("9 dBi", "7 dBd")
    UNITS: ClassVar[tuple[str, ...]] = ("dBi", "dBd")
    PATTERN: ClassVar[str] = f"^{SIGNED} ?(?:dBi|dBd)$"

    gain_dbi: float

    def _read(self, match: re.Match[str]) -> None:
        value, unit = _NUMBER_AND_UNIT.fullmatch(self.text).groups()  # type: ignore[union-attr]
        self.gain_dbi = number(value) + (2.15 if unit == "dBd" else 0.0)


class Gain(Quantity):
    """A gain of either sort; the kind of device decides which one it must be. ``gain_db`` [dB or dBi]."""

    __slots__ = ("gain_db",)
    NAME: ClassVar[str] = "gain"
    EXAMPLES: ClassVar[tuple[str, ...]] = ("9 dBi", "16 dB")
    UNITS: ClassVar[tuple[str, ...]] = ("dB", "dBi", "dBd")
    PATTERN: ClassVar[str] = f"^{SIGNED} ?(?:dBi|dBd|dB)$"

    gain_db: float

    def _read(self, match: re.Match[str]) -> None:
        value, unit = _NUMBER_AND_UNIT.fullmatch(self.text).groups()  # type: ignore[union-attr]
        self.gain_db = number(value) + (2.15 if unit == "dBd" else 0.0)


class LossPerLength(Quantity):
    """The attenuation of a cable per length; ``loss_db_per_m`` [dB/m]."""

    __slots__ = ("loss_db_per_m",)
    NAME: ClassVar[str] = "attenuation"
    EXAMPLES: ClassVar[tuple[str, ...]] = ("6.55 dB/100 ft", "21.5 dB/100 m")
    UNITS: ClassVar[tuple[str, ...]] = ("dB/100 ft", "dB/100 m")
    PATTERN: ClassVar[str] = f"^{DECIMAL} ?dB/100 ?(?:ft|m)$"

    loss_db_per_m: float

    def _read(self, match: re.Match[str]) -> None:
        value, _, per = self.text.partition("dB/100")
        self.loss_db_per_m = float(value) / (30.48 if per.strip() == "ft" else 100.0)


class Impedance(Quantity):
    """A characteristic impedance; ``impedance_ohm`` [ohm]."""

    __slots__ = ("impedance_ohm",)
    NAME: ClassVar[str] = "impedance"
    EXAMPLES: ClassVar[tuple[str, ...]] = ("75 ohm", "50 \N{GREEK CAPITAL LETTER OMEGA}")
    UNITS: ClassVar[tuple[str, ...]] = (
        "ohm",
        "ohms",
        "Ohm",
        "\N{GREEK CAPITAL LETTER OMEGA}",
        "\N{OHM SIGN}",
    )
    PATTERN: ClassVar[str] = f"^{NUMBER} ?{alternatives(UNITS)}$"

    impedance_ohm: float

    def _read(self, match: re.Match[str]) -> None:
        value, _ = _NUMBER_AND_UNIT.fullmatch(self.text).groups()  # type: ignore[union-attr]
        self.impedance_ohm = number(value)


class LevelRange(Quantity):
    """A window of levels: ``-6 dBmV to 12 dBmV``, ``47 to 77 dB\N{MICRO SIGN}V``; ``low`` and ``high``."""

    __slots__ = ("high", "low")
    NAME: ClassVar[str] = "range of levels"
    EXAMPLES: ClassVar[tuple[str, ...]] = ("-6 dBmV to 12 dBmV", "47 to 77 dB\N{MICRO SIGN}V")
    UNITS: ClassVar[tuple[str, ...]] = ()
    PATTERN: ClassVar[str] = f"^{SIGNED}(?: ?{alternatives(_LEVEL_UNITS)})? to {SIGNED} ?{alternatives(_LEVEL_UNITS)}$"

    low: Level
    high: Level

    @classmethod
    def nearest(cls, text: object) -> str | None:
        """``47\N{EN DASH}77 dBuV`` as it is written here: ``47 to 77 dBuV``."""
        return nearest_range(cls, text)

    def _read(self, match: re.Match[str]) -> None:
        low, _, high = self.text.partition(" to ")
        unit = _NUMBER_AND_UNIT.fullmatch(high).group(2)  # type: ignore[union-attr]
        ends = (Level.parse(low if low[-1].isalpha() else f"{low} {unit}"), Level.parse(high))
        self.low, self.high = sorted(ends, key=lambda end: end.level_dbmv)  # the other way round it is the same window


class LossAt(Quantity):
    """A loss read at one frequency: ``4.2 dB at 750 MHz``; ``loss_db`` [dB], never below zero.

    Sweep meters print what comes through or back as a gain, -4.2 dB: that sign is no part of the loss.
    """

    __slots__ = ("frequency", "loss_db")
    NAME: ClassVar[str] = "loss at a frequency"
    EXAMPLES: ClassVar[tuple[str, ...]] = ("4.2 dB at 750 MHz",)
    UNITS: ClassVar[tuple[str, ...]] = ()
    PATTERN: ClassVar[str] = f"^{SIGNED} ?dB at {_FREQUENCY}$"

    loss_db: float
    frequency: Frequency

    def _read(self, match: re.Match[str]) -> None:
        loss, _, frequency = self.text.partition(" at ")
        self.loss_db = abs(number(loss.removesuffix("dB").rstrip()))
        self.frequency = Frequency.parse(frequency)


class DiplexSplit(Quantity):
    """Where up- and downstream part: ``42/54 MHz``; ``up_to_hz`` and ``down_from_hz`` [Hz]."""

    __slots__ = ("down_from_hz", "up_to_hz")
    NAME: ClassVar[str] = "diplex split"
    EXAMPLES: ClassVar[tuple[str, ...]] = ("42/54 MHz", "85/102 MHz", "204/258 MHz")
    UNITS: ClassVar[tuple[str, ...]] = ()
    PATTERN: ClassVar[str] = f"^{DECIMAL} ?/ ?{DECIMAL} ?MHz$"

    up_to_hz: float
    down_from_hz: float

    def _read(self, match: re.Match[str]) -> None:
        up, _, down = self.text.removesuffix("MHz").partition("/")
        self.up_to_hz = float(up) * _HERTZ["MHz"]
        self.down_from_hz = float(down) * _HERTZ["MHz"]


_NUMBER_AND_UNIT = re.compile(f"({FRACTION}|{SIGNED}) ?(\\D\\S*)")
