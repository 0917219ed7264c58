"""A cable in a shaft, or through more than one floor, is listed for it; not in small dwellings or metal raceway.

In a shaft that is fireproof, with firestops at each floor, other cable may run: somebody has to look at it.
Source: NFPA 70, table 800.154(a) and 800.113, found in part.
"""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.checks.contract import CannotJudge, Check, CheckContext, DoesNotApply, NeedsPerson, Verdict
from coaxwright.checks.jacket._shared import MARKED, SUITING, stretches_of, unsuited
from coaxwright.checks.limits import LimitKind, Limits
from coaxwright.checks.selectors import CABLE
from coaxwright.checks.subject_filters import all_if
from coaxwright.design.quantities import Floors
from coaxwright.design.value_types import COUNT, optional
from coaxwright.design.words import SMALL_DWELLINGS
from coaxwright.network import CableLink, Network, Segment, Unknown
from coaxwright.network.listing_marks import (
    FOR_RISERS,
    floors_crossed,
    mark_of,
    occupancy_at,
    segments_in_risers,
)


def riser(link: CableLink, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """The mark of the cable is one for risers wherever it runs upright outside small dwellings."""
    upright = segments_in_risers(link, context.network, limits.one(Floors, "most").number)
    if not upright:
        yield DoesNotApply("not upright")
        return
    mark = mark_of(link)
    if isinstance(mark, Unknown):
        yield CannotJudge(mark)
        return
    if mark.mark in FOR_RISERS:
        return
    uses = [(segment, occupancy_at(segment, context.network)) for segment in upright]
    binding = [(segment, use) for segment, use in uses if use not in SMALL_DWELLINGS]
    if not binding:
        yield DoesNotApply("small dwelling")
        return
    not_stated = next((use for _, use in binding if isinstance(use, Unknown)), None)
    if not_stated is not None:
        yield CannotJudge(not_stated)
        return
    unsealed = [segment for segment, _ in binding if not (segment.leg is not None and segment.leg.firestopped)]
    if unsealed:
        yield unsuited(link, mark, "riser", unsealed, {"crossed": _most_floors(unsealed, context.network)})
        return
    sealed = [segment for segment, _ in binding]
    values = {"cable": link.tag, "mark": mark.shown, "stretches": stretches_of(sealed)}
    yield NeedsPerson("firestopped", sealed[0].path, values)


def _most_floors(segments: list[Segment], network: Network) -> int | None:
    known = [number for segment in segments if (number := floors_crossed(segment, network)) is not None]
    return max(known, default=None)


def _may_pass_floors(network: Network) -> bool:
    """Whether any shaft is drawn, or a number of floors is stated of a place or a stretch."""
    drawn = any(node.place.floors_crossed or node.exposure == "riser" for node in network.places.values())
    return drawn or any(
        segment.leg is not None and segment.leg.floors_crossed
        for link in network.stretches.described
        for segment in link.segments
    )


_CROSSED = {"crossed": optional(COUNT)}

CHECK = Check(
    name="jacket.riser",
    each=CABLE,
    judge=riser,
    applies_to=all_if(_may_pass_floors),
    cases={
        "other mark": MARKED | _CROSSED | SUITING,
        "not made": MARKED | _CROSSED,
        "firestopped": MARKED,
    },
    does_not_apply={"not upright": {}, "small dwelling": {}},
    related=("runs here",),
    former_values={"floors": "[ through {crossed:count floor}]"},
    limits={"most": LimitKind(Floors)},
)
