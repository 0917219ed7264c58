"""What a catalogue holds, frozen: sources, jackets, cable classes, devices."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum

from coaxwright.catalogue.losses import Attenuation, SpreadDb
from coaxwright.physics.comparison import at_least, at_most


@dataclass(frozen=True, slots=True)
class Source:
    """Where a figure comes from, and how sure we are of it."""

    document: str
    confidence: str
    """found, found in part, derived, memory, memory low, common practice."""
    edition: str | None = None
    clause: str | None = None
    note: str | None = None

    @property
    def line(self) -> str:
        """The source in one line: ``ANSI/SCTE 74, 2003 and 2011, dimensions (memory)``."""
        parts = ", ".join(part for part in (self.document, self.edition, self.clause) if part)
        return parts if self.confidence == "common practice" else f"{parts} ({self.confidence})"


@dataclass(frozen=True, slots=True)
class Jacket:
    """A jacket, or several words for one jacket combined."""

    name: str
    resists_sun_and_wet: bool
    burial_rated: bool
    us_mark: str | None
    """The listing mark that such cable usually carries in the US; None where it usually carries none."""
    combines_with: frozenset[str]
    description: str
    sources: Mapping[str, Source]


@dataclass(frozen=True, slots=True)
class Shield:
    name: str
    outer_diameter_m: float | None
    """Over the jacket of a cable with this shield [m]."""
    resistance_ohm_per_m: float | None
    """Direct current, at 20 °C [ohm/m]."""


@dataclass(frozen=True, slots=True)
class Centre:
    name: str
    resistance_ohm_per_m: float | None
    """Direct current, at 20 °C [ohm/m]."""


@dataclass(frozen=True, slots=True)
class Defaults:
    """The construction meant where the buyer's words do not say."""

    shield: str
    centre: str
    jacket: str


@dataclass(frozen=True, slots=True)
class CableClass:
    """One class of cable with the options it is made in."""

    name: str
    description: str
    impedance_ohm: float
    impedance_tolerance_ohm: float | None
    velocity_factor: float
    capacitance_pf_per_m: float | None
    centre_diameter_m: float
    dielectric_diameter_m: float
    attenuation: Attenuation
    shields: Mapping[str, Shield]
    centres: Mapping[str, Centre]
    jackets: Mapping[str, Jacket]
    defaults: Defaults
    hints: tuple[str, ...]
    """Names that do not fix the construction and are not accepted: the class is then suggested."""
    sources: Mapping[str, Source]


class Direction(StrEnum):
    """Which way the downstream signal passes a port; ``either`` where the device is alike both ways."""

    IN = "in"
    OUT = "out"
    EITHER = "either"


@dataclass(frozen=True, slots=True)
class Port:
    name: str
    direction: Direction
    group: str
    """Ports of one group are electrically alike."""
    impedance_ohm: float
    connector: str


@dataclass(frozen=True, slots=True)
class PathLoss:
    """The loss from one port (or group of ports) of a device to another in one band; the same both ways."""

    from_end: str
    to_end: str
    low_hz: float
    high_hz: float
    loss: SpreadDb
    sources: Mapping[str, Source]

    def joins(self, one: Port, other: Port) -> bool:
        ends = (self.from_end, self.to_end)
        return _fits(ends, one, other) or _fits(ends, other, one)


def _fits(ends: tuple[str, str], one: Port, other: Port) -> bool:
    return ends[0] in (one.name, one.group) and ends[1] in (other.name, other.group)


@dataclass(frozen=True, slots=True)
class DeviceEntry:
    """One device by kind, ways and variant."""

    name: str
    kind: str
    ways: int | None
    variant: str | None
    description: str
    ports: tuple[Port, ...]
    paths: tuple[PathLoss, ...]
    protects: bool
    """Whether it is a protector or grounding point in the sense of the codes."""
    bonds_shield: bool
    passes_power: bool | None
    """Whether a direct-current feed passes; None where that differs from one to the next."""
    needs_power: bool
    gain: SpreadDb | None
    noise_figure: SpreadDb | None
    sources: Mapping[str, Source]

    def port(self, name: str) -> Port | None:
        """The port of that name, or None."""
        return next((port for port in self.ports if port.name == name), None)

    def loss(self, from_port: str, to_port: str, freq_hz: float) -> SpreadDb | None:
        """Low, nominal and high loss [dB] between two ports at a frequency [Hz]; None where no figure is known."""
        one, other = self.port(from_port), self.port(to_port)
        if one is None or other is None or one is other:
            return None
        for path in self.paths:
            if path.joins(one, other) and at_least(freq_hz, path.low_hz) and at_most(freq_hz, path.high_hz):
                return path.loss
        return None
