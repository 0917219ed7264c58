"""Is a cable listed for the shafts and air spaces that it runs through?"""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.checks.contract import (
    CannotJudge,
    Check,
    CheckContext,
    Correction,
    DoesNotApply,
    NeedsPerson,
    NotMet,
    Verdict,
)
from coaxwright.checks.limits import LimitKind, Limits
from coaxwright.checks.phrasing import count, listed
from coaxwright.checks.selectors import CABLE
from coaxwright.checks.subject_filters import all_if
from coaxwright.design.quantities import Floors
from coaxwright.design.words import SMALL_DWELLINGS
from coaxwright.network import CableLink, Network, Segment, Unknown
from coaxwright.network.listing_marks import (
    FOR_AIR,
    FOR_RISERS,
    is_in_metal,
    listed_type,
    mark_of,
    mark_words,
    misnamed,
)

_PIPES = frozenset(("rigid plastic conduit", "flexible plastic tubing", "inner duct", "surface raceway"))
"""Raceways that are listed by their own mark and may burn."""


def plenum(link: CableLink, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """Where a space carries the building's air, a cable outside metal raceway is listed for it.

    The space above a lay-in ceiling is such a space only if it carries return air: the design has to say so.
    """
    doubtful = [s for s in link.segments if _carries_air(s) is None and not is_in_metal(s)]
    moved = segments_in_air(link)
    if not doubtful and not moved:
        yield DoesNotApply("no part of it runs in a space that carries the building's air")
        return
    mark = mark_of(link)
    if isinstance(mark, Unknown):
        yield CannotJudge(mark)
        return
    if mark not in FOR_AIR:
        if moved:
            yield _unsuited(link, "plenum", moved, {})
            return
        for segment in {segment.tag: segment for segment in doubtful}.values():
            yield CannotJudge(_air_not_said(segment), facet=segment.tag)
        return
    for segment in {s.raceway.tag: s for s in moved if s.raceway is not None}.values():
        raceway = segment.raceway
        assert raceway is not None
        stated = raceway.raceway.listing
        if raceway.raceway.kind in _PIPES and stated not in (None, "plenum"):
            values = {
                "raceway": raceway.tag,
                "kind": raceway.raceway.kind,
                "listing": stated,
                "place": segment.tag,
            }
            yield NotMet("raceway", segment.path, values | {"cable": link.tag}, facet=raceway.tag)


def riser(link: CableLink, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """A cable in a shaft, or through more than one floor, is listed for it; not in small dwellings or metal raceway."""
    most = limits.quantity(Floors, "most")
    assert most is not None
    upright = segments_in_risers(link, context.network, most.number)
    if not upright:
        yield DoesNotApply("no part of it runs in a shaft or through several floors outside metal raceway")
        return
    mark = mark_of(link)
    if isinstance(mark, Unknown):
        yield CannotJudge(mark)
        return
    if mark in FOR_RISERS:
        return
    if segments_in_air(link):
        yield DoesNotApply("it runs in a space that carries air as well, and is judged by that")
        return
    judged = [segment for segment in upright if not _is_in_dwelling(segment, context.network)]
    if not judged:
        yield DoesNotApply("in one- and two-family dwellings any listed cable may pass the floors")
        return
    for segment in judged:
        occupancy = _occupancy(segment, context.network)
        if isinstance(occupancy, Unknown):
            yield CannotJudge(occupancy)
            return
    open_ = [segment for segment in judged if not (segment.leg is not None and segment.leg.firestopped)]
    if open_:
        yield _unsuited(link, "riser", open_, {"floors": _floors_words(open_, context.network)})
        return
    values = {"cable": link.tag, "mark": mark_words(link), "stretches": _stretches(judged)}
    yield NeedsPerson("firestopped", judged[0].path, values)


def segments_in_air(link: CableLink) -> list[Segment]:
    """The stretches in spaces that are said to carry the building's air, outside metal raceway."""
    return [segment for segment in link.segments if _carries_air(segment) and not is_in_metal(segment)]


def segments_in_risers(link: CableLink, network: Network, most: int) -> list[Segment]:
    """The stretches in shafts, or through more than ``most`` floors, outside metal raceway."""
    found = []
    for segment in link.segments:
        floors = floors_crossed(segment, network)
        is_shaft = segment.place is not None and segment.place.exposure == "riser"
        passes = is_shaft if floors is None else floors > most
        if passes and not is_in_metal(segment):
            found.append(segment)
    return found


def needs_riser_mark(link: CableLink, network: Network, most: int) -> bool:
    """Whether some stretch is one that the rule of risers speaks of."""
    return any(not _is_in_dwelling(segment, network) for segment in segments_in_risers(link, network, most))


def floors_crossed(segment: Segment, network: Network) -> int | None:
    """The floors that a stretch passes, as stated; in a shaft, at most those between a building's storeys.

    None where nothing tells it.
    """
    place = segment.place
    if segment.leg is not None and segment.leg.floors_crossed is not None:
        return segment.leg.floors_crossed
    if place is None:
        return None
    if place.place.floors_crossed is not None:
        return place.place.floors_crossed
    building = network.buildings.get(place.building or "")
    floors = building.building.floors if building is not None else None
    return floors - 1 if place.exposure == "riser" and floors is not None else None


def _carries_air(segment: Segment) -> bool | None:
    """Whether the place of a stretch carries the building's air; None where that has to be said."""
    if segment.place is None:
        return None
    said = segment.place.place.return_air
    if said is not None:
        return said
    return None if segment.place.exposure == "plenum" else False


def _may_carry_air(network: Network) -> bool:
    """Whether any space is drawn that carries the building's air, or may, or that is not known."""
    drawn = any(node.place.return_air or node.exposure == "plenum" for node in network.places.values())
    return drawn or bool(network.stretches.unplaced)


def _may_pass_floors(network: Network) -> bool:
    """Whether any shaft is drawn, or a number of floors is stated of a place or a stretch."""
    drawn = any(node.place.floors_crossed or node.exposure == "riser" for node in network.places.values())
    return drawn or any(
        segment.leg is not None and segment.leg.floors_crossed
        for link in network.stretches.described
        for segment in link.segments
    )


def _air_not_said(segment: Segment) -> Unknown:
    if segment.place is None:
        return misnamed(segment)
    return Unknown(f"{segment.tag} does not say whether it carries return air", ("places", segment.tag, "return air"))


def _is_in_dwelling(segment: Segment, network: Network) -> bool:
    return _occupancy(segment, network) in SMALL_DWELLINGS


def _occupancy(segment: Segment, network: Network) -> str | Unknown:
    return network.occupancy(segment.place.building if segment.place is not None else None)


def _floors_words(segments: list[Segment], network: Network) -> str:
    floors = [number for segment in segments if (number := floors_crossed(segment, network)) is not None]
    return f" through {count(max(floors), 'floor')}" if floors else ""


def _stretches(segments: list[Segment]) -> str:
    return listed([f"{segment.length.text} of {segment.tag}" for segment in segments])


def _unsuited(link: CableLink, jacket: str, segments: list[Segment], more: dict[str, str]) -> NotMet:
    """The cable is not listed for these stretches: the type that is, where its class is made so."""
    values = {"cable": link.tag, "mark": mark_words(link), "stretches": _stretches(segments), **more}
    at = (*link.path, "type" if link.cable.listing is None else "listing")
    related = tuple((segment.path, "it runs here") for segment in segments)
    suiting = listed_type(link, jacket)
    if suiting is None:
        return NotMet("not made", at, values, related=related)
    mend = Correction(at, suiting) if link.cable.listing is None else None
    return NotMet("other mark", at, values | {"suiting": suiting}, mend=mend, related=related)


_VALUES = ("cable", "mark", "stretches")

CHECKS = (
    Check(
        name="plenum",
        each=CABLE,
        judge=plenum,
        applies_to=all_if(_may_carry_air),
        cases={
            "other mark": (*_VALUES, "suiting"),
            "not made": _VALUES,
            "raceway": ("cable", "raceway", "kind", "listing", "place"),
        },
        reads=(
            "cables.*.type",
            "cables.*.listing",
            "cables.*.route",
            "places.*.exposure",
            "places.*.return air",
            "raceways.*.kind",
            "raceways.*.listing",
        ),
    ),
    Check(
        name="riser",
        each=CABLE,
        judge=riser,
        applies_to=all_if(_may_pass_floors),
        cases={
            "other mark": (*_VALUES, "floors", "suiting"),
            "not made": (*_VALUES, "floors"),
            "firestopped": _VALUES,
        },
        reads=(
            "basis.occupancy",
            "buildings.*.occupancy",
            "buildings.*.floors",
            "cables.*.type",
            "cables.*.listing",
            "cables.*.route",
            "places.*.exposure",
            "places.*.floors crossed",
            "places.*.return air",
            "raceways.*.kind",
        ),
        limits={"most": LimitKind(Floors)},
    ),
)
