"""The ways of a signal, port by port, for a whole grid of frequencies in one walk.

A filter or diplexer sends some frequencies one way and some another, so each arrival carries the set of frequencies
that come by that way. A frequency that arrives at one port by two ways is noted: that is a loop.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import field

from coaxwright.catalogue import Port
from coaxwright.frozen_value import frozen_value
from coaxwright.network.nodes import CableLink, DeviceNode

Grid = tuple[float, ...]
"""Frequencies [Hz]."""
Frequencies = int
"""A set of frequencies of a grid: bit ``n`` stands for the ``n``-th."""


@frozen_value(eq=False)
class Arrival:
    """A signal at a port of a device, and the way by which it came."""

    device: DeviceNode
    port: Port
    frequencies: Frequencies
    before: Arrival | None
    """Where it was before; None where it begins."""
    cable: CableLink | None
    """The cable it came over; None where it came through the device itself, from a part screwed on, or begins here."""

    @property
    def is_through(self) -> bool:
        """Whether it came through the device from another of its ports."""
        return self.before is not None and self.before.device is self.device

    @property
    def way(self) -> tuple[Arrival, ...]:
        """Every port from the beginning to here."""
        steps = [self]
        while steps[-1].before is not None:
            steps.append(steps[-1].before)
        return tuple(reversed(steps))


@frozen_value(eq=False)
class Stop:
    """Frequencies that come to a device of several ports and pass to none of them."""

    arrival: Arrival
    frequencies: Frequencies
    is_known: bool
    """Whether the catalogue says that they are stopped; else it has no figure there."""


@frozen_value
class Signal:
    """Where a signal goes: every port it reaches, nearest first."""

    grid_hz: Grid
    arrivals: tuple[Arrival, ...]
    stops: tuple[Stop, ...]
    doubles: tuple[Arrival, ...]
    """Arrivals of frequencies that had come to the same port by another way before."""
    _by_device: dict[str, list[Arrival]] = field(default_factory=dict, repr=False)

    def at(self, device: str) -> tuple[Arrival, ...]:
        """The arrivals at a device from outside of it, or where the signal begins in it."""
        return tuple(arrival for arrival in self.ports_of(device) if not arrival.is_through)

    def ports_of(self, device: str) -> tuple[Arrival, ...]:
        """The arrivals at all ports of a device, those through the device itself included."""
        return tuple(self._by_device.get(device, ()))

    @property
    def devices(self) -> Iterable[str]:
        """The devices it reaches, and those at which it begins."""
        return self._by_device.keys()

    def reaches(self, device: str) -> bool:
        return device in self._by_device

    def hertz(self, frequencies: Frequencies) -> Grid:
        """The frequencies of a set [Hz]."""
        return tuple(freq_hz for index, freq_hz in enumerate(self.grid_hz) if frequencies >> index & 1)


class SignalGraph:
    """Ports, and what each is joined to: the far port over a cable, or the port of a part screwed onto it."""

    def __init__(self, cables: Mapping[str, CableLink], fittings: Mapping[str, tuple[DeviceNode, DeviceNode, Port]]):
        """``fittings``: for each part screwed onto a device: the part, the device, the port of the device."""
        self._beyond: dict[tuple[str, str], list[tuple[DeviceNode, Port, CableLink | None]]] = defaultdict(list)
        for link in cables.values():
            near, far = link.ends
            if link.in_use and near.device and near.port and far.device and far.port:
                self._beyond[near.device.tag, near.port.name].append((far.device, far.port, link))
                self._beyond[far.device.tag, far.port.name].append((near.device, near.port, link))
        for part, host, port in fittings.values():
            if part.ports:
                self._beyond[host.tag, port.name].append((part, part.ports[0], None))
                self._beyond[part.tag, part.ports[0].name].append((host, port, None))

    def beyond(self, device: str, port: str) -> Sequence[tuple[DeviceNode, Port, CableLink | None]]:
        """What a port is joined to; more than one thing only where the design has two cables on it."""
        return self._beyond.get((device, port), ())


def follow(graph: SignalGraph, starts: Sequence[tuple[DeviceNode, Port]], grid_hz: Grid, backwards: bool) -> Signal:
    """The ways of a signal that begins at some ports; or, backwards, the ways that lead to them."""
    return _Walk(graph, grid_hz, backwards).walk(starts)


class _Walk:
    def __init__(self, graph: SignalGraph, grid_hz: Grid, backwards: bool) -> None:
        self.graph = graph
        self.grid_hz = grid_hz
        self.backwards = backwards
        self.whole: Frequencies = (1 << len(grid_hz)) - 1
        self.seen: dict[tuple[str, str, bool], Frequencies] = {}
        self.doubles: list[Arrival] = []
        self.stops: list[Stop] = []
        self.arrivals: list[Arrival] = []
        self.by_device: dict[str, list[Arrival]] = {}

    def walk(self, starts: Sequence[tuple[DeviceNode, Port]]) -> Signal:
        for device, port in starts:
            self.add(Arrival(device, port, self.sent_at(port), None, None))
        for here in self.arrivals:  # each further arrival is added behind
            if here.before is None or here.is_through:
                self.onwards(here)
            else:
                self.through(here)
        return Signal(self.grid_hz, tuple(self.arrivals), tuple(self.stops), tuple(self.doubles), self.by_device)

    def sent_at(self, port: Port) -> Frequencies:
        if port.band_hz is None:
            return self.whole
        low_hz, high_hz = port.band_hz
        return sum(1 << index for index, freq_hz in enumerate(self.grid_hz) if low_hz <= freq_hz <= high_hz)

    def onwards(self, here: Arrival) -> None:
        """Out of a port, over its cable."""
        came_by = here.before.cable if here.before is not None else None
        for device, port, cable in self.graph.beyond(here.device.tag, here.port.name):
            if cable is None or cable is not came_by:  # not back over the cable that it came by
                self.arrive(device, port, here.frequencies, here, cable, True)

    def through(self, here: Arrival) -> None:
        """From one port of a device to the others."""
        entry = here.device.entry
        if entry is None or len(entry.ports) < 2:
            return
        passed: Frequencies = 0
        passing = entry.passing_from(here.port.name, self.grid_hz, self.backwards)
        for port in here.device.ports:
            frequencies = here.frequencies & passing.get(port.name, 0)
            if frequencies:
                passed |= frequencies
                self.arrive(here.device, port, frequencies, here, None, False)
        if here.frequencies & ~passed:
            known = any(
                entry.passes(here.port.name, port.name, freq_hz) is False
                for port in entry.ports
                if port.name != here.port.name
                for freq_hz in self.hertz(here.frequencies & ~passed)
            )
            self.stops.append(Stop(here, here.frequencies & ~passed, known))

    def arrive(
        self,
        device: DeviceNode,
        port: Port,
        frequencies: Frequencies,
        before: Arrival,
        cable: CableLink | None,
        outside: bool,
    ) -> None:
        """An arrival with what is new of it; what had come here before is a double."""
        key = (device.tag, port.name, outside)
        known = self.seen.get(key, 0)
        if frequencies & known:
            self.doubles.append(Arrival(device, port, frequencies, before, cable))
        new = frequencies & ~known
        if new:
            self.seen[key] = known | new
            self.add(Arrival(device, port, new, before, cable))

    def add(self, arrival: Arrival) -> None:
        self.arrivals.append(arrival)
        self.by_device.setdefault(arrival.device.tag, []).append(arrival)

    def hertz(self, frequencies: Frequencies) -> Iterator[float]:
        return (freq_hz for index, freq_hz in enumerate(self.grid_hz) if frequencies >> index & 1)
