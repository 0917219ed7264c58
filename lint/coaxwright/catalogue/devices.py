"""What a catalogue says of a device, frozen, and the questions that it answers."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import field
from enum import StrEnum
from itertools import permutations

from coaxwright.catalogue.entries import Source
from coaxwright.catalogue.losses import SpreadDb
from coaxwright.catalogue.options import Options
from coaxwright.frozen_value import frozen_value
from coaxwright.physics.comparison import at_least, at_most

_MOST_KEPT = 5_000
"""Answers kept of one device: more than any grid, so that a long run cannot grow without end."""


class Direction(StrEnum):
    """Which way the downstream signal passes a port; ``either`` where the device is alike both ways."""

    IN = "in"
    OUT = "out"
    EITHER = "either"


@frozen_value
class Port:
    name: str
    direction: Direction
    group: str
    """Ports of one group are electrically alike."""
    impedance_ohm: float
    connector: str
    band_hz: tuple[float, float] | None = None
    """Lowest and highest frequency [Hz] that a device at the end of a way sends or takes here, where that is known."""


@frozen_value
class Ends:
    """Two ports, or groups of ports, of a device; ``one_way`` holds from the first to the second only."""

    from_end: str
    to_end: str
    one_way: bool = False

    def join(self, one: Port, other: Port) -> bool:
        """Whether this holds from ``one`` to ``other``."""
        forward = _is(self.from_end, one) and _is(self.to_end, other)
        return forward or (not self.one_way and self.join_backwards(one, other))

    def join_backwards(self, one: Port, other: Port) -> bool:
        return _is(self.from_end, other) and _is(self.to_end, one)


def _is(end: str, port: Port) -> bool:
    return end in (port.name, port.group)


@frozen_value
class PathLoss:
    """The loss between two ports of a device in one band; a gain is a negative loss."""

    ends: Ends
    low_hz: float
    high_hz: float
    loss: SpreadDb
    sources: Mapping[str, Source]
    amplified: bool = False
    """Whether the loss is the device's gain; a design's own gain then takes its place."""

    def reaches(self, freq_hz: float) -> bool:
        return at_least(freq_hz, self.low_hz) and at_most(freq_hz, self.high_hz)


@frozen_value
class PowerPath:
    """Whether a direct-current feed passes between two ports."""

    ends: Ends
    passes: bool
    source: Source


@frozen_value
class DeviceEntry:
    """One device by kind and options.

    Its questions are put in port names; a name that it does not have is answered like a figure that is not known.
    """

    name: str
    kind: str
    options: Options
    description: str
    ports: tuple[Port, ...]
    paths: tuple[PathLoss, ...]
    """Where the signal passes."""
    isolations: tuple[PathLoss, ...]
    """Where it is kept apart: between outputs, in the stop band of a filter, backwards through an amplifier."""
    protects: bool
    """Whether it is a protector or grounding point in the sense of the codes."""
    bonds_shield: bool
    isolates_shield: bool
    """Whether the shield ends in it, so that no direct current flows from one side to the other."""
    passes_power: bool | None
    """Whether a direct-current feed passes, where ``power_paths`` say nothing else; None where that is not known."""
    power_paths: tuple[PowerPath, ...]
    needs_power: bool
    fed_ports: tuple[Port, ...]
    """The ports at which it takes its power off the cable; empty where it needs none or has its own supply."""
    feeding_ports: tuple[Port, ...]
    """The ports at which it puts power on the cable."""
    is_seldom: bool
    """Whether a remedy offers others of its kind instead."""
    gain: SpreadDb | None
    noise_figure: SpreadDb | None
    sources: Mapping[str, Source]
    _known: dict[tuple[str, str, float], PathLoss | None] = field(default_factory=dict, compare=False, repr=False)
    """Paths asked for before: designs ask for the same few frequencies."""
    _passing: dict[tuple[str, tuple[float, ...], bool], Mapping[str, int]] = field(
        default_factory=dict, compare=False, repr=False
    )
    _apart: dict[tuple[str, str, float], PathLoss | None] = field(default_factory=dict, compare=False, repr=False)

    @property
    def ways(self) -> int | None:
        return self.options.ways

    @property
    def variant(self) -> str | None:
        return self.options.variant

    @property
    def is_passive(self) -> bool:
        """Whether it only loses signal."""
        return self.gain is None and not self.needs_power

    def port(self, name: str) -> Port | None:
        """The port of that name, or None."""
        return next((port for port in self.ports if port.name == name), None)

    def path(self, from_port: str, to_port: str, freq_hz: float) -> PathLoss | None:
        """The path of a signal from one port to another at a frequency [Hz]; None where none is known."""
        key = (from_port, to_port, freq_hz)
        if key not in self._known:
            if len(self._known) >= _MOST_KEPT:
                self._known.clear()
            self._known[key] = self._first(self.paths, from_port, to_port, freq_hz)
        return self._known[key]

    def passing_from(self, port: str, grid_hz: tuple[float, ...], backwards: bool = False) -> Mapping[str, int]:
        """For each other port to which any frequency of a grid [Hz] passes, those that do: bit n is the n-th.

        ``backwards``: the ports from which they come to this one.
        """
        key = (port, grid_hz, backwards)
        if key not in self._passing:
            if len(self._passing) >= _MOST_KEPT:
                self._passing.clear()
            found: dict[str, int] = {}
            for other in self.ports:
                if other.name != port:
                    ends = (other.name, port) if backwards else (port, other.name)
                    found[other.name] = sum(
                        1 << index for index, freq_hz in enumerate(grid_hz) if self.path(*ends, freq_hz) is not None
                    )
            self._passing[key] = {name: bits for name, bits in found.items() if bits}
        return self._passing[key]

    def loss(self, from_port: str, to_port: str, freq_hz: float) -> SpreadDb | None:
        """Low, nominal and high loss [dB] from port to port at a frequency [Hz]; None where no figure is known.

        A gain is a negative loss.
        """
        path = self.path(from_port, to_port, freq_hz)
        return path.loss if path is not None else None

    def isolation(self, from_port: str, to_port: str, freq_hz: float) -> SpreadDb | None:
        """How far two ports are kept apart [dB] at a frequency [Hz]; None where no figure is known."""
        key = (from_port, to_port, freq_hz)
        if key not in self._apart:
            if len(self._apart) >= _MOST_KEPT:
                self._apart.clear()
            self._apart[key] = self._first(self.isolations, from_port, to_port, freq_hz)
        isolation = self._apart[key]
        return isolation.loss if isolation is not None else None

    def passes(self, from_port: str, to_port: str, freq_hz: float) -> bool | None:
        """Whether a signal passes from port to port at a frequency [Hz]; None where that is not known."""
        if self.path(from_port, to_port, freq_hz) is not None:
            return True
        one, other = self.port(from_port), self.port(to_port)
        if one is None or other is None:
            return None
        against = any(
            path.ends.one_way and path.ends.join_backwards(one, other) and path.reaches(freq_hz) for path in self.paths
        )
        return False if against or self.isolation(from_port, to_port, freq_hz) is not None else None

    def passing(self, freq_hz: float) -> tuple[tuple[Port, Port], ...]:
        """The pairs of ports, from and to, that a signal of a frequency [Hz] is known to pass."""
        return tuple(
            (one, other)
            for one, other in permutations(self.ports, 2)
            if any(path.ends.join(one, other) and path.reaches(freq_hz) for path in self.paths)
        )

    def power_passes(self, one_port: str, other_port: str) -> bool | None:
        """Whether a direct-current feed passes between two ports; None where that is not known."""
        one, other = self.port(one_port), self.port(other_port)
        if one is None or other is None or one is other:
            return None
        for path in self.power_paths:
            if path.ends.join(one, other):
                return path.passes
        return self.passes_power

    def _first(self, paths: Iterable[PathLoss], from_port: str, to_port: str, freq_hz: float) -> PathLoss | None:
        one, other = self.port(from_port), self.port(to_port)
        if one is None or other is None or one is other:
            return None
        return next((path for path in paths if path.ends.join(one, other) and path.reaches(freq_hz)), None)
