"""Devices that a signal meets at an output where it should come to an input."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from coaxwright.catalogue import Direction as PortDirection
from coaxwright.catalogue import Port
from coaxwright.frozen_value import frozen_value
from coaxwright.network.nodes import CableLink, DeviceNode
from coaxwright.network.service_demand import SINKS
from coaxwright.network.signals import Arrival, Signal, Stop
from coaxwright.network.tags import tag_order

if TYPE_CHECKING:
    from coaxwright.network.network import Network

IN, OUT = PortDirection.IN, PortDirection.OUT
_EITHER_WAY = "in-home data"
"""The service that runs from any station to any other."""


@frozen_value
class Backward:
    """A device that is fed at an output."""

    device: DeviceNode
    service: str
    cable: CableLink
    """The cable by which the signal comes."""
    port: Port
    """The output that it comes to."""
    right: Port
    """The input that it should come to."""
    left_out: tuple[str, ...]
    """What gets nothing for it, at the other outputs of a divider; empty for a device that passes one way only."""


def backwards(network: Network) -> Iterator[Backward]:
    """Every device that is fed at an output, once."""
    seen: set[str] = set()
    for tag, node in network.services.items():
        if node.service.kind == _EITHER_WAY:
            continue
        signal = network.signal(tag, "down")
        one_way = (_one_way(stop, signal, tag) for stop in signal.stops)
        divided = (_divider(network, arrival, signal, tag) for arrival in signal.arrivals)
        for found in (*one_way, *divided):
            if found is not None and found.device.tag not in seen:
                seen.add(found.device.tag)
                yield found


def _one_way(stop: Stop, signal: Signal, service: str) -> Backward | None:
    """A device that passes these frequencies from an input to this output, and not back."""
    here = stop.arrival
    entry = here.device.entry
    if here.port.direction is not OUT or here.cable is None or entry is None:
        return None
    for port in here.device.ports:
        if port.direction is IN and not _comes_to(signal, here.device, port):
            for freq_hz in signal.hertz(stop.frequencies):
                forward = entry.path(port.name, here.port.name, freq_hz)
                if forward is not None and entry.path(here.port.name, port.name, freq_hz) is None:
                    return Backward(here.device, service, here.cable, here.port, port, ())
    return None


def _divider(network: Network, here: Arrival, signal: Signal, service: str) -> Backward | None:
    """A divider whose other outputs stay empty because the signal comes to one of them.

    One that combines several sources is fed at its outputs too, but nothing waits behind the others.
    """
    if here.is_through or here.port.direction is not OUT or here.cable is None or here.device.entry is None:
        return None
    inputs = [port for port in here.device.ports if port.direction is IN]
    if not inputs or any(_comes_to(signal, here.device, port) for port in inputs):
        return None
    passed = {arrival.port.name for arrival in signal.ports_of(here.device.tag) if arrival.before is here}
    right = next((port for port in inputs if port.name in passed), None)
    if right is None:
        return None
    waiting: set[str] = set()
    for link in network.cables_at(here.device.tag):
        ports = [end.port for end in link.ends if link.in_use and end.device is here.device and end.port is not None]
        if any(port.direction is OUT and port.name not in {here.port.name, *passed} for port in ports):
            waiting |= _waiting(network, link, here.device, signal, service)
    if not waiting:
        return None
    return Backward(here.device, service, here.cable, here.port, right, tuple(sorted(waiting, key=tag_order)))


def _waiting(network: Network, link: CableLink, device: DeviceNode, signal: Signal, service: str) -> set[str]:
    """What is behind a cable of a device, wants the service, and does not get it."""
    return {
        tag for tag in network.survey.beyond(link, device.tag) if _waits(network, network.devices[tag], signal, service)
    }


def _waits(network: Network, node: DeviceNode, signal: Signal, service: str) -> bool:
    if not node.in_use or node.device.state == "reserve" or signal.reaches(node.tag):
        return False
    if node.device.serves is not None:
        return service in node.device.serves
    suits = SINKS.get(node.device.kind, frozenset())
    if suits is not None and network.services[service].service.kind not in suits:
        return False
    return not any(network.signal(other, "down").reaches(node.tag) for other in network.services)


def _comes_to(signal: Signal, device: DeviceNode, port: Port) -> bool:
    return any(arrival.port.name == port.name for arrival in signal.at(device.tag))
