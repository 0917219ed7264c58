"""Where coax passes a building's envelope, and what stands there to protect it."""

from __future__ import annotations

from collections import deque
from collections.abc import Callable, Iterator, Mapping, Sequence
from itertools import pairwise
from typing import Literal

from coaxwright.design.quantities import Length, total
from coaxwright.design.words import AERIALS
from coaxwright.frozen_value import frozen_value
from coaxwright.network.nodes import CableEnd, CableLink, DeviceNode, PlaceNode
from coaxwright.network.tags import tag_order
from coaxwright.network.values import Unknown

Line = Literal["antenna", "coax drop", "inter-building", "outdoors"]
"""What lies on the outdoor side: an antenna, an operator's drop, another building, or something else out of doors."""


@frozen_value
class Entry:
    """One cable passing one building's envelope."""

    cable: CableLink
    building: str
    outside: PlaceNode | None
    """None where the entry is not drawn: the drop stands inside, or the antenna or drop has no place at all."""
    inside: PlaceNode | None
    outside_end: CableEnd
    """The end reached by going outwards along the cable."""
    inside_end: CableEnd | None
    """The end reached by going inwards; None where the cable leaves the building again before it ends."""
    line: Line
    source: str | None
    """The antenna, drop or building on the outdoor side, by its tag."""


def length_inside(entry: Entry) -> Length | Unknown:
    """How far the cable of an entry runs inside the building, from the envelope to its inner end."""
    link = entry.cable
    if not link.segments:
        return Unknown("no route", (*link.path, "route"), {"cable": link.tag})
    inwards = link.segments if entry.inside_end is link.far else link.segments[::-1]
    inside: list[Length] = []
    for segment in reversed(inwards):
        if segment.place is None:
            return Unknown("no such place", segment.path, {"place": segment.tag})
        if segment.place.is_outside:
            break
        inside.append(segment.length)
    return total(inside)


def length_outside(entry: Entry) -> Length | Unknown:
    """How far the cable of an entry runs out of doors, from its outer end to the building's envelope."""
    link = entry.cable
    if not link.segments:
        return Unknown("no route", (*link.path, "route"), {"cable": link.tag})
    outside: list[Length] = []
    for segment in link.segments if entry.outside_end is link.near else link.segments[::-1]:
        if segment.place is None:
            return Unknown("no such place", segment.path, {"place": segment.tag})
        if not segment.place.is_outside:
            break
        outside.append(segment.length)
    return total(outside)


