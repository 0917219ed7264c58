"""What of the services that a device names does not come to it, and where it stops on the way."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping
from itertools import pairwise
from typing import TYPE_CHECKING

from coaxwright.frozen_value import frozen_value
from coaxwright.network.nodes import DeviceNode
from coaxwright.network.service_overlap import IN_HOME
from coaxwright.source import Path

if TYPE_CHECKING:
    from coaxwright.network.network import Network


@frozen_value
class Stop:
    """Services that do not come to a device although it hangs together with where they begin."""

    services: tuple[str, ...]
    reached: DeviceNode
    """The last device on the way that they come to."""
    way: tuple[Path, ...]
    """The devices from there on, with the cables between them."""


def missed_services(node: DeviceNode, network: Network) -> tuple[str, ...] | None:
    """The services that do not come to a device; None where nothing is missed.

    One that names no services misses all of them where no cable comes to it, and is else content with what comes.
    """
    if node.device.state == "reserve":
        return None
    if node.device.serves is None:
        return None if any(link.in_use for link in network.cables_at(node.tag)) else tuple(network.services)
    known = [tag for tag in dict.fromkeys(node.device.serves) if tag in network.services]
    missed = tuple(tag for tag in known if not network.survey.comes_to(tag, node))
    if not missed or is_plugged_in(node, missed, network):
        return None
    return missed


def is_plugged_in(node: DeviceNode, services: tuple[str, ...], network: Network) -> bool:
    """Whether a set without a cable stands beside an outlet that gives it what it wants: the lead is not drawn."""
    if node.device.kind == "outlet" or network.cables_at(node.tag) or node.place is None:
        return False
    beside = [
        other for other in network.devices.values() if other.device.kind == "outlet" and other.place is node.place
    ]
    return any(
        outlet.in_use and all(network.survey.comes_to(service, outlet) for service in services) for outlet in beside
    )


def is_joined_with_source(service: str, node: DeviceNode, network: Network) -> bool:
    """Whether a device hangs together with the one at which a service begins, whatever passes between them."""
    return network.services[service].service.from_ in network.survey.joined_with(node.tag).devices


def find_stops(network: Network) -> Mapping[str, tuple[Stop, ...]]:
    """For each device that misses a service of a source that it hangs together with, where that stops.

    In-home data also goes between outputs that are kept apart, however weakened: it stops nowhere.
    """
    found: dict[str, tuple[Stop, ...]] = {}
    for node in network.devices.values():
        if node.in_use and node.device.serves is not None:
            stops = tuple(_stops(node, network))
            if stops:
                found[node.tag] = stops
    return found


def _stops(node: DeviceNode, network: Network) -> Iterator[Stop]:
    ways: dict[tuple[str, ...], list[str]] = defaultdict(list)
    for service in missed_services(node, network) or ():
        if is_joined_with_source(service, node, network) and network.services[service].service.kind != IN_HOME:
            way = network.survey.way(network.services[service].service.from_, node.tag)
            last = max(index for index, tag in enumerate(way) if index == 0 or _reaches(service, tag, network))
            ways[way[last:]].append(service)
    for way, services in ways.items():
        yield Stop(tuple(services), network.devices[way[0]], tuple(_items(way, network)))


def _reaches(service: str, device: str, network: Network) -> bool:
    return network.survey.comes_to(service, network.devices[device])


def _items(way: tuple[str, ...], network: Network) -> Iterator[Path]:
    yield network.devices[way[0]].path
    for near, far in pairwise(way):
        for link in network.cables_at(near):
            there = link.other_end(near).device
            if link.in_use and there is not None and there.tag == far:
                yield link.path
        yield network.devices[far].path
