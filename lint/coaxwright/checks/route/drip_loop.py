"""A cable that enters from outdoors has a drip loop and a sealed hole, where the design speaks of it.

Source: common practice.
"""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.checks.contract import Check, CheckContext, DoesNotApply, NotMet, Verdict
from coaxwright.checks.limits import Limits
from coaxwright.checks.selectors import CABLE
from coaxwright.checks.subject_filters import described
from coaxwright.design.value_types import TAG
from coaxwright.network import CableLink, Segment


def drip_loop(link: CableLink, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """Of no stretch it is said that it has none."""
    said = [(segment, has_loop) for segment in link.segments if (has_loop := _has_loop(segment)) is not None]
    if not said:
        yield DoesNotApply("nothing said")
        return
    for segment in {segment.tag: segment for segment, has_loop in said if not has_loop}.values():
        values = {"cable": link.tag, "place": segment.tag}
        yield NotMet("none", (*segment.path, "drip loop"), values, facet=segment.tag)


def _has_loop(segment: Segment) -> bool | None:
    return segment.leg.drip_loop if segment.leg is not None else None


CHECK = Check(
    name="route.drip-loop",
    each=CABLE,
    judge=drip_loop,
    applies_to=described(lambda segment: _has_loop(segment) is not None),
    cases={"none": {"cable": TAG, "place": TAG}},
    does_not_apply={"nothing said": {}},
)
