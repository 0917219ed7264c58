"""The listing mark of a cable, and where each mark may go."""

from __future__ import annotations

from coaxwright.catalogue import CatalogueError, UnknownWords
from coaxwright.design.value_types import WORD, Phrase, phrase
from coaxwright.design.words import Occupancy
from coaxwright.frozen_value import frozen_value
from coaxwright.network import CableLink, Network, Segment, Unknown

FOR_AIR = frozenset(("CATVP", "CMP", "CL3P", "CL2P"))
"""Marks of low flame and smoke. Source: NFPA 70, table of substitutions at 800.154, found in part.

CL marks withstand the same fire; whether they may carry this signal is another question.
"""
FOR_RISERS = FOR_AIR | {"CATVR", "CMR", "CL3R", "CL2R"}
FOR_ROOMS = frozenset(("CATVP", "CMP", "CATVR", "CMR", "CATV", "CMG", "CM"))
LIMITED = frozenset(("CATVX", "CMX"))
"""Marks of limited use: for dwellings, raceways and short lengths. Source: NFPA 70, 800.113, from memory."""
NO_MARK = ""
MARK_SHOWN = phrase(stated={"mark": WORD}, usual={"mark": WORD}, unlisted={}, unmarked={"jacket": WORD})
"""The type of ``CableMark.shown``, as checks declare it."""


@frozen_value
class CableMark:
    """The listing mark of a cable: the one stated, else the one that its jacket usually bears."""

    mark: str
    """``NO_MARK`` where it bears none."""
    shown: Phrase
    """The mark with how it is known."""


def mark_of(link: CableLink) -> CableMark | Unknown:
    """The mark of a cable, or what is missing to tell it."""
    stated = link.cable.listing
    if stated is not None:
        is_listed = stated != "unlisted"
        shown = Phrase("stated", {"mark": stated}) if is_listed else Phrase("unlisted")
        return CableMark(stated if is_listed else NO_MARK, shown)
    if isinstance(link.type, UnknownWords):
        return Unknown("type not understood", (*link.path, "type"), {"cable": link.tag})
    jacket = link.type.jacket
    if jacket.us_mark:
        return CableMark(jacket.us_mark, Phrase("usual", {"mark": jacket.us_mark}))
    return CableMark(NO_MARK, Phrase("unmarked", {"jacket": jacket.name}))


def listed_type(link: CableLink, jacket: str) -> str | None:
    """The cable's type with a listed jacket that suits all of its places too; None where it is not made so."""
    if isinstance(link.type, UnknownWords):
        return None
    try:
        made = link.type.with_jacket(jacket)
    except CatalogueError:
        return None
    exposures = {segment.place.exposure for segment in link.segments if segment.place is not None}
    if exposures & {"outdoors", "rooftop", "wet"} and not made.jacket.resists_sun_and_wet:
        return None
    return None if "buried" in exposures and not made.jacket.burial_rated else made.phrase


def segments_in_air(link: CableLink) -> list[Segment]:
    """The stretches in spaces that are said to carry the building's air, outside metal raceway."""
    return [segment for segment in link.segments if carries_air(segment) and not segment.is_in_metal]


def segments_in_risers(link: CableLink, network: Network, most: int) -> list[Segment]:
    """The stretches in shafts, or through more than ``most`` floors, outside metal raceway."""
    found = []
    for segment in link.segments:
        floors = floors_crossed(segment, network)
        is_shaft = segment.place is not None and segment.place.exposure == "riser"
        passes = is_shaft if floors is None else floors > most
        if passes and not segment.is_in_metal:
            found.append(segment)
    return found


def occupancy_at(segment: Segment, network: Network) -> Occupancy | Unknown:
    """What the building that a stretch runs in is used as."""
    return network.occupancy(segment.place.building if segment.place is not None else None)


def carries_air(segment: Segment) -> bool | None:
    """Whether the place of a stretch carries the building's air; None where that has to be said."""
    if segment.place is None:
        return None
    said = segment.place.place.return_air
    if said is not None:
        return said
    return None if segment.place.exposure == "plenum" else False


def floors_crossed(segment: Segment, network: Network) -> int | None:
    """The floors that a stretch passes, as stated; in a shaft, at most those between a building's stories.

    None where nothing says it.
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


def misnamed(segment: Segment) -> Unknown:
    """What is missing where the place of a stretch names nothing."""
    return Unknown("no such place", segment.path, {"place": segment.tag})
