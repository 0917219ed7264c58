"""Which devices a service passes on its way to where it is wanted, by which of their ports, and what it loses there."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence
from itertools import pairwise

from coaxwright.catalogue import Port
from coaxwright.frozen_value import frozen_value
from coaxwright.network.nodes import DeviceNode, ServiceNode
from coaxwright.network.service_demand import receiving_port
from coaxwright.network.signals import Arrival, Signal, SignalGraph, Stop
from coaxwright.network.stations import Passes, always, spread

_Key = tuple[str, str]


@frozen_value
class PortPair:
    """A way through a device: from the port nearer to the head end to one nearer to where a service is wanted."""

    one: Port
    other: Port
    wanted: tuple[DeviceNode, ...]
    """The devices behind it at which the service is wanted."""
    missed_hz: tuple[float, ...] = ()
    """Frequencies that come to the device, are wanted behind it, and do not pass this way."""


@frozen_value
class Passage:
    """A device that a service passes."""

    service: ServiceNode
    device: DeviceNode
    legs: tuple[PortPair, ...]


def passages(
    service: ServiceNode, signal: Signal, graph: SignalGraph, wanted: Sequence[DeviceNode]
) -> tuple[Passage, ...]:
    """The devices between where a service begins and the devices at which it is wanted, in the order of the ways.

    Where nothing of it comes to one of these, the device nearest to it that lets none of it through.
    """
    gathered = _Gathered(service)
    for arrival in signal.arrivals:
        if arrival.before is None and arrival.device.device.split is not None:
            gathered.devices[arrival.device.tag] = arrival.device  # it parts the directions where the service begins
    whole = (1 << len(signal.grid_hz)) - 1
    for device in wanted:
        port = receiving_port(device)
        arrivals = [arrival for arrival in signal.ports_of(device.tag) if port is not None and arrival.port == port]
        for arrival in arrivals:
            for before, step in _through(arrival):
                gathered.add(step.device, before.port, step.port, device)
        if not arrivals:
            if not signal.reaches(device.tag):
                gathered.add_stopped(_nearest_stop(device, signal, graph), signal, device)
            continue
        come = 0
        for arrival in arrivals:
            come |= arrival.frequencies
        fullest = max(arrivals, key=lambda one: one.frequencies.bit_count())
        for before, step in _through(fullest):
            lost = before.frequencies & ~step.frequencies & whole & ~come
            gathered.lose(step.device, before.port, step.port, signal.hertz(lost))
    return gathered.passages()


def station_passages(
    service: ServiceNode, graph: SignalGraph, stations: Sequence[DeviceNode], passes: Passes
) -> tuple[Passage, ...]:
    """The devices between the stations of an in-home data service; each way is counted from the earlier station."""
    gathered = _Gathered(service)
    order = {station.tag: index for index, station in enumerate(stations)}
    for index, station in enumerate(stations):
        port = receiving_port(station)
        assert port is not None  # a station has one
        for hop in spread(graph, station, port, passes):
            if order.get(hop.device.tag, -1) <= index or hop.port != receiving_port(hop.device):
                continue
            for one, other in pairwise(hop.way):
                if other.is_through:
                    gathered.add(other.device, one.port, other.port, hop.device)
    return gathered.passages()


class _Gathered:
    def __init__(self, service: ServiceNode) -> None:
        self.service = service
        self.devices: dict[str, DeviceNode] = {}
        self.ports: dict[str, dict[_Key, tuple[Port, Port]]] = defaultdict(dict)
        self.wanted: dict[tuple[str, _Key], dict[str, DeviceNode]] = defaultdict(dict)
        self.missed: dict[tuple[str, _Key], set[float]] = defaultdict(set)

    def add(self, device: DeviceNode, one: Port, other: Port, wanted: DeviceNode) -> None:
        key = (one.name, other.name)
        self.devices[device.tag] = device
        self.ports[device.tag][key] = (one, other)
        self.wanted[device.tag, key][wanted.tag] = wanted

    def add_stopped(self, found: tuple[Stop, Port] | None, signal: Signal, wanted: DeviceNode) -> None:
        """A device at which a signal ends, and its port that leads on to where it is wanted."""
        if found is None:
            return
        (stop, onwards), entry = found, found[0].arrival.device.entry
        one = stop.arrival.port
        freqs_hz = [
            freq_hz
            for freq_hz in signal.hertz(stop.frequencies)
            if entry is not None and not entry.passes(onwards.name, one.name, freq_hz)  # else it is turned round
        ]
        if freqs_hz:
            self.add(stop.arrival.device, one, onwards, wanted)
            self.lose(stop.arrival.device, one, onwards, freqs_hz)

    def lose(self, device: DeviceNode, one: Port, other: Port, freqs_hz: Sequence[float]) -> None:
        self.missed[device.tag, (one.name, other.name)].update(freqs_hz)

    def passages(self) -> tuple[Passage, ...]:
        return tuple(Passage(self.service, node, tuple(self.legs(tag))) for tag, node in self.devices.items())

    def legs(self, tag: str) -> Iterator[PortPair]:
        for key, (one, other) in self.ports[tag].items():
            missed = tuple(sorted(self.missed.get((tag, key), ())))
            yield PortPair(one, other, tuple(self.wanted[tag, key].values()), missed)


def _nearest_stop(wanted: DeviceNode, signal: Signal, graph: SignalGraph) -> tuple[Stop, Port] | None:
    """Where the signal ends on the coax that leads to a device, nearest to the device, and the port towards it."""
    port = receiving_port(wanted)
    ends = {stop.arrival.device.tag: stop for stop in signal.stops}
    for hop in spread(graph, wanted, port, always) if port is not None and ends else ():
        stop = ends.get(hop.device.tag)
        if stop is not None and not hop.is_through and hop.port is not stop.arrival.port:
            return stop, hop.port
    return None


def _through(arrival: Arrival) -> Iterator[tuple[Arrival, Arrival]]:
    """The ways through devices on the way to a port, each with the arrival before it."""
    for step in arrival.way:
        if step.is_through and step.before is not None:
            yield step.before, step
