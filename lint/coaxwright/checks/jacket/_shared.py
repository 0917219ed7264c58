"""What several checks of jackets share: stretches as verdicts name them, jackets that suit, and where water stands."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from itertools import permutations

from coaxwright.catalogue import CableType
from coaxwright.checks.contract import Correction, NotMet
from coaxwright.design.value_types import LENGTH, TAG, TEXT, Phrase, list_of, optional, phrase
from coaxwright.design.words import BELOW_GROUND, Exposure
from coaxwright.network import CableLink, Network, Segment, Unknown
from coaxwright.network.listing_marks import MARK_SHOWN, CableMark, listed_type
from coaxwright.source import Path

STRETCHES = list_of(phrase(stretch={"length": LENGTH, "place": TAG, "raceway": optional(TAG)}))
MARKED = {"cable": TAG, "mark": MARK_SHOWN, "stretches": STRETCHES}
"""The values of a cable whose mark does not suit some stretches."""
SUITING = {"suiting": TEXT}
WHERE_WATER_STANDS: frozenset[Exposure] = BELOW_GROUND | {"wet"}


def stretches_of(segments: Iterable[Segment]) -> list[Phrase]:
    """Stretches by their length, place and raceway."""
    return [
        Phrase(
            "stretch",
            {
                "length": segment.length,
                "place": segment.tag,
                "raceway": segment.raceway.tag if segment.raceway is not None else None,
            },
        )
        for segment in segments
    ]


def in_standing_water(link: CableLink, network: Network) -> tuple[Segment, ...] | Unknown:
    """The stretches in the ground, and those in a raceway in a wet place, or what is missing to know them."""
    wet = network.exposed_segments(link, WHERE_WATER_STANDS)
    if isinstance(wet, Unknown):
        return wet
    return tuple(segment for segment in wet if segment.raceway is not None or is_in_earth(segment))


def is_in_earth(segment: Segment) -> bool:
    """Whether a stretch lies below ground."""
    return segment.place is not None and segment.place.exposure in BELOW_GROUND


def suiting_type(made: CableType, burial: bool) -> str | None:
    """The type in the jacket, or the two jackets together, that its places ask for; None where it is not made so."""
    names = made.cable_class.jackets
    spans = _SPANS.intersection(jacket.name for jacket in made.jackets)
    for chosen in (*((name,) for name in names), *permutations(names, 2)):
        tried = made
        for name in chosen:
            tried = tried.with_jacket(name)
        resists = tried.jacket.resists_sun_and_wet and (tried.jacket.burial_rated or not burial)
        if resists and spans.issubset(jacket.name for jacket in tried.jackets):
            return tried.phrase
    return None


_SPANS = frozenset(("messenger",))
"""Jackets that carry a span: what replaces one has to carry it as well."""


def path_of_mark(link: CableLink) -> Path:
    """Where the mark of a cable is written, or the type that it usually follows from."""
    return (*link.path, "type" if link.cable.listing is None else "listing")


def unsuited(
    link: CableLink, mark: CableMark, jacket: str, segments: list[Segment], more: Mapping[str, object]
) -> NotMet:
    """The cable is not listed for these stretches: the type that is, where its class is made so."""
    values = {"cable": link.tag, "mark": mark.shown, "stretches": stretches_of(segments), **more}
    at = path_of_mark(link)
    related = tuple((segment.path, "runs here") for segment in segments)
    suiting = listed_type(link, jacket)
    if suiting is None:
        return NotMet("not made", at, values, related=related)
    mend = Correction(at, suiting) if link.cable.listing is None else None
    return NotMet("other mark", at, values | {"suiting": suiting}, mend=mend, related=related)
