"""A cable beside a stated transmitter has the densest shield of its class; elsewhere any shield of a drop does.

Source: EN 50117, screening classes, from memory; the distance is common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.analysis.other_classes import with_option
from coaxwright.catalogue import UnknownWords
from coaxwright.checks.contract import CannotJudge, Check, CheckContext, Correction, DoesNotApply, NotMet, Verdict
from coaxwright.checks.limits import LimitKind, Limits
from coaxwright.checks.selectors import CABLE
from coaxwright.checks.subject_filters import accompanied
from coaxwright.design.quantities import LengthPair, is_at_most
from coaxwright.design.value_types import QUANTITY, TAG, TEXT, WORD, Phrase, list_of, phrase
from coaxwright.network import CableLink, Neighbor, Segment, Unknown

_BEST_SCREENED = frozenset(("quad", "foil and braid", "double braid"))
"""Shields that need no more: four layers, and the close braids of feeders. Source: common practice, no source."""
_WELL_SCREENED = frozenset(("A+", "A++"))
"""Classes that suit the neighborhood of a transmitter. Source: EN 50117, from memory."""


def shield_coverage(link: CableLink, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """Its shield is one that keeps a transmitter out, where one stands near."""
    near = limits.one(LengthPair, "near")
    beside = [
        (segment, neighbor) for segment in link.segments for neighbor in segment.neighbors if _is_near(neighbor, near)
    ]
    if not beside:
        yield DoesNotApply("no transmitter")
        return
    if isinstance(link.type, UnknownWords):
        yield CannotJudge(Unknown("type not understood", (*link.path, "type"), {"cable": link.tag}))
        return
    shield = link.type.shield
    if shield.name in _BEST_SCREENED or shield.screening_class in _WELL_SCREENED:
        return
    places = [_where(segment, neighbor) for segment, neighbor in beside]
    values = {
        "cable": link.tag,
        "shield": shield.name,
        "places": [place for index, place in enumerate(places) if place not in places[:index]],
        "near": near,
    }
    at = (*link.path, "type")
    related = tuple((neighbor.path, "the transmitter") for _, neighbor in beside)
    suiting = with_option(link.type, "quad", link.type.cable_class.shields, context.network.catalogue)
    if suiting is None:
        yield NotMet("beside a transmitter, not made", at, values, related=related, cites=(("near",),))
    else:
        values["suiting"] = suiting
        mend = Correction(at, suiting)
        yield NotMet("beside a transmitter", at, values, mend=mend, related=related, cites=(("near",),))


def _is_near(neighbor: Neighbor, near: LengthPair) -> bool:
    """Whether it is a transmitter at no more than the distance; one without a distance is beside the cable."""
    if neighbor.what != "transmitter":
        return False
    return neighbor.distance is None or is_at_most(neighbor.distance, near.for_author(neighbor.distance.is_metric))


def _where(segment: Segment, neighbor: Neighbor) -> Phrase:
    if neighbor.distance is None:
        return Phrase("beside", {"place": segment.tag})
    return Phrase("at a distance", {"place": segment.tag, "distance": neighbor.distance})


_SHIELD = {
    "cable": TAG,
    "shield": WORD,
    "places": list_of(phrase(beside={"place": TAG}, at_a_distance={"place": TAG, "distance": QUANTITY})),
    "near": QUANTITY,
}

CHECK = Check(
    name="cable.shield-coverage",
    each=CABLE,
    judge=shield_coverage,
    applies_to=accompanied,
    cases={"beside a transmitter": {**_SHIELD, "suiting": TEXT}, "beside a transmitter, not made": _SHIELD},
    does_not_apply={"no transmitter": {}},
    related=("the transmitter",),
    limits={"near": LimitKind(LengthPair)},
)
