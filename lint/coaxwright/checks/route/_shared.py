"""What several checks of routes share: distances to what stands beside a cable, and the worst of several verdicts."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from coaxwright.checks.contract import CannotJudge, NotMet
from coaxwright.design.quantities import Length, LengthPair, is_at_least
from coaxwright.design.value_types import LENGTH, TAG, WORD, Derived, Phrase
from coaxwright.network import CableLink, Neighbor, Segment, Unknown

POWER = frozenset(("power cable", "lighting circuit", "Class 1 circuit", "fire alarm power circuit"))
"""Wiring of power, light and such control circuits as may carry as much."""
TOO_NEAR = {"cable": TAG, "place": TAG, "what": WORD, "distance": LENGTH, "least": LENGTH, "missing": LENGTH}
NOT_SAID = {"what": WORD, "cable": TAG}
HERE = {"here": {"what": WORD}}


def is_near(distance: Length, limit: LengthPair) -> bool:
    """Whether a distance is below the limit that binds its author."""
    return not is_at_least(distance, limit.for_author(distance.is_metric))


def lacking(distance: Length, least: Length) -> Derived:
    """How much a distance lacks."""
    return Derived(least.length_m - distance.length_m, distance)


def too_near(
    link: CableLink, segment: Segment, neighbor: Neighbor, distance: Length, least: Length
) -> dict[str, object]:
    """The values of a cable that is too near to a neighbor."""
    return {
        "cable": link.tag,
        "place": segment.tag,
        "what": neighbor.what,
        "distance": distance,
        "least": least,
        "missing": lacking(distance, least),
    }


def not_said(case: str, neighbor: Neighbor, link: CableLink) -> Unknown:
    """What is not said of a neighbor: ``no distance``, ``no wiring``, ``no voltage``."""
    return Unknown(case, neighbor.path, {"what": neighbor.what, "cable": link.tag})


def here(neighbor: Neighbor) -> Phrase:
    """That a neighbor is here, of a further place."""
    return Phrase("here", {"what": neighbor.what})


def facet_of(segment: Segment, what: str) -> str:
    """Apart from other findings on the cable: the place of the stretch, and what is beside or below it."""
    return ", ".join((segment.tag, what))


def worst_of_each(verdicts: Iterable[NotMet | CannotJudge]) -> Iterator[NotMet | CannotJudge]:
    """Of several verdicts of one facet the worst: what is not met first, the furthest beyond its limit of those."""
    worst: dict[str, NotMet | CannotJudge] = {}
    for verdict in verdicts:
        before = worst.get(verdict.facet)
        if before is None or _weight(verdict) > _weight(before):
            worst[verdict.facet] = verdict
    yield from worst.values()


def _weight(verdict: NotMet | CannotJudge) -> tuple[int, float]:
    if isinstance(verdict, CannotJudge):
        return 1, 0.0
    return 0 if verdict.case in _ADVICE else 2, verdict.excess


_ADVICE = frozenset(("parallel",))
"""Cases that are advice, and give way to a question that is open."""
