"""Questions about a network as a whole: what hangs together, what is named alike. Each is answered once, and kept."""

from __future__ import annotations

from collections import defaultdict, deque
from collections.abc import Iterator, Mapping
from functools import cached_property
from typing import TYPE_CHECKING

from coaxwright.design.author import writes_metric
from coaxwright.frozen_value import frozen_value
from coaxwright.network.bonds import TERMINATION
from coaxwright.network.faults import UnknownReference
from coaxwright.network.feeding import Feeding
from coaxwright.network.free_outputs import FreeOutputs, openings
from coaxwright.network.loops import Loop, loops
from coaxwright.network.nodes import BondNode, CableLink, DeviceNode
from coaxwright.network.raceways import Neighbor
from coaxwright.network.reversed_devices import Backward, backwards
from coaxwright.network.shields import JoinedBuildings, joined_by_shields
from coaxwright.network.splitters import Split, splits
from coaxwright.network.tags import tag_order

if TYPE_CHECKING:
    from coaxwright.network.network import Network

TAGGED = ("devices", "cables", "raceways", "bonding")
"""The sections whose tags stand on drawings and labels; places, buildings and services go by their names."""


@frozen_value
class Joined:
    """Devices that hang together over cables in use, whatever passes through them."""

    devices: frozenset[str]
    in_order: tuple[str, ...]
    """The same, in tag order."""


