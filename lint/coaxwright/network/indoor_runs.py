"""What a cable runs inside buildings, building by building, and whether it comes in from outdoors."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import groupby

from coaxwright.design.words import AERIALS
from coaxwright.frozen_value import frozen_value
from coaxwright.network import CableEnd, CableLink, Segment, Unknown
from coaxwright.network.listing_marks import FOR_ROOMS, CableMark, mark_of, misnamed


@frozen_value
class IndoorRun:
    """What a cable runs inside one building without leaving it."""

    segments: tuple[Segment, ...]
    """Inwards from the side it comes in by, where it comes in."""
    comes_in: bool
    end: CableEnd | None
    """Where it ends in the building; None where it leaves again."""

    @property
    def building(self) -> str:
        """The building's tag; empty where its places name none."""
        return _inside(self.segments[0]) or ""

    @property
    def length_m(self) -> float:
        return sum(segment.length.length_m for segment in self.segments)


def indoor_runs(link: CableLink) -> tuple[IndoorRun, ...] | Unknown:
    """What a cable runs inside, or what is missing to know it."""
    if not link.segments:
        return _without_route(link)
    for segment in link.segments:
        if segment.place is None:
            return misnamed(segment)
    groups = [(building, tuple(group)) for building, group in groupby(link.segments, _inside)]
    found = []
    for index, (building, group) in enumerate(groups):
        if building is None:
            continue
        is_first, is_last = index == 0, index == len(groups) - 1
        from_near = _is_outdoors(link.near) if is_first else groups[index - 1][0] is None
        from_far = _is_outdoors(link.far) if is_last else groups[index + 1][0] is None
        if from_near:
            found.append(IndoorRun(group, True, link.far if is_last and not from_far else None))
        else:
            found.append(IndoorRun(group[::-1], from_far, link.near if is_first else None))
    return tuple(found)


def longest_in_each(runs: Sequence[IndoorRun]) -> Iterator[IndoorRun]:
    """The longest run in each building: a cable may leave one and come back."""
    for building in dict.fromkeys(run.building for run in runs):
        yield max((run for run in runs if run.building == building), key=lambda run: run.length_m)


def _without_route(link: CableLink) -> tuple[IndoorRun, ...] | Unknown:
    """A cable without a route, between two ends inside, runs inside; nobody knows how far any other does."""
    if isinstance(link.length, Unknown):
        return link.length
    places = [end.device.place if end.device is not None else None for end in link.ends]
    if all(place is not None and place.is_outside for place in places):
        return ()
    if any(place is None or place.is_outside for place in places):
        mark = mark_of(link)
        is_listed = isinstance(mark, CableMark) and mark.mark in FOR_ROOMS
        return () if is_listed else Unknown("no route", (*link.path, "route"), {"cable": link.tag})
    segment = Segment(places[0], places[0].tag if places[0] is not None else "", link.length, (*link.path, "length"))
    return (IndoorRun((segment,), False, link.far),)


def _is_outdoors(end: CableEnd) -> bool:
    """Whether an end is outdoors; an aerial or a drop without a place is taken to be."""
    device = end.device
    if device is None:
        return False
    if device.place is None:
        return device.device.kind in AERIALS or device.device.kind == "coax drop"
    return device.place.is_outside


def _inside(segment: Segment) -> str | None:
    place = segment.place
    return None if place is None or place.is_outside else place.building or ""
