"""The way of a direct-current feed: from a part that needs power back over the coax to what feeds it."""

from __future__ import annotations

from collections import defaultdict, deque
from collections.abc import Iterable, Iterator

from coaxwright.catalogue import Port
from coaxwright.frozen_value import frozen_value
from coaxwright.network.nodes import CableLink, DeviceNode
from coaxwright.network.signals import SignalGraph


@frozen_value
class FeedLeg:
    """One leg of a feed: over a cable, or through a device from one of its ports to another."""

    device: DeviceNode
    """The device at the far end of the cable, or the one passed through."""
    port: Port
    """Where the leg ends."""
    cable: CableLink | None
    """None for a leg through a device, or from a part to what it is screwed onto."""
    passes: bool | None = True
    """Whether power passes; None where no figure says so."""


@frozen_value
class Feed:
    """The way from a part that needs power to what feeds it, or to where the feed is stopped."""

    device: DeviceNode
    legs: tuple[FeedLeg, ...]
    feeder: DeviceNode | None
    """What puts power on the coax; None where no way leads to anything that does."""
    blocked: tuple[FeedLeg, ...] = ()
    """Legs on the way to a feeder that pass no power, nearest first; empty where there is a feeder."""

    @property
    def uncertain(self) -> tuple[FeedLeg, ...]:
        """The legs of which no figure says whether they pass power."""
        return tuple(leg for leg in self.legs if leg.passes is None)


def power_passes(node: DeviceNode, one: Port, other: Port) -> bool | None:
    """Whether a feed passes between two ports: what the design says of a port counts before the catalogue."""
    said = [node.said(port).passes_power for port in (one, other)]
    if False in said:
        return False
    if node.entry is None:
        return True if said == [True, True] else None
    known = node.entry.power_passes(one.name, other.name)
    return True if said == [True, True] else known


def feed_of(graph: SignalGraph, node: DeviceNode) -> Feed | None:
    """How a device is fed over the coax; None where it takes no power from it."""
    if node.entry is None or not node.entry.fed_ports:
        return None
    for stop_at_blocks in (True, False):
        found = _search(graph, node, stop_at_blocks)
        if found is not None:
            legs, feeder = found
            blocked = tuple(leg for leg in legs if leg.passes is False)
            return Feed(node, legs, None if blocked else feeder, blocked)
    return Feed(node, (), None)


def by_cable(feeds: Iterable[Feed | None]) -> dict[str, tuple[Feed, ...]]:
    """For each cable, the feeds that come over it from what puts power on the coax."""
    over: dict[str, list[Feed]] = defaultdict(list)
    for feed in feeds:
        if feed is not None and feed.feeder is not None:
            for cable in dict.fromkeys(leg.cable.tag for leg in feed.legs if leg.cable is not None):
                over[cable].append(feed)
    return {cable: tuple(found) for cable, found in over.items()}


def _search(
    graph: SignalGraph, node: DeviceNode, stop_at_blocks: bool
) -> tuple[tuple[FeedLeg, ...], DeviceNode] | None:
    """The way with the fewest legs to a feeder; through legs that block power as well where those do not stop it."""
    assert node.entry is not None
    fed = {port.name for port in node.entry.fed_ports}
    queue: deque[tuple[DeviceNode, Port, tuple[FeedLeg, ...]]] = deque(
        (node, port, ()) for port in node.ports if port.name in fed
    )
    seen = {(node.tag, port.name) for port in node.ports}
    while queue:
        device, port, legs = queue.popleft()
        for there, at, cable in graph.beyond(device.tag, port.name):
            if (there.tag, at.name) in seen:
                continue
            seen.add((there.tag, at.name))
            arrived = (*legs, FeedLeg(there, at, cable))
            if there.entry is not None and any(at.name == feeding.name for feeding in there.entry.feeding_ports):
                return arrived, there
            for onwards in _through(there, at):
                if onwards.passes is not False or not stop_at_blocks:
                    queue.append((there, onwards.port, (*arrived, onwards)))
    return None


def _through(node: DeviceNode, at: Port) -> Iterator[FeedLeg]:
    for port in node.ports:
        if port.name != at.name:
            yield FeedLeg(node, port, None, power_passes(node, at, port))