class EntryFinder:
    """Finds entries and their protectors in a network given by its links."""

    def __init__(self, links: Mapping[str, CableLink], links_at: Callable[[str], Sequence[CableLink]]) -> None:
        self._links = links
        self._links_at = links_at

    def entries(self) -> Iterator[Entry]:
        """Every entry, by cable tag and building, once each: from outdoors before from a building next door."""
        for link in self._links.values():
            if link.in_use:
                found: dict[str, Entry] = {}
                for entry in (*self._of(link), *self._from_drop_inside(link)) or self._from_unplaced_source(link):
                    before = found.get(entry.building)
                    if before is None or (_is_next_door(before) and not _is_next_door(entry)):
                        found[entry.building] = entry
                yield from (found[building] for building in sorted(found, key=tag_order))

    def protector(self, entry: Entry) -> DeviceNode | Unknown | None:
        """The ground block or protector that serves an entry.

        It is the first device inside, or one on the outdoor side that belongs to the same building, reached without
        entering a building. Unknown where a tag on the way names nothing, or where nobody says what is outdoors.
        """
        inside = entry.inside_end
        if inside is not None and inside.device is not None and inside.device.protects and inside.device.in_use:
            return inside.device
        unknown: Unknown | None = None
        source = entry.outside_end.device
        if entry.outside is None and source is not None and source.place is None:
            unknown = Unknown("device without place", (*source.path, "place"), {"device": source.tag})
        if inside is not None and inside.device is None:
            unknown = Unknown("no such device", inside.path, {"written": inside.written})
        facing = self._facing(entry.cable, entry.outside_end, entry.building)
        return facing if isinstance(facing, DeviceNode) else unknown or facing

    def _facing(self, link: CableLink, end: CableEnd, building: str) -> DeviceNode | Unknown | None:
        """The protector that is met from ``end`` of a cable onwards, through devices out of doors only.

        The way goes on against the signal or with it, and never turns from one branch of a divider into another.
        Against the signal one protector will do; with it every branch has to have one.
        """
        upwards = end is link.near
        queue = deque([(link, end)])
        seen = {link.tag}
        found: DeviceNode | None = None
        unknown: Unknown | None = None
        is_open = False
        while queue:
            by, reached = queue.popleft()
            device = reached.device
            if device is None:
                unknown = unknown or Unknown("no such device", reached.path, {"written": reached.written})
                continue
            if device.protects and device.in_use and _belongs(device, building):
                found = found or device
                continue
            ahead = [] if device.place is None or not device.place.is_outside else self._links_at(device.tag)
            further = [
                (other, other.near if upwards else other.far)
                for other in ahead
                if other.in_use
                and other.tag not in seen | {by.tag}
                and (other.far if upwards else other.near).device is device
            ]
            is_open = is_open or not further
            seen.update(other.tag for other, _ in further)
            queue.extend(further)
        if upwards or not (is_open or unknown):
            return found or unknown
        return None if is_open else unknown

    def line_outside(self, link: CableLink, end: CableEnd, own: str | None) -> tuple[Line, str | None]:
        """What lies out of doors beyond ``end`` of a cable: the nearest antenna or drop, else another building."""
        building: str | None = None
        for reached in self._outwards(link, end):
            device = reached.device
            if device is None:
                continue
            if device.device.kind in AERIALS:
                return "antenna", device.tag
            if device.device.kind == "coax drop":
                return "coax drop", device.tag
            if device.place is not None and not device.place.is_outside and device.place.building != own:
                building = building or device.place.building
        return ("inter-building", building) if building is not None else ("outdoors", None)

    def _from_unplaced_source(self, link: CableLink) -> Iterator[Entry]:
        """An antenna or drop without a place, joined to something indoors: it may stand out of doors."""
        for outer, inner in ((link.near, link.far), (link.far, link.near)):
            source, inside = outer.device, inner.device.place if inner.device is not None else None
            if source is None or source.place is not None or source.device.place is not None or inside is None:
                continue
            building = _inside(inside)
            line: Line = "antenna" if source.device.kind in AERIALS else "coax drop"
            is_source = source.device.kind in AERIALS or source.device.kind == "coax drop"
            if is_source and building is not None and not link.segments:
                yield Entry(link, building, None, inside, outer, inner, line, source.tag)

    def _from_drop_inside(self, link: CableLink) -> Iterator[Entry]:
        """The entry that is not drawn, before a coax drop that stands inside a building."""
        drop = link.near.device
        if drop is None or drop.device.kind != "coax drop" or drop.place is None:
            return
        building = _inside(drop.place)
        if building is not None:
            yield Entry(link, building, None, drop.place, link.near, link.far, "coax drop", drop.tag)

    def _of(self, link: CableLink) -> Iterator[Entry]:
        stations = _stations(link)
        if len({_inside(station) for station in stations}) < 2:
            return  # all of it out of doors, or in one building
        for index, (first, second) in enumerate(pairwise(stations)):
            for inner, outer, inwards in ((first, second, -1), (second, first, 1)):
                if inner is outer:
                    continue
                building = _inside(inner)
                if building is None or building == _inside(outer):
                    continue
                beyond = stations[: index + 1] if inwards == -1 else stations[index + 1 :]
                stays = all(_inside(station) == building for station in beyond)
                outside_end, inside_end = (link.far, link.near) if inwards == -1 else (link.near, link.far)
                line, source = self.line_outside(link, outside_end, building)
                yield Entry(link, building, outer, inner, outside_end, inside_end if stays else None, line, source)

    def _outwards(self, link: CableLink, end: CableEnd) -> Iterator[CableEnd]:
        """Ends reached from ``end`` of a cable onwards, through devices out of doors only."""
        queue = deque([(link.tag, end)])
        seen = {link.tag}
        while queue:
            _, reached = queue.popleft()
            yield reached
            device = reached.device
            if device is None or device.place is None or not device.place.is_outside:
                continue
            for other in self._links_at(device.tag):
                if other.tag not in seen and other.in_use:
                    seen.add(other.tag)
                    queue.append((other.tag, other.other_end(device.tag)))


def _stations(link: CableLink) -> list[PlaceNode]:
    """The places a cable passes, its end devices' included; places that name nothing are passed over."""
    ends = [end.device.place if end.device is not None else None for end in link.ends]
    places = [ends[0], *(segment.place for segment in link.segments), ends[1]]
    return [place for place in places if place is not None]


def _inside(place: PlaceNode) -> str | None:
    """The building whose inside this is."""
    return None if place.is_outside else place.building


def _is_next_door(entry: Entry) -> bool:
    """Whether the cable comes from the inside of another building, wall to wall, and not from outdoors."""
    return entry.outside is not None and not entry.outside.is_outside


def _belongs(device: DeviceNode, building: str) -> bool:
    return device.place is not None and device.place.building == building
