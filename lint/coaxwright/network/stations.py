"""The stations of an in-home data service, and the ways of its signal from one to another and out of the house.

In-home data has no beginning and no end: every station sends to every other, past splitters as well as through them.
So its ways are followed by what stops it, not by what a figure says to pass it.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Callable, Iterator, Sequence

from coaxwright.catalogue import DeviceEntry, Port
from coaxwright.frozen_value import frozen_value
from coaxwright.network.nodes import CableLink, DeviceNode, ServiceNode
from coaxwright.network.service_demand import SINKS, receiving_port
from coaxwright.network.signals import SignalGraph

Passes = Callable[[DeviceNode, Port, Port], bool]
"""Whether a signal goes on from one port of a device to another."""


@frozen_value(eq=False)
class Hop:
    """A port that a signal comes to, and the hop before."""

    device: DeviceNode
    port: Port
    before: Hop | None
    cable: CableLink | None
    """The cable it came over; None where it came through the device, from a part screwed on, or begins here."""

    @property
    def is_through(self) -> bool:
        """Whether it came through the device from another of its ports."""
        return self.before is not None and self.before.device is self.device

    @property
    def way(self) -> tuple[Hop, ...]:
        """Every hop from the beginning to here."""
        hops = [self]
        while hops[-1].before is not None:
            hops.append(hops[-1].before)
        return tuple(reversed(hops))


def stations(node: ServiceNode, services: Sequence[ServiceNode], devices: Sequence[DeviceNode]) -> Iterator[DeviceNode]:
    """The stations of an in-home data service, in the order of the devices.

    Those that name it; an adapter that names none, where there is no other such service; and where it begins.
    """
    is_only = sum(other.service.kind == node.service.kind for other in services) == 1
    for device in devices:
        if not device.in_use or device.device.state == "reserve" or receiving_port(device) is None:
            continue
        kind, named = device.device.kind, device.device.serves
        if named is not None:
            is_one = node.tag in named and kind in SINKS
        elif device.tag == node.service.from_:
            is_one = kind in SINKS
        else:
            is_one = kind == "in-home data adapter" and is_only
        if is_one:
            yield device


def spread(graph: SignalGraph, start: DeviceNode, port: Port, passes: Passes) -> Iterator[Hop]:
    """Every port that a signal from a port comes to, nearest first; the way to each is one with the fewest hops."""
    first = Hop(start, port, None, None)
    queue = deque([first])
    seen = {(start.tag, port.name, False)}
    while queue:
        here = queue.popleft()
        yield here
        if here.before is None or here.is_through:
            further = [
                Hop(there, at, here, cable) for there, at, cable in graph.beyond(here.device.tag, here.port.name)
            ]
        else:
            node = here.device
            further = [
                Hop(node, at, here, None)
                for at in node.ports
                if at.name != here.port.name and passes(node, here.port, at)
            ]
        for hop in further:
            key = (hop.device.tag, hop.port.name, not hop.is_through)
            if key not in seen:
                seen.add(key)
                queue.append(hop)


def always(node: DeviceNode, one: Port, other: Port) -> bool:
    """Along every coax, whatever stands in it."""
    del node, one, other
    return True


def unless_stopped(freqs_hz: Sequence[float]) -> Passes:
    """Through whatever is not known to stop one of these frequencies [Hz].

    Beyond the band that a splitter is made for nobody knows its loss, but it does pass; an amplifier passes nothing
    backwards.
    """

    def passes(node: DeviceNode, one: Port, other: Port) -> bool:
        entry = node.entry
        if entry is None:
            return True
        said = [entry.passes(one.name, other.name, freq_hz) for freq_hz in freqs_hz]
        return True in said or (None in said and _joins(entry, one, other))

    return passes


def from_station_to_station(freq_hz: float) -> Passes:
    """Past splitters as through them, where it goes both ways; never through a filter that stops the frequency [Hz]."""

    def passes(node: DeviceNode, one: Port, other: Port) -> bool:
        entry = node.entry
        if entry is None:
            return True
        if node.device.kind == "filter" and entry.passes(one.name, other.name, freq_hz) is False:
            return False
        apart = any(path.ends.join(one, other) and not path.ends.one_way for path in entry.isolations)
        both_ways = _joins(entry, one, other) and _joins(entry, other, one)
        return both_ways or (entry.is_passive and apart)

    return passes


def is_out_of_the_house(hop: Hop) -> bool:
    """Whether a signal that comes here leaves the house: over the operator's drop or through an aerial."""
    return hop.before is not None and hop.device.device.kind in HANDOFFS | AERIALS_OUT


HANDOFFS = frozenset(("coax drop", "optical node"))
"""Where an operator's network begins."""
AERIALS_OUT = frozenset(("antenna",))
"""What would send into the air what is fed to it."""


def _joins(entry: DeviceEntry, one: Port, other: Port) -> bool:
    """Whether a signal of some frequency is known to pass."""
    return any(path.ends.join(one, other) for path in entry.paths)
