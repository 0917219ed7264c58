"""Services that come over one coax, and the frequencies that they have in common there."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from itertools import combinations, pairwise
from typing import TYPE_CHECKING

from coaxwright.frozen_value import frozen_value
from coaxwright.network.nodes import CableLink, DeviceNode, Direction, ServiceNode
from coaxwright.network.service_demand import receiving_port
from coaxwright.network.signals import Arrival, Grid, Signal, follow
from coaxwright.network.values import Unknown

if TYPE_CHECKING:  # the network asks these questions of itself
    from coaxwright.network.network import Network

IN_HOME = "in-home data"


@frozen_value
class SharedSpan:
    """Frequencies that a service is on, in one direction; a channel of unstated width is a single one."""

    direction: Direction
    low_hz: float
    high_hz: float
    is_channel: bool = False


@frozen_value
class Pair:
    """Two services of which some cable carries both."""

    one: ServiceNode
    other: ServiceNode


@frozen_value
class Overlap:
    """Frequencies [Hz] on which two services are on one cable at once."""

    low_hz: float
    high_hz: float
    cable: CableLink
    """The first that carries both of them there."""
    is_channel: bool


def stretches(network: Network, node: ServiceNode) -> tuple[SharedSpan, ...] | Unknown:
    """What a service is on: the band it states, else its channels, else what the device it begins at is made for.

    In-home data that states none is on the band that its adapters are made for.
    """
    service = node.service
    found: list[SharedSpan] = []
    if service.down is not None:
        found.append(SharedSpan("down", service.down.band.low_hz, service.down.band.high_hz))
    else:
        for channel in service.channels or ():
            half_hz = channel.width.freq_hz / 2 if channel.width is not None else 0.0
            center_hz = channel.frequency.freq_hz
            found.append(SharedSpan("down", center_hz - half_hz, center_hz + half_hz, True))
    if service.up is not None:
        found.append(SharedSpan("up", service.up.band.low_hz, service.up.band.high_hz))
    if not found:
        start = network.devices.get(service.from_)
        ports = list(start.ports) if start is not None else []
        if service.kind == IN_HOME:  # whatever its stations are plugged into, they are made for one band
            made = network.catalogue.made("in-home data adapter").values()
            ports = [port for entry in made for port in entry.ports]
        bands = [port.band_hz for port in ports]
        known = [band for band in bands if band is not None]
        if not known:
            return Unknown("service without frequencies", ("services", node.tag, "down"), {"service": node.tag})
        found.append(SharedSpan("down", min(low for low, _ in known), max(high for _, high in known)))
    return tuple(found)


def in_home_band(network: Network, node: ServiceNode) -> SharedSpan:
    """The whole band of an in-home data service, from the lowest to the highest frequency [Hz]."""
    found = stretches(network, node)
    assert not isinstance(found, Unknown)  # the catalogue has adapters, whose band stands in for an unstated one
    return SharedSpan("down", min(one.low_hz for one in found), max(one.high_hz for one in found))


def pairs(network: Network) -> Iterator[Pair]:
    """The services that come over one coax, in tag order; those that begin at one device were put together there."""
    carried = {tag: _cables(network, node) for tag, node in network.services.items()}
    on_cable: dict[str, list[int]] = defaultdict(list)
    nodes = list(network.services.values())
    for number, node in enumerate(nodes):
        for cable in carried[node.tag]:
            on_cable[cable].append(number)
    together = {pair for numbers in on_cable.values() for pair in combinations(numbers, 2)}
    for first, second in sorted(together):
        one, other = nodes[first], nodes[second]
        if one.service.from_ != other.service.from_:
            yield Pair(one, other)


def _cables(network: Network, node: ServiceNode) -> frozenset[str]:
    """The cables that a service comes over, at whatever frequency."""
    if node.service.kind == IN_HOME:
        signals = [network.traffic.in_home_signal(node.tag)]
    else:
        signals = [network.signal(node.tag, "down"), network.signal(node.tag, "up")]
    cables = {a.cable.tag for signal in signals for a in signal.arrivals if a.cable is not None}
    return frozenset(cables) | node.cables


def overlaps(network: Network, pair: Pair) -> tuple[Overlap, ...] | Unknown:
    """Where two services are on one cable at one frequency, port by port and frequency by frequency; widest first.

    A filter or diplexer that parts them leaves no overlap, nor does a switch that gives one of them at a time.
    """
    one, other = stretches(network, pair.one), stretches(network, pair.other)
    if isinstance(one, Unknown) or isinstance(other, Unknown):
        return one if isinstance(one, Unknown) else other  # type: ignore[return-value]
    found: list[Overlap] = []
    for mine in one:
        for its in other:
            low_hz, high_hz = max(mine.low_hz, its.low_hz), min(mine.high_hz, its.high_hz)
            is_channel = mine.is_channel or its.is_channel
            if low_hz < high_hz or (low_hz == high_hz and is_channel):
                grid = _grid(network, low_hz, high_hz)
                overlap = _on_one_cable(
                    _presence(network, pair.one, mine.direction, grid),
                    _presence(network, pair.other, its.direction, grid),
                    grid,
                    is_channel,
                )
                found += [overlap] if overlap is not None else []
    return tuple(sorted(found, key=lambda overlap: (overlap.low_hz - overlap.high_hz, overlap.low_hz)))


def _on_one_cable(
    mine: Mapping[str, Sequence[Arrival]], its: Mapping[str, Sequence[Arrival]], grid: Grid, is_channel: bool
) -> Overlap | None:
    shared = 0
    first: CableLink | None = None
    for tag, arrivals in mine.items():  # nearest to the beginning of the one first
        for one in arrivals:
            for other in its.get(tag, ()):
                both = one.frequencies & other.frequencies
                if both and not _is_switched(one, other):
                    shared |= both
                    first = first or one.cable
    hertz = [freq_hz for index, freq_hz in enumerate(grid) if shared >> index & 1]
    if first is None or (len(hertz) < 2 and not is_channel):
        return None  # bands that meet at an edge do not overlap
    return Overlap(hertz[0], hertz[-1], first, is_channel)


def _is_switched(one: Arrival, other: Arrival) -> bool:
    """Whether both came through one multiswitch by unlike inputs: its receiver asks for one of them at a time."""
    mine, its = ({a.device.tag: a for a in way.way if a.device.device.kind == "multiswitch"} for way in (one, other))
    for tag in mine.keys() & its.keys():
        inputs = [found.before.port.name for found in (mine[tag], its[tag]) if found.is_through and found.before]
        if len(set(inputs)) == 2:
            return True
    return False


def _presence(network: Network, node: ServiceNode, direction: Direction, grid: Grid) -> dict[str, list[Arrival]]:
    """The cables that a service is on, each with the arrivals over it; upstream, from what can answer there."""
    if node.service.kind == IN_HOME:
        arrivals: Sequence[Arrival] = network.traffic.in_home_signal(node.tag, grid).arrivals
    else:
        signal = network.signal(node.tag, direction, grid)
        arrivals = signal.arrivals if direction == "down" else _answering(network, node, signal)
    found: dict[str, list[Arrival]] = {}
    for arrival in arrivals:
        if arrival.cable is not None:
            found.setdefault(arrival.cable.tag, []).append(arrival)
    return found


def _answering(network: Network, node: ServiceNode, signal: Signal) -> list[Arrival]:
    ways: dict[int, Arrival] = {}
    for device in network.outlets_of(node.tag):
        port = receiving_port(device)
        for arrival in signal.ports_of(device.tag):
            if arrival.port == port:
                ways.update((id(step), step) for step in arrival.way)
    return list(ways.values())


def _grid(network: Network, low_hz: float, high_hz: float) -> Grid:
    """The ends of a stretch, every edge of a device's band in it, and a frequency between each two of them [Hz]."""
    edges = {low_hz, high_hz}
    for entry in {id(node.entry): node.entry for node in network.devices.values() if node.entry is not None}.values():
        for path in (*entry.paths, *entry.isolations):
            edges.update(edge for edge in (path.low_hz, path.high_hz) if low_hz < edge < high_hz)
    rising = sorted(edges)
    between = [(first + second) / 2 for first, second in pairwise(rising)]
    return tuple(sorted({*rising, *between}))


def in_home_signal(network: Network, stations: Sequence[DeviceNode], grid: Grid) -> Signal:
    """Where the signal of all stations together is known to go, as far as figures say."""
    ports = ((station, receiving_port(station)) for station in stations)
    starts = tuple((station, port) for station, port in ports if port is not None)
    return follow(network.graph, starts, grid, backwards=False)
