"""Does something carry a cable that hangs in the air?"""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.catalogue import CableType, UnknownWords
from coaxwright.catalogue.measures import Percent
from coaxwright.checks.contract import CannotJudge, Check, CheckContext, DoesNotApply, NotMet, Verdict
from coaxwright.checks.limits import LimitKind, Limits
from coaxwright.checks.phrasing import in_system, length_text
from coaxwright.checks.selectors import CABLE
from coaxwright.checks.subject_filters import described
from coaxwright.design.quantities import LengthPair, in_system_of, shown
from coaxwright.network import CableLink, Segment, Unknown
from coaxwright.physics.comparison import at_most
from coaxwright.physics.spans import pull_in_weights

_IN_THE_AIR = frozenset(("outdoors", "rooftop"))
_MESSENGER = "messenger"


def messenger_span(link: CableLink, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """A span in the air has a messenger, in the jacket or beside it, and one in the jacket is not too long."""
    hanging = {segment.tag: segment for segment in sorted(link.segments, key=_length_m) if is_span(segment)}
    if not hanging:
        yield DoesNotApply("no part of it hangs in the air")
        return
    if isinstance(link.type, UnknownWords):
        yield CannotJudge(Unknown(f"the type of {link.tag} is not understood", (*link.path, "type")))
        return
    carries = any(jacket.name == _MESSENGER for jacket in link.type.jackets)
    for segment in hanging.values():
        if carries:
            yield from _too_long(link, link.type, segment, limits)
        elif segment.leg is not None and segment.leg.support != _MESSENGER:
            yield from _uncarried(link, link.type, segment, limits)


def is_span(segment: Segment) -> bool:
    """Whether a stretch hangs free in the open air: over something, or by a messenger, or by nothing."""
    leg = segment.leg
    if leg is None or segment.place is None or segment.raceway is not None:
        return False
    if segment.place.exposure not in _IN_THE_AIR or leg.support not in (None, "none", _MESSENGER):
        return False
    return leg.over is not None or leg.support is not None


def _uncarried(link: CableLink, made: CableType, segment: Segment, limits: Limits) -> Iterator[NotMet]:
    """Nothing carries the span: it may be a short one only."""
    free = limits.length("free")
    assert free is not None
    limit = free.for_author(segment.length.is_metric)
    if at_most(in_system(segment.length, limit.is_metric), in_system(limit, limit.is_metric)):
        return
    is_made = _MESSENGER in made.cable_class.jackets
    instead = f"take '{made.with_jacket(_MESSENGER).phrase}'" if is_made else "take a class made with a messenger"
    values = _values(link, segment, limits) | {
        "length": length_text(segment.length, limit),
        "free": limit.text,
        "instead": instead,
    }
    yield NotMet("no messenger", segment.path, values, facet=segment.tag, cites=(("free",),))


def _too_long(link: CableLink, made: CableType, segment: Segment, limits: Limits) -> Iterator[NotMet]:
    """The messenger in the jacket carries spans of its class only so far."""
    pair = limits.length("longest", made.cable_class.name)
    if pair is None:
        return
    limit = pair.for_author(segment.length.is_metric)
    if at_most(in_system(segment.length, limit.is_metric), in_system(limit, limit.is_metric)):
        return
    over = in_system_of(segment.length, segment.length.length_m - limit.length_m)
    values = _values(link, segment, limits) | {
        "length": length_text(segment.length, limit),
        "class": made.cable_class.name,
        "longest": limit.text,
        "over": over.text,
    }
    key = ("longest", made.cable_class.name)
    yield NotMet("long span", segment.path, values, facet=segment.tag, cites=(key,), excess=over.length_m)


def _values(link: CableLink, segment: Segment, limits: Limits) -> dict[str, str]:
    sag = limits.quantity(Percent, "sag")
    assert sag is not None
    over = segment.leg.over if segment.leg is not None else None
    return {
        "cable": link.tag,
        "place": f"{segment.tag}, over the {over}" if over is not None else segment.tag,
        "sag": in_system_of(segment.length, sag.share * segment.length.length_m).text,
        "weights": shown(pull_in_weights(sag.share), 2),
    }


def _length_m(segment: Segment) -> float:
    return segment.length.length_m


_VALUES = ("cable", "place", "length", "sag", "weights")

CHECKS = (
    Check(
        name="messenger-span",
        each=CABLE,
        judge=messenger_span,
        applies_to=described(is_span),
        cases={
            "no messenger": (*_VALUES, "free", "instead"),
            "long span": (*_VALUES, "class", "longest", "over"),
        },
        reads=("cables.*.type", "cables.*.route", "places.*.exposure"),
        limits={
            "free": LimitKind(LengthPair),
            "longest": LimitKind(LengthPair, by=("cable class",)),
            "sag": LimitKind(Percent),
        },
    ),
)
