"""The holes that a cable passes in rated walls and floors are sealed, where the design speaks of them.

In small dwellings floors are seldom rated. Source: NFPA 70, 820.26, 800.26 and 300.21.
"""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.checks.contract import CannotJudge, Check, CheckContext, DoesNotApply, NotMet, Verdict
from coaxwright.checks.limits import Limits
from coaxwright.checks.selectors import CABLE
from coaxwright.checks.subject_filters import described
from coaxwright.design.value_types import TAG
from coaxwright.design.words import SMALL_DWELLINGS
from coaxwright.network import CableLink, Segment, Unknown


def firestop(link: CableLink, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """No hole is said to be open; of holes in floors it is said whether they are sealed."""
    spoken = {
        segment.tag: segment
        for segment in sorted(link.segments, key=lambda segment: (not _sealed(segment), _sealed(segment) is False))
        if _is_spoken_of(segment)
    }
    if not spoken:
        yield DoesNotApply("no hole")
        return
    for segment in spoken.values():
        values = {"cable": link.tag, "place": segment.tag}
        at = (*segment.path, "firestopped")
        if _sealed(segment) is False:
            yield NotMet("open hole", at, values, facet=segment.tag)
        elif not _sealed(segment):
            occupancy = context.network.occupancy(segment.place.building if segment.place is not None else None)
            if occupancy not in SMALL_DWELLINGS:
                yield CannotJudge(Unknown("not said", at, values), facet=segment.tag)


def _is_spoken_of(segment: Segment) -> bool:
    floors = segment.leg.floors_crossed if segment.leg is not None else None
    return _sealed(segment) is not None or (floors is not None and floors > 0)


def _sealed(segment: Segment) -> bool | None:
    return segment.leg.firestopped if segment.leg is not None else None


_WHERE = {"cable": TAG, "place": TAG}

CHECK = Check(
    name="route.firestop",
    each=CABLE,
    judge=firestop,
    applies_to=described(_is_spoken_of),
    cases={"open hole": _WHERE},
    cannot_judge={"not said": _WHERE},
    does_not_apply={"no hole": {}},
)
