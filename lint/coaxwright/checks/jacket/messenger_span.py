"""A span in the air has a messenger, in the jacket or beside it, and one in the jacket is not too long.

With the sag s over the span L, the ends are pulled with 1 / (8 s/L) times the weight of the span.
Source: common practice; textbook parabola of a hanging cable.
"""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.catalogue import CableType, UnknownWords
from coaxwright.catalogue.measures import Percent
from coaxwright.checks.contract import CannotJudge, Check, CheckContext, DoesNotApply, NotMet, Verdict
from coaxwright.checks.jacket._shared import SUITING
from coaxwright.checks.limits import LimitKind, Limits
from coaxwright.checks.selectors import CABLE
from coaxwright.checks.subject_filters import described
from coaxwright.design.quantities import LengthPair, is_at_most
from coaxwright.design.value_types import LENGTH, NUMBER, TAG, WORD, Derived, Phrase, optional, phrase
from coaxwright.network import CableLink, Segment, Unknown
from coaxwright.physics.spans import pull_in_weights


def messenger_span(link: CableLink, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """Of the spans in each place the longest is carried, and as far as what carries it reaches."""
    spans = [segment for segment in link.segments if segment.is_span]
    if not spans:
        yield DoesNotApply("no span")
        return
    if isinstance(link.type, UnknownWords):
        yield CannotJudge(Unknown("type not understood", (*link.path, "type"), {"cable": link.tag}))
        return
    carries = any(jacket.name == _MESSENGER for jacket in link.type.jackets)
    longest = {segment.tag: segment for segment in sorted(spans, key=lambda segment: segment.length.length_m)}
    for segment in longest.values():
        if carries:
            yield from _too_long(link, link.type, segment, limits)
        elif segment.leg is not None and segment.leg.support != _MESSENGER:
            yield from _uncarried(link, link.type, segment, limits)


def _uncarried(link: CableLink, made: CableType, segment: Segment, limits: Limits) -> Iterator[NotMet]:
    """Nothing carries the span: it may be a short one only."""
    free = limits.one(LengthPair, "free").for_author(segment.length.is_metric)
    if is_at_most(segment.length, free):
        return
    is_made = _MESSENGER in made.cable_class.jackets
    instead = Phrase("made", {"suiting": made.with_jacket(_MESSENGER).phrase}) if is_made else Phrase("not made")
    values = _values(link, segment, limits) | {"free": free, "instead": instead}
    yield NotMet("no messenger", segment.path, values, facet=segment.tag, cites=(("free",),))


def _too_long(link: CableLink, made: CableType, segment: Segment, limits: Limits) -> Iterator[NotMet]:
    """The messenger in the jacket carries spans of its class only so far."""
    name = made.cable_class.name
    pair = limits.row(LengthPair, "longest", name)
    limit = pair.for_author(segment.length.is_metric) if pair is not None else None
    if limit is None or is_at_most(segment.length, limit):
        return
    over_m = segment.length.length_m - limit.length_m
    values = _values(link, segment, limits) | {
        "class": name,
        "longest": limit,
        "over": Derived(over_m, segment.length),
    }
    cites = (("longest", name),)
    yield NotMet("long span", segment.path, values, facet=segment.tag, cites=cites, excess=over_m)


def _values(link: CableLink, segment: Segment, limits: Limits) -> dict[str, object]:
    share = limits.one(Percent, "sag").share
    return {
        "cable": link.tag,
        "place": segment.tag,
        "way": segment.leg.over if segment.leg is not None else None,
        "length": segment.length,
        "sag": Derived(share * segment.length.length_m, segment.length),
        "weights": pull_in_weights(share),
    }


_MESSENGER = "messenger"
_VALUES = {"cable": TAG, "place": TAG, "way": optional(WORD), "length": LENGTH, "sag": LENGTH, "weights": NUMBER}

CHECK = Check(
    name="jacket.messenger-span",
    each=CABLE,
    judge=messenger_span,
    applies_to=described(lambda segment: segment.is_span),
    cases={
        "no messenger": _VALUES | {"free": LENGTH, "instead": phrase(made=SUITING, not_made={})},
        "long span": _VALUES | {"class": WORD, "longest": LENGTH, "over": LENGTH},
    },
    does_not_apply={"no span": {}},
    limits={
        "free": LimitKind(LengthPair),
        "longest": LimitKind(LengthPair, by=("cable class",)),
        "sag": LimitKind(Percent),
    },
)
