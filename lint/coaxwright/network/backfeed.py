"""What feeds into the operator's drop: aerials and generators whose signal is known to come to it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from coaxwright.catalogue import Direction, Port
from coaxwright.frozen_value import frozen_value
from coaxwright.network.nodes import DeviceNode
from coaxwright.network.signals import Arrival, Grid, follow
from coaxwright.network.stations import HANDOFFS, Hop, spread, unless_stopped
from coaxwright.network.values import Unknown

if TYPE_CHECKING:  # the network asks this question of itself
    from coaxwright.network.network import Network

_SENDING = frozenset(("antenna", "LNB", "modulator", "camera"))


@frozen_value
class Backfeed:
    """A device whose signal comes to a demarcation point of an operator."""

    sender: DeviceNode
    handoff: DeviceNode
    freqs_hz: Grid
    """Those asked for that come to it."""
    arrival: Arrival


def senders(network: Network) -> tuple[DeviceNode, ...]:
    """The aerials and generators in use, in tag order; an antenna that sends out into the house takes nothing in."""
    return tuple(
        node
        for node in network.devices.values()
        if node.in_use and node.device.kind in _SENDING and _outputs(node) and node.device.state != "reserve"
    )


def backfeeds(network: Network) -> Iterator[Backfeed]:
    """Every sender that feeds into an operator's drop, at the frequencies of its services or of what it is made for."""
    for sender in senders(network):
        grid = sent_hz(network, sender)
        starts = tuple((sender, port) for port in _outputs(sender))
        signal = follow(network.graph, starts, grid, backwards=False)
        arrived: dict[str, tuple[int, Arrival]] = {}
        for arrival in signal.arrivals:
            if arrival.before is not None and arrival.device.device.kind in HANDOFFS:
                before, first = arrived.get(arrival.device.tag, (0, arrival))
                arrived[arrival.device.tag] = (before | arrival.frequencies, first)
        for frequencies, first in arrived.values():
            yield Backfeed(sender, first.device, signal.hertz(frequencies), first)


def unknown_backfeed(network: Network, sender: DeviceNode) -> Unknown | None:
    """What is missing to tell whether a sender feeds into a demarcation point; None where nothing is."""
    grid = sent_hz(network, sender)
    if not grid:
        return (
            Unknown("sender without frequencies", sender.path, {"sender": sender.tag})
            if _joined(network, sender)
            else None
        )
    for port in _outputs(sender):
        for hop in spread(network.graph, sender, port, unless_stopped(grid)):
            if hop.before is not None and hop.device.device.kind in HANDOFFS:
                for step in hop.way:
                    missing = _missing(step, grid)
                    if missing is not None:
                        return missing
    return None


def sent_hz(network: Network, sender: DeviceNode) -> Grid:
    """The frequencies that a sender is asked about [Hz]: its services', else the band of its ports."""
    begins = {sender.tag, sender.device.on}
    stated = {
        freq_hz
        for node in network.services.values()
        if node.service.from_ in begins
        for freq_hz in node.grid_hz("down")
    }
    if not stated:
        bands = [port.band_hz for port in _outputs(sender) if port.band_hz is not None]
        stated = {freq_hz for low_hz, high_hz in bands for freq_hz in (low_hz, (low_hz + high_hz) / 2, high_hz)}
    return tuple(sorted(stated))


def _outputs(node: DeviceNode) -> tuple[Port, ...]:
    return tuple(port for port in node.ports if port.direction is not Direction.IN)


def _joined(network: Network, sender: DeviceNode) -> bool:
    return any(
        hop.before is not None and hop.device.device.kind in HANDOFFS
        for port in _outputs(sender)
        for hop in spread(network.graph, sender, port, unless_stopped((0.0,)))
    )


def _missing(hop: Hop, grid: Grid) -> Unknown | None:
    """Of a hop through a device, the figure that nobody has."""
    if not hop.is_through or hop.before is None or hop.device.entry is None:
        return None
    one, other = hop.before.port.name, hop.port.name
    said = [(hop.device.entry.passes(one, other, freq_hz), freq_hz) for freq_hz in grid]
    if any(passes for passes, _ in said):
        return None
    freq_hz = next((freq_hz for passes, freq_hz in said if passes is None), None)
    if freq_hz is None:
        return None
    values = {"device": hop.device.tag, "frequency": freq_hz, "port": other}
    return Unknown("passing not known", hop.device.path, values)