class Survey:
    """What can only be told of the whole network."""

    def __init__(self, network: Network) -> None:
        self.network = network

    def joined_with(self, device: str) -> Joined:
        """What hangs together with a device, itself among it."""
        return self._joined[device]

    def beyond(self, link: CableLink, device: str) -> frozenset[str]:
        """The devices that hang on a cable on the side that is not ``device``'s."""
        there = link.other_end(device).device
        return self._reached(there.tag, without=device) if there is not None else frozenset()

    def way(self, start: str, end: str) -> tuple[str, ...]:
        """The devices from one to another that hangs together with it: the fewest, the first of them in tag order."""
        if start not in self._ways:
            self._ways[start] = self._before(start)
        before, way = self._ways[start], [end]
        while way[-1] != start:
            way.append(before[way[-1]])
        return tuple(reversed(way))

    def _before(self, start: str) -> dict[str, str]:
        """For each device that hangs together with one, the device before it on the shortest way from there."""
        before: dict[str, str] = {start: start}
        queue = deque([start])
        while queue:
            here = queue.popleft()
            for other in sorted(self._neighbors.get(here, ()), key=tag_order):
                if other not in before:
                    before[other] = here
                    queue.append(other)
        return before

    @cached_property
    def _ways(self) -> dict[str, dict[str, str]]:
        return {}

    @cached_property
    def feeding(self) -> Feeding:
        """Which services come to no device that wants them, and why."""
        return Feeding(self.network)

    def comes_to(self, service: str, node: DeviceNode) -> bool:
        """Whether a service comes to a device; by the cables alone where it states no frequencies.

        True as well where the device at which it begins is not there: nobody can tell then.
        """
        stated = self.network.services[service]
        if stated.service.from_ not in self.network.devices or node.tag == stated.service.from_:
            return True
        if not stated.grid_hz("down"):
            return node.tag in stated.devices
        return self.network.signal(service, "down").reaches(node.tag)

    def coming_to(self, node: DeviceNode) -> tuple[str, ...]:
        """The services that come to a device, as ``comes_to`` has it, in the order of the design."""
        found = {*self._coming.get(node.tag, ()), *self._coming[""]}
        return tuple(service for service in self.network.services if service in found) if found else ()

    @cached_property
    def _coming(self) -> dict[str, list[str]]:
        """For each device the services that come to it; for no name those of which nobody can tell."""
        coming: dict[str, list[str]] = defaultdict(list, {"": []})
        for tag, node in self.network.services.items():
            start = node.service.from_
            if start not in self.network.devices:
                coming[""].append(tag)
                continue
            reached = self.network.signal(tag, "down").devices if node.grid_hz("down") else node.devices
            for device in {start, *reached}:
                coming[device].append(tag)
        return coming

    def openings(self, services: tuple[str, ...]) -> FreeOutputs:
        """Where all of these services are to be had; any of the design where none is named."""
        if services not in self._openings:
            self._openings[services] = openings(self.network, services)
        return self._openings[services]

    def backward(self, device: str) -> Backward | None:
        """How a device is fed at an output; None where it is not."""
        return self._backwards.get(device)

    def loop_closed_by(self, cable: str) -> Loop | None:
        """The loop that a cable closes."""
        return self._loops.get(cable)

    def split(self, splitter: str) -> Split | None:
        """How a splitter stands on the ways to outlets; None where it does not."""
        return self._splits.get(splitter)

    def neighbors(self) -> Iterator[Neighbor]:
        """Whatever is said to run or stand beside a place or a cable."""
        for place in self.network.places.values():
            yield from place.neighbors
        for link in self.network.cables.values():
            for segment in link.segments:
                yield from segment.neighbors

    @cached_property
    def buildings_in_touch(self) -> tuple[JoinedBuildings, ...]:
        """Buildings that the shields of coax join, pair by pair."""
        return tuple(joined_by_shields(self.network))

    @cached_property
    def writes_metric(self) -> bool:
        """Whether the author writes conductors by cross-section."""
        return writes_metric(self.network.design)

    def terminations_on(self, electrode: str) -> tuple[str, ...]:
        """The terminations that are joined to an electrode, by what they say or by a wire, in tag order."""
        return tuple(self._joined_to.get(electrode, ()))

    @cached_property
    def _joined_to(self) -> dict[str, list[str]]:
        joined: dict[str, list[str]] = defaultdict(list)
        for tag, node in self.network.bonds.items():
            if node.in_use:
                way = self.network.bonding.onwards(node)
                stated = (node.item.electrode, way.electrode.tag if way is not None else None)
                for electrode in dict.fromkeys(stated):
                    if electrode is not None:
                        joined[electrode].append(tag)
        return dict(joined)

    def begins_or_ends(self, device: str) -> tuple[str, ...]:
        """The services that begin at a device or are wanted there, in the order of the design."""
        return self._at_device.get(device, ())

    @cached_property
    def _at_device(self) -> dict[str, tuple[str, ...]]:
        found: dict[str, dict[str, None]] = defaultdict(dict)
        for tag, node in self.network.services.items():
            for device in (node.service.from_, *(outlet.tag for outlet in self.network.outlets_of(tag))):
                found[device][tag] = None
        return {device: tuple(services) for device, services in found.items()}

    def terminations(self, building: str | None) -> tuple[BondNode, ...]:
        """The intersystem bonding terminations of a building that are in use, in tag order."""
        return self._terminations.get(building, ())

    @cached_property
    def _terminations(self) -> dict[str | None, tuple[BondNode, ...]]:
        found: dict[str | None, list[BondNode]] = defaultdict(list)
        for node in self.network.bonds.values():
            if node.in_use and node.item.kind == TERMINATION and node.place is not None:
                found[node.place.building].append(node)
        return {building: tuple(nodes) for building, nodes in found.items()}

    def loose_ends(self) -> tuple[UnknownReference, ...]:
        """The ends of cables in use that name no device."""
        return self._loose

    def namesakes(self, section: str, tag: str) -> tuple[tuple[str, str], ...]:
        """Everything tagged alike, small letters and capitals apart, by section and tag; the rightful one first."""
        return self._tagged.get(tag.casefold(), ((section, tag),))

    @cached_property
    def every_tag(self) -> frozenset[str]:
        """The tags of drawings and labels in small letters."""
        return frozenset(self._tagged)

    @cached_property
    def labels(self) -> Mapping[str, tuple[CableLink, ...]]:
        """For each label in small letters, the cables in use that bear it, in tag order; empty where none is given."""
        bearing: dict[str, list[CableLink]] = defaultdict(list)
        for link in self.network.cables.values():
            for label in dict.fromkeys(label.casefold() for label in link.cable.labels or () if link.in_use):
                bearing[label].append(link)
        return {label: tuple(links) for label, links in bearing.items()}

    @cached_property
    def _tagged(self) -> dict[str, tuple[tuple[str, str], ...]]:
        found: dict[str, list[tuple[str, str]]] = defaultdict(list)
        for section in TAGGED:
            for tag in getattr(self.network, "bonds" if section == "bonding" else section):
                found[tag.casefold()].append((section, tag))
        return {folded: tuple(names) for folded, names in found.items()}

    @cached_property
    def _loops(self) -> dict[str, Loop]:
        return {loop.closing.tag: loop for loop in loops(self.network)}

    @cached_property
    def _openings(self) -> dict[tuple[str, ...], FreeOutputs]:
        return {}

    @cached_property
    def _splits(self) -> dict[str, Split]:
        return splits(self.network)

    @cached_property
    def _backwards(self) -> dict[str, Backward]:
        return {one.device.tag: one for one in backwards(self.network)}

    @cached_property
    def _loose(self) -> tuple[UnknownReference, ...]:
        return tuple(
            fault
            for link in self.network.cables.values()
            for fault in (self.network.references_of(link.path) if link.in_use else ())
            if fault.path[-1] in ("from", "to") and fault.wanted == "device"
        )

    @cached_property
    def _neighbors(self) -> dict[str, set[str]]:
        next_to: dict[str, set[str]] = defaultdict(set)
        pairs = [
            (link.near.device.tag, link.far.device.tag)
            for link in self.network.cables.values()
            if link.in_use and link.near.device is not None and link.far.device is not None
        ]
        pairs += [(tag, end.device.tag) for tag, end in self.network.fittings.items() if end.device is not None]
        pairs += [(tag, node.device.on) for tag, node in self.network.devices.items() if node.device.on is not None]
        for one, other in pairs:
            if one in self.network.devices and other in self.network.devices:
                next_to[one].add(other)
                next_to[other].add(one)
        return dict(next_to)

    def _reached(self, start: str, without: str = "") -> frozenset[str]:
        seen, queue = {start}, [start]
        while queue:
            for other in self._neighbors.get(queue.pop(), ()):
                if other not in seen and other != without:
                    seen.add(other)
                    queue.append(other)
        return frozenset(seen)

    @cached_property
    def _joined(self) -> dict[str, Joined]:
        order = {tag: index for index, tag in enumerate(self.network.devices)}
        found: dict[str, Joined] = {}
        for tag in order:
            if tag not in found:
                devices = self._reached(tag)
                in_order = tuple(sorted(devices, key=order.__getitem__))
                found |= dict.fromkeys(devices, Joined(devices, in_order))
        return found
