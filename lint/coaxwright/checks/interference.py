"""Does a cable keep its distance from what disturbs it?"""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.checks.adjacent_hazards import beside, is_near, missing_text, not_said, one_per_facet
from coaxwright.checks.contract import CannotJudge, Check, CheckContext, DoesNotApply, NotMet, Verdict
from coaxwright.checks.limits import LimitKind, Limits
from coaxwright.checks.phrasing import article
from coaxwright.checks.selectors import CABLE
from coaxwright.checks.subject_filters import accompanied
from coaxwright.design.quantities import LengthPair
from coaxwright.network import CableLink, Neighbour, Segment


def interference(link: CableLink, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """Outside metal raceway a cable keeps off the sources of noise in the table; what only crosses it does no harm."""
    sources = frozenset(source for (source,) in limits.keys("least"))
    found = [
        (segment, neighbour)
        for segment in link.segments
        if not segment.is_in_metal
        for neighbour in beside(segment, sources)
        if not neighbour.only_crosses
    ]
    if not found:
        yield DoesNotApply("nothing that disturbs is drawn beside it")
        return
    yield from one_per_facet(
        verdict for segment, neighbour in found for verdict in _near(link, segment, neighbour, limits)
    )


def _near(link: CableLink, segment: Segment, neighbour: Neighbour, limits: Limits) -> Iterator[NotMet | CannotJudge]:
    facet = f"{segment.tag}, {neighbour.what}"
    least = limits.length("least", neighbour.what)
    assert least is not None
    distance = neighbour.distance
    if distance is None:
        yield CannotJudge(not_said(neighbour, "the distance", link.tag), facet=facet)
    elif is_near(distance, least):
        limit = least.for_author(distance.is_metric)
        values = {
            "cable": link.tag,
            "place": segment.tag,
            "what": article(neighbour.what),
            "distance": distance.text,
            "least": limit.text,
            "missing": missing_text(distance, limit),
        }
        related = ((neighbour.path, f"the {neighbour.what} is here"),)
        excess = limit.length_m - distance.length_m
        cites = (("least", neighbour.what),)
        yield NotMet("near", segment.path, values, facet=facet, related=related, cites=cites, excess=excess)


CHECKS = (
    Check(
        name="interference",
        each=CABLE,
        judge=interference,
        applies_to=accompanied,
        cases={"near": ("cable", "place", "what", "distance", "least", "missing")},
        reads=("cables.*.route", "places.*.beside", "raceways.*.kind", "raceways.*.holds"),
        limits={"least": LimitKind(LengthPair, by=("source",))},
    ),
)
