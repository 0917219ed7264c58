"""Where a cable could be joined to get certain services: free outputs that carry them, and splitters that are full."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING

from coaxwright.catalogue import Direction, Port
from coaxwright.frozen_value import frozen_value
from coaxwright.network.nodes import DeviceNode
from coaxwright.network.service_demand import SINKS
from coaxwright.network.tags import tag_order

if TYPE_CHECKING:
    from coaxwright.network.network import Network

_ON_A_TRUNK = frozenset(("tap", "directional coupler"))
"""Kinds whose way through is the trunk's: an outlet hangs on their taps."""


@frozen_value
class FreeOutputs:
    """What carries certain services, in tag order."""

    free: tuple[tuple[DeviceNode, Port], ...]
    """Devices with a free output, each with the first."""
    splitters: tuple[DeviceNode, ...]


def openings(network: Network, services: Sequence[str]) -> FreeOutputs:
    """Where all of these services are to be had; any of the design where none is named."""
    usable = [node for node in _candidates(services, network) if node.in_use and node.device.state != "reserve"]
    free = [(node, port) for node in usable for port in _free_outputs(node, services, network)[:1]]
    splitters = [node for node in usable if node.device.kind == "splitter" and _reached(node, services, network)]
    return FreeOutputs(tuple(free), tuple(splitters))


def _candidates(services: Sequence[str], network: Network) -> Iterable[DeviceNode]:
    """The devices to which the first of the services may come; all of them where nobody can tell."""
    first = network.services[services[0]] if services else None
    if first is None or first.service.from_ not in network.devices:
        return network.devices.values()
    tags = {first.service.from_, *first.devices, *network.signal(first.tag, "down").devices}
    return [network.devices[tag] for tag in sorted(tags, key=tag_order)]


def _free_outputs(node: DeviceNode, services: Sequence[str], network: Network) -> list[Port]:
    if node.device.kind in SINKS and node.device.variant is None:
        return []
    free = [
        port for port in network.free_ports(node.tag) if port.direction is not Direction.IN and port.name != "socket"
    ]
    wanted = [port for port in free if port.group == "tap"] if node.device.kind in _ON_A_TRUNK else free
    return [
        port
        for port in wanted
        if _all_or_any(services, [_is_at(one, node, port, network) for one in _named(services, network)])
    ]


def _reached(node: DeviceNode, services: Sequence[str], network: Network) -> bool:
    return _all_or_any(services, [network.survey.comes_to(one, node) for one in _named(services, network)])


def _named(services: Sequence[str], network: Network) -> Sequence[str]:
    return services or tuple(network.services)


def _all_or_any(services: Sequence[str], answers: list[bool]) -> bool:
    return all(answers) if services else any(answers)


def _is_at(service: str, node: DeviceNode, port: Port, network: Network) -> bool:
    """Whether a service comes to a port; by the cables alone, to its device, where it states no frequencies."""
    stated = network.services[service]
    if not stated.grid_hz("down"):
        return node.tag in stated.devices
    return any(arrival.port.name == port.name for arrival in network.signal(service, "down").ports_of(node.tag))
