"""Is a cable indoors listed, or short enough from where it comes in?"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import groupby

from coaxwright.catalogue import CableType
from coaxwright.checks.contract import CannotJudge, Check, CheckContext, DoesNotApply, NeedsPerson, NotMet, Verdict
from coaxwright.checks.limits import LimitKind, Limits
from coaxwright.checks.listing import needs_riser_mark, segments_in_air
from coaxwright.checks.phrasing import in_system, length_text
from coaxwright.checks.selectors import CABLE
from coaxwright.design.quantities import Floors, LengthPair, in_system_of, total
from coaxwright.design.words import AERIALS, SMALL_DWELLINGS
from coaxwright.frozen_value import frozen_value
from coaxwright.network import CableEnd, CableLink, Network, Segment, Unknown
from coaxwright.network.listing_marks import FOR_ROOMS, LIMITED, NO_MARK, listed_type, mark_of, mark_words, misnamed
from coaxwright.physics.comparison import at_most

_RIGID = frozenset(("rigid metal conduit", "intermediate metal conduit"))
"""What moves the point of entrance inwards; thin-wall tubing does not. Source: NFPA 70, article 100."""
_DWELLINGS = SMALL_DWELLINGS | {"multifamily dwelling"}
_VIDEO = "camera video"


@frozen_value
class _IndoorRun:
    """What a cable runs inside one building without leaving it."""

    segments: tuple[Segment, ...]
    """Inwards from the side it comes in by, where it comes in."""
    comes_in: bool
    end: CableEnd | None
    """Where it ends in the building; None where it leaves again."""


def listed_indoors(link: CableLink, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """A cable indoors is listed; one that is not runs from outdoors to a protector, at most the permitted length."""
    stretches = _stretches(link)
    if isinstance(stretches, Unknown):
        yield CannotJudge(stretches)
        return
    if not stretches:
        yield DoesNotApply("no part of it runs indoors")
        return
    mark = mark_of(link)
    if isinstance(mark, Unknown):
        yield CannotJudge(mark)
        return
    if mark in FOR_ROOMS:
        return
    if mark not in LIMITED and mark != NO_MARK:
        if any(node.service.kind != _VIDEO for node in context.network.services_on(link.tag)):
            yield NeedsPerson("other circuits", (*link.path, "listing"), {"cable": link.tag, "mark": mark})
        return
    floors = limits.quantity(Floors, "floors")
    assert floors is not None
    if segments_in_air(link) or needs_riser_mark(link, context.network, floors.number):
        yield DoesNotApply("a shaft or a space that carries air asks for more, and it is judged by that")
        return
    judge = _limited if mark in LIMITED else _unlisted
    yield from judge(link, stretches, context.network, limits)


def _unlisted(
    link: CableLink, stretches: tuple[_IndoorRun, ...], network: Network, limits: Limits
) -> Iterator[Verdict]:
    """An unlisted cable comes from outdoors, and ends in a protector within the permitted length of its entrance."""
    longest = limits.length("longest")
    assert longest is not None
    values = {"cable": link.tag, "mark": mark_words(link)}
    at = (*link.path, "type" if link.cable.listing is None else "listing")
    unsaid = link.cable.listing is None and isinstance(link.type, CableType) and not link.type.jacket.burial_rated
    suiting = listed_type(link, "riser")
    values["instead"] = f"take '{suiting}'" if suiting else "change to a listed cable where it comes in"
    for stretch in _once_each(stretches):
        counted, open_question = _from_entrance(stretch)
        inside = total([segment.length for segment in counted])
        limit = longest.for_author(inside.is_metric)
        is_long = not at_most(in_system(inside, inside.is_metric), in_system(limit, inside.is_metric))
        device = stretch.end.device if stretch.end is not None else None
        protects = device is not None and device.protects
        if not counted or (stretch.comes_in and protects and not is_long):
            continue
        if stretch.comes_in and not protects and _is_unprotected(link, _building(stretch), network):
            continue  # the missing protector is told by the rule of entries
        if unsaid and stretch.comes_in and not is_long:
            yield DoesNotApply("no mark is stated, an outdoor jacket tells none, and it is short")
            return
        if unsaid:  # some outdoor cable is listed, some is not
            yield CannotJudge(Unknown(f"{link.tag} states no listing mark", (*link.path, "listing")))
            return
        if stretch.comes_in and open_question is not None:
            yield CannotJudge(open_question)
            return
        if stretch.end is not None and device is None:
            yield CannotJudge(Unknown(f"{stretch.end.written!r} names no device", stretch.end.path))
            return
        where = _building(stretch)
        known = values | {"length": length_text(inside, limit), "longest": limit.text}
        if not stretch.comes_in:
            yield NotMet("starts inside", at, values | {"length": inside.text}, facet=where)
        elif not protects:
            end = f"ends at {device.tag} ({device.device.kind})" if device is not None else "leaves it again"
            yield NotMet("no protector", at, known | {"end": end}, facet=where)
        else:
            assert device is not None
            over = in_system_of(inside, inside.length_m - limit.length_m)
            more = {"over": over.text, "protector": device.tag}
            yield NotMet("too long", at, known | more, facet=where, cites=(("longest",),), excess=over.length_m)


def _limited(
    link: CableLink, stretches: tuple[_IndoorRun, ...], network: Network, limits: Limits
) -> Iterator[NotMet | CannotJudge]:
    """A cable of limited use is thin and in a dwelling, or in raceway, or exposed over a short length only."""
    short, thin = limits.length("short"), limits.length("thin")
    assert short is not None
    assert thin is not None
    diameter_m = link.type.outer_diameter_m if isinstance(link.type, CableType) else None
    is_thick = diameter_m is not None and not diameter_m < thin.feet.length_m
    for stretch in _once_each(stretches):
        exposed = total([segment.length for segment in stretch.segments if segment.raceway is None])
        limit = short.for_author(exposed.is_metric)
        if at_most(in_system(exposed, exposed.is_metric), in_system(limit, exposed.is_metric)):
            continue
        occupancy = network.occupancy(_building(stretch))
        if isinstance(occupancy, Unknown) and not is_thick:
            yield CannotJudge(occupancy)
            return
        if occupancy in _DWELLINGS and not is_thick:
            continue
        suiting = listed_type(link, "riser")
        values = {
            "cable": link.tag,
            "mark": mark_words(link),
            "length": length_text(exposed, limit),
            "use": f"it is not thinner than {thin.text}" if is_thick else f"the building is used as {occupancy}",
            "short": limit.text,
            "thin": thin.text,
            "instead": f"take '{suiting}'" if suiting else "change to a cable marked CATV or better",
        }
        yield NotMet("limited", (*link.path, "listing"), values, facet=_building(stretch), cites=(("short",),))


def _from_entrance(stretch: _IndoorRun) -> tuple[tuple[Segment, ...], Unknown | None]:
    """What counts from the point of entrance, and what is not said that would move it inwards.

    Bonded rigid or intermediate metal conduit that begins at the wall carries the point of entrance to its inner end.
    """
    unsaid: Unknown | None = None
    segments = stretch.segments if stretch.comes_in else ()
    counted = len(stretch.segments)
    for segment in segments:
        node = segment.raceway
        if node is None or node.raceway.kind not in _RIGID or node.raceway.bonded is False:
            break
        if node.places and segment.tag not in node.places:
            break  # it is not drawn as coming through here
        if node.raceway.bonded is None:
            unsaid = Unknown(f"{node.tag} does not say whether it is bonded", (*node.path, "bonded"))
            break
        counted -= 1
    return stretch.segments[len(stretch.segments) - counted :], unsaid


def _stretches(link: CableLink) -> tuple[_IndoorRun, ...] | Unknown:
    """What a cable runs inside, building by building, or what is missing to tell it."""
    if not link.segments:
        return _without_route(link)
    for segment in link.segments:
        if segment.place is None:
            return misnamed(segment)
    groups = [(building, list(group)) for building, group in groupby(link.segments, _inside)]
    found = []
    for index, (building, group) in enumerate(groups):
        if building is None:
            continue
        sides = []
        for is_last, beyond, end in (
            (index == 0, index - 1, link.near),
            (index == len(groups) - 1, index + 1, link.far),
        ):
            sides.append(_is_outdoors(end) if is_last else groups[beyond][0] is None)
        from_near, from_far = sides
        ends_near, ends_far = index == 0 and not from_near, index == len(groups) - 1 and not from_far
        if from_near:
            found.append(_IndoorRun(tuple(group), True, link.far if ends_far else None))
        else:
            found.append(_IndoorRun(tuple(group[::-1]), from_far, link.near if ends_near else None))
    return tuple(found)


def _without_route(link: CableLink) -> tuple[_IndoorRun, ...] | Unknown:
    """A cable without a route, between two ends inside, runs inside; nobody can tell how far another does."""
    if isinstance(link.length, Unknown):
        return link.length
    places = [end.device.place if end.device is not None else None for end in link.ends]
    if all(place is not None and place.is_outside for place in places):
        return ()
    if any(place is None or place.is_outside for place in places):
        is_listed = mark_of(link) in FOR_ROOMS
        return () if is_listed else Unknown(f"{link.tag} has no route", (*link.path, "route"))
    segment = Segment(places[0], places[0].tag if places[0] is not None else "", link.length, (*link.path, "length"))
    return (_IndoorRun((segment,), False, link.far),)


def _is_outdoors(end: CableEnd) -> bool:
    """Whether an end is outdoors; an aerial or a drop without a place is taken to be."""
    device = end.device
    if device is None:
        return False
    if device.place is None:
        return device.device.kind in AERIALS or device.device.kind == "service drop"
    return device.place.is_outside


def _inside(segment: Segment) -> str | None:
    place = segment.place
    return None if place is None or place.is_outside else place.building or ""


def _is_unprotected(link: CableLink, building: str, network: Network) -> bool:
    """Whether no protector stands where the cable enters the building."""
    entries = [entry for entry in network.entries if entry.cable is link and entry.building == building]
    return any(network.protector_at(entry) is None for entry in entries)


def _once_each(stretches: tuple[_IndoorRun, ...]) -> Iterator[_IndoorRun]:
    """The longest stretch in each building: a cable that comes back is told once."""
    lengths = {id(one): sum(segment.length.length_m for segment in one.segments) for one in stretches}
    for building in dict.fromkeys(_building(one) for one in stretches):
        yield max((one for one in stretches if _building(one) == building), key=lambda one: lengths[id(one)])


def _building(stretch: _IndoorRun) -> str:
    return _inside(stretch.segments[0]) or ""


_UNLISTED = ("cable", "mark", "length", "instead")

CHECKS = (
    Check(
        name="listed-indoors",
        each=CABLE,
        judge=listed_indoors,
        cases={
            "too long": (*_UNLISTED, "longest", "over", "protector"),
            "no protector": (*_UNLISTED, "longest", "end"),
            "starts inside": _UNLISTED,
            "limited": (*_UNLISTED, "use", "short", "thin"),
            "other circuits": ("cable", "mark"),
        },
        reads=(
            "basis.occupancy",
            "buildings.*.occupancy",
            "cables.*.type",
            "cables.*.listing",
            "cables.*.route",
            "cables.*.length",
            "places.*.exposure",
            "places.*.return air",
            "places.*.floors crossed",
            "devices.*.kind",
            "devices.*.place",
            "raceways.*.kind",
            "raceways.*.bonded",
            "raceways.*.places",
        ),
        limits={
            "longest": LimitKind(LengthPair),
            "short": LimitKind(LengthPair),
            "thin": LimitKind(LengthPair),
            "floors": LimitKind(Floors),
        },
    ),
)
