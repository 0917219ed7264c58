"""The listing mark of a cable, and where each mark may go."""

from __future__ import annotations

from coaxwright.catalogue import CableType, CatalogueError, UnknownWords
from coaxwright.network import CableLink, Segment, Unknown

FOR_AIR = frozenset(("CATVP", "CMP", "CL3P", "CL2P"))
"""Marks of low flame and smoke. Source: NFPA 70, table of substitutions at 800.154, found in part.

CL marks withstand the same fire; whether they may carry this signal is another question.
"""
FOR_RISERS = FOR_AIR | {"CATVR", "CMR", "CL3R", "CL2R"}
FOR_ROOMS = frozenset(("CATVP", "CMP", "CATVR", "CMR", "CATV", "CMG", "CM"))
LIMITED = frozenset(("CATVX", "CMX"))
"""Marks of limited use: for dwellings, raceways and short lengths. Source: NFPA 70, 800.113, from memory."""
NO_MARK = ""


def mark_of(link: CableLink) -> str | Unknown:
    """The mark stated, else the one that its jacket usually bears; ``NO_MARK`` where it usually bears none."""
    if link.cable.listing is not None:
        return NO_MARK if link.cable.listing == "unlisted" else link.cable.listing
    if isinstance(link.type, UnknownWords):
        return Unknown(f"the type of {link.tag} is not understood", (*link.path, "type"))
    return link.type.jacket.us_mark or NO_MARK


def mark_words(link: CableLink) -> str:
    """The mark for people, with how it is known: ``marked CATV``, ``usually marked CATV``, ``unlisted``."""
    if link.cable.listing is not None:
        return "unlisted" if link.cable.listing == "unlisted" else f"marked {link.cable.listing}"
    assert isinstance(link.type, CableType)  # else its mark is unknown
    jacket = link.type.jacket
    return f"usually marked {jacket.us_mark}" if jacket.us_mark else f"{jacket.name}, usually without a listing mark"


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


def is_in_metal(segment: Segment) -> bool:
    """Whether the stretch runs in metal raceway, where a fire does not reach its jacket."""
    return segment.raceway is not None and segment.raceway.is_metal


def misnamed(segment: Segment) -> Unknown:
    """What is missing where the place of a stretch names nothing."""
    return Unknown(f"{segment.tag!r} names no place", segment.path)
