"""What of the services that devices name does not come to them: where it stops, or what waits for a cable."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping
from functools import cached_property
from itertools import pairwise
from typing import TYPE_CHECKING

from coaxwright.frozen_value import frozen_value
from coaxwright.network.nodes import DeviceNode
from coaxwright.network.service_overlap import IN_HOME
from coaxwright.source import Path

if TYPE_CHECKING:
    from coaxwright.network.network import Network
    from coaxwright.network.queries import Joined


@frozen_value
class Stop:
    """Services that do not come to a device although it hangs together with where they begin."""

    services: tuple[str, ...]
    reached: DeviceNode
    """The last device on the way that they come to."""
    way: tuple[Path, ...]
    """The devices from there on, with the cables between them."""


@frozen_value
class Stopped:
    """What one device does not pass on."""

    outlets: tuple[str, ...]
    """The devices that miss it, in tag order."""
    services: tuple[str, ...]


@frozen_value
class Waiting:
    """Outlets and sets that hang together, and with nothing at which a service begins that they want."""

    outlets: tuple[DeviceNode, ...]
    """In tag order."""
    services: tuple[str, ...]
    """Those that they name, in alphabetical order; empty where none of them names any."""
    head: DeviceNode
    """What has to be fed: the first, of all that hangs together, that no cable comes to."""
    faults: tuple[Path, ...]
    """What is not as it is written, and may be why no cable leads here: loose ends first."""


class Feeding:
    """Which services come to no device that wants them, and why."""

    def __init__(self, network: Network) -> None:
        self.network = network

    def stops(self, device: str) -> tuple[Stop, ...]:
        """Where services that a device misses stop on their way to it.

        In-home data also goes between outputs that are kept apart, however weakened: it stops nowhere.
        """
        return self._stops.get(device, ())

    def stopped_at(self, device: str) -> Stopped:
        """What a device does not pass on to others. Raises KeyError where nothing stops there."""
        return self._stopped[device]

    def waiting(self, device: str) -> Waiting | None:
        """The outlets that wait for one cable, this one among them; None where it waits for none."""
        return self._waiting.get(device)

    def is_plugged_in(self, node: DeviceNode, services: Iterable[str]) -> bool:
        """Whether a set without a cable stands beside an outlet that gives it what it wants: the lead is not drawn."""
        if node.device.kind == "outlet" or node.place is None or self.network.cables_at(node.tag):
            return False
        wanted = tuple(services)
        beside = self._outlets.get(node.place.tag, ())
        return any(all(self.network.survey.comes_to(service, outlet) for service in wanted) for outlet in beside)

    @cached_property
    def _outlets(self) -> Mapping[str, list[DeviceNode]]:
        """The outlets in use, by place."""
        found: dict[str, list[DeviceNode]] = defaultdict(list)
        for node in self.network.devices.values():
            if node.device.kind == "outlet" and node.in_use and node.place is not None:
                found[node.place.tag].append(node)
        return found

    @cached_property
    def _missed(self) -> Mapping[str, tuple[str, ...]]:
        """For each device the services that do not come to it.

        One that names no services misses all of them where no cable comes to it, and is else content with what comes.
        """
        found: dict[str, tuple[str, ...]] = {}
        for node in self.network.devices.values():
            if node.in_use and node.device.state != "reserve":
                missed = tuple(self._missed_at(node))
                if missed:
                    found[node.tag] = missed
        return found

    def _missed_at(self, node: DeviceNode) -> Iterator[str]:
        if node.device.serves is None:
            is_joined = any(link.in_use for link in self.network.cables_at(node.tag))
            yield from () if is_joined or node.device.kind != "outlet" else self.network.services
            return
        known = [tag for tag in dict.fromkeys(node.device.serves) if tag in self.network.services]
        missed = [tag for tag in known if not self.network.survey.comes_to(tag, node)]
        if not self.is_plugged_in(node, missed):
            yield from missed

    def _is_joined_with_source(self, service: str, device: str) -> bool:
        """Whether a device hangs together with the one at which a service begins, whatever passes between them."""
        return self.network.services[service].service.from_ in self.network.survey.joined_with(device).devices

    @cached_property
    def _stops(self) -> Mapping[str, tuple[Stop, ...]]:
        found = {device: tuple(self._stops_of(device, missed)) for device, missed in self._missed.items()}
        return {device: stops for device, stops in found.items() if stops}

    def _stops_of(self, device: str, missed: tuple[str, ...]) -> Iterator[Stop]:
        network, survey = self.network, self.network.survey
        ways: dict[tuple[str, ...], list[str]] = defaultdict(list)
        for service in missed:
            if not self._is_joined_with_source(service, device) or network.services[service].service.kind == IN_HOME:
                continue
            way = survey.way(network.services[service].service.from_, device)
            numbers = range(len(way) - 1, 0, -1)
            last = next((number for number in numbers if survey.comes_to(service, network.devices[way[number]])), 0)
            ways[way[last:]].append(service)
        for way, services in ways.items():
            yield Stop(tuple(services), network.devices[way[0]], tuple(_items(way, network)))

    @cached_property
    def _stopped(self) -> Mapping[str, Stopped]:
        found: dict[str, list[tuple[str, Stop]]] = defaultdict(list)
        for device, stops in self._stops.items():
            for stop in stops:
                found[stop.reached.tag].append((device, stop))
        return {
            reached: Stopped(
                tuple(dict.fromkeys(device for device, _ in missing)),
                tuple(sorted({service for _, stop in missing for service in stop.services})),
            )
            for reached, missing in found.items()
        }

    @cached_property
    def _waiting(self) -> Mapping[str, Waiting]:
        lacking = {
            device: tuple(service for service in missed if not self._is_joined_with_source(service, device))
            for device, missed in self._missed.items()
        }
        found: dict[str, Waiting] = {}
        for device, services in lacking.items():
            if services and device not in found:
                joined = self.network.survey.joined_with(device)
                outlets = tuple(self.network.devices[tag] for tag in joined.in_order if lacking.get(tag))
                named = [outlet.tag for outlet in outlets if outlet.device.serves is not None]
                waiting = Waiting(
                    outlets,
                    tuple(sorted({service for tag in named for service in lacking[tag]})),
                    _head(joined, outlets[0], self.network),
                    tuple(dict.fromkeys(_faults(joined, self.network))),
                )
                found |= dict.fromkeys((outlet.tag for outlet in outlets), waiting)
        return found


def _items(way: tuple[str, ...], network: Network) -> Iterator[Path]:
    yield network.devices[way[0]].path
    for near, far in pairwise(way):
        for link in network.cables_at(near):
            there = link.other_end(near).device
            if link.in_use and there is not None and there.tag == far:
                yield link.path
        yield network.devices[far].path


def _head(joined: Joined, first: DeviceNode, network: Network) -> DeviceNode:
    for tag in joined.in_order:
        node = network.devices[tag]
        links = [link for link in network.cables_at(tag) if link.in_use]
        if links and tag not in network.fittings and not any(link.far.device is node for link in links):
            return node
    return first


def _faults(joined: Joined, network: Network) -> Iterator[Path]:
    links = [link for tag in joined.in_order for link in network.cables_at(tag) if link.in_use]
    yield from (link.path for link in links if any(end.device is None for end in link.ends))
    is_alone = len(joined.devices) == 1
    for loose in network.survey.loose_ends():
        if loose.nearest in joined.devices or (is_alone and loose.nearest is None):
            yield loose.path[:2]
    yield from (network.devices[tag].path for tag in joined.in_order if network.devices[tag].entry is None)
    for link in links:
        if any(end.port is None for end in link.ends):
            yield link.path
            yield from (end.device.path for end in link.ends if end.device is not None)
