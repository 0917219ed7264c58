"""Buried outside raceway, a cable keeps its distance from buried power; how deep it lies is local practice.

distance >= least, but for power in raceway, armor or a sheath for burial. Source: NFPA 70, 820.47(B), found.
"""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.checks.contract import CannotJudge, Check, CheckContext, DoesNotApply, NotMet, Verdict
from coaxwright.checks.limits import LimitKind, Limits
from coaxwright.checks.route._shared import (
    HERE,
    NOT_SAID,
    POWER,
    TOO_NEAR,
    facet_of,
    here,
    is_near,
    lacking,
    not_said,
    too_near,
    worst_of_each,
)
from coaxwright.checks.selectors import CABLE
from coaxwright.checks.subject_filters import at
from coaxwright.design.quantities import Length, LengthPair
from coaxwright.design.value_types import LENGTH, TAG, WORD, optional
from coaxwright.network import CableLink, Neighbor, Segment


def buried_separation(link: CableLink, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """Each stretch in the ground that is in no raceway keeps off buried power, and lies as deep as is usual."""
    asked = [
        segment
        for segment in link.segments
        if segment.place is not None
        and segment.place.exposure == "buried"
        and not segment.is_enclosed
        and (segment.beside(POWER) or _depth(segment) is not None)
    ]
    if not asked:
        yield DoesNotApply("nothing stated")
        return
    yield from worst_of_each(
        verdict
        for segment in asked
        for verdict in (*_beside_power(link, segment, limits), *_shallow(link, segment, limits))
    )


def _beside_power(link: CableLink, segment: Segment, limits: Limits) -> Iterator[NotMet | CannotJudge]:
    least = limits.one(LengthPair, "least")
    for neighbor in segment.beside(POWER):
        distance = neighbor.distance
        if neighbor.wiring in _KEPT_IN_EARTH or (distance is not None and not is_near(distance, least)):
            continue
        if neighbor.wiring is None:
            yield CannotJudge(not_said("no wiring", neighbor, link), facet=segment.tag)
        elif distance is None:
            yield CannotJudge(not_said("no distance", neighbor, link), facet=segment.tag)
        else:
            yield _near(link, segment, neighbor, distance, least.for_author(distance.is_metric))


def _near(link: CableLink, segment: Segment, neighbor: Neighbor, distance: Length, limit: Length) -> NotMet:
    return NotMet(
        "near power",
        segment.path,
        too_near(link, segment, neighbor, distance, limit) | {"method": neighbor.wiring},
        facet=segment.tag,
        related=((neighbor.path, here(neighbor)),),
        cites=(("least",),),
        excess=limit.length_m - distance.length_m,
    )


def _shallow(link: CableLink, segment: Segment, limits: Limits) -> Iterator[NotMet]:
    depth, deep = _depth(segment), limits.one(LengthPair, "depth")
    if depth is None or not is_near(depth, deep):
        return
    limit = deep.for_author(depth.is_metric)
    values = {
        "cable": link.tag,
        "place": segment.tag,
        "depth": depth,
        "least": limit,
        "missing": lacking(depth, limit),
    }
    at_depth = (*segment.path, "depth")
    yield NotMet("shallow", at_depth, values, facet=facet_of(segment, "depth"), cites=(("depth",),))


def _depth(segment: Segment) -> Length | None:
    return segment.leg.depth if segment.leg is not None else None


_KEPT_IN_EARTH = frozenset(("raceway", "UF cable", "USE cable", "armored cable", "metal-clad cable"))
"""Power in the ground beside which no distance is asked for."""

CHECK = Check(
    name="route.buried-separation",
    each=CABLE,
    judge=buried_separation,
    applies_to=at(("buried",)),
    cases={
        "near power": TOO_NEAR | {"method": optional(WORD)},
        "shallow": {"cable": TAG, "place": TAG, "depth": LENGTH, "least": LENGTH, "missing": LENGTH},
    },
    cannot_judge={"no wiring": NOT_SAID, "no distance": NOT_SAID},
    does_not_apply={"nothing stated": {}},
    related=HERE,
    former_values={"wiring": "[, {method},]"},
    limits={"least": LimitKind(LengthPair), "depth": LimitKind(LengthPair)},
)
