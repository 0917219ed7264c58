"""A cable keeps off the sources of noise in the table; in metal raceway, or where one only crosses, it need not.

distance >= least of the source. Source: common practice.
"""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.checks.contract import CannotJudge, Check, CheckContext, DoesNotApply, NotMet, Verdict
from coaxwright.checks.limits import LimitKind, Limits
from coaxwright.checks.route._shared import (
    HERE,
    NOT_SAID,
    TOO_NEAR,
    facet_of,
    here,
    is_near,
    not_said,
    too_near,
    worst_of_each,
)
from coaxwright.checks.selectors import CABLE
from coaxwright.checks.subject_filters import accompanied
from coaxwright.design.quantities import LengthPair
from coaxwright.network import CableLink, Neighbor, Segment


def interference(link: CableLink, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """Outside metal raceway a cable keeps off the sources of noise in the table; what only crosses it does no harm."""
    sources = frozenset(source for (source,) in limits.keys("least"))
    found = [
        (segment, neighbor)
        for segment in link.segments
        if not segment.is_in_metal
        for neighbor in segment.beside(sources)
        if not neighbor.only_crosses
    ]
    if not found:
        yield DoesNotApply("nothing beside")
        return
    yield from worst_of_each(
        verdict for segment, neighbor in found for verdict in _near(link, segment, neighbor, limits)
    )


def _near(link: CableLink, segment: Segment, neighbor: Neighbor, limits: Limits) -> Iterator[NotMet | CannotJudge]:
    facet = facet_of(segment, neighbor.what)
    least = limits.row(LengthPair, "least", neighbor.what)
    distance = neighbor.distance
    if distance is None:
        yield CannotJudge(not_said("no distance", neighbor, link), facet=facet)
    elif least is not None and is_near(distance, least):
        limit = least.for_author(distance.is_metric)
        yield NotMet(
            "near",
            segment.path,
            too_near(link, segment, neighbor, distance, limit),
            facet=facet,
            related=((neighbor.path, here(neighbor)),),
            cites=(("least", neighbor.what),),
            excess=limit.length_m - distance.length_m,
        )


CHECK = Check(
    name="route.interference",
    each=CABLE,
    judge=interference,
    applies_to=accompanied,
    cases={"near": TOO_NEAR},
    cannot_judge={"no distance": NOT_SAID},
    does_not_apply={"nothing beside": {}},
    related=HERE,
    limits={"least": LimitKind(LengthPair, by=("source",))},
)
