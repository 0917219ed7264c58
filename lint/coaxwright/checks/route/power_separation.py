"""Outside raceway a cable keeps its distance from open power wiring, and where there is room from mains beside it.

distance >= least where the cable runs, indoors or on the building; beside every other wiring no distance is asked for
indoors. Source: NFPA 70, 820.133(A)(2) and 800.133(B), found. Mains that runs along it in no metal may hum into it:
common practice.
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
    here,
    is_near,
    not_said,
    too_near,
    worst_of_each,
)
from coaxwright.checks.selectors import CABLE
from coaxwright.checks.subject_filters import accompanied
from coaxwright.design.quantities import Length, LengthPair, Voltage
from coaxwright.design.value_types import WORD, optional
from coaxwright.network import CableLink, Neighbor, Segment
from coaxwright.physics.comparison import at_most


def power_separation(link: CableLink, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """Of the power beside it with nothing between, that in each place which is furthest within its distance."""
    found = [
        (segment, neighbor)
        for segment in link.segments
        if segment.place is not None and segment.place.exposure != "buried" and not segment.is_enclosed
        for neighbor in segment.beside(POWER)
    ]
    if not found:
        yield DoesNotApply("no power beside")
        return
    yield from worst_of_each(
        verdict for segment, neighbor in found for verdict in _separation(link, segment, neighbor, limits)
    )


def _separation(
    link: CableLink, segment: Segment, neighbor: Neighbor, limits: Limits
) -> Iterator[NotMet | CannotJudge]:
    is_outside = segment.place is not None and segment.place.is_outside
    where = "on the building" if is_outside else "indoors"
    least = limits.row(LengthPair, "least", where)
    distance = neighbor.distance
    if least is not None and neighbor.wiring is None and (distance is None or is_near(distance, least)):
        yield CannotJudge(not_said("no wiring", neighbor, link), facet=segment.tag)
    elif least is not None and neighbor.wiring in _OPEN:
        if distance is None:
            yield CannotJudge(not_said("no distance", neighbor, link), facet=segment.tag)
        elif is_near(distance, least):
            yield _near("open wiring", link, segment, neighbor, distance, least, ("least", where))
            return
    parallel = limits.one(LengthPair, "parallel")
    if is_outside or not _is_mains_in_parallel(neighbor, limits):
        return
    if distance is not None and is_near(distance, parallel):
        yield _near("parallel", link, segment, neighbor, distance, parallel, ("parallel",))


def _is_mains_in_parallel(neighbor: Neighbor, limits: Limits) -> bool:
    """Whether it may hum into the cable: mains that runs along it, in no metal."""
    harmless = limits.one(Voltage, "harmless")
    is_low = neighbor.voltage is not None and at_most(neighbor.voltage.voltage_v, harmless.voltage_v)
    is_shut_in = neighbor.wiring in _METAL
    return neighbor.what in _MAINS and not (is_low or is_shut_in or neighbor.only_crosses)


def _near(
    case: str,
    link: CableLink,
    segment: Segment,
    neighbor: Neighbor,
    distance: Length,
    least: LengthPair,
    cite: tuple[str, ...],
) -> NotMet:
    limit = least.for_author(distance.is_metric)
    return NotMet(
        case,
        segment.path,
        too_near(link, segment, neighbor, distance, limit) | {"method": neighbor.wiring},
        facet=segment.tag,
        related=((neighbor.path, here(neighbor)),),
        cites=(cite,),
        excess=limit.length_m - distance.length_m,
    )


_OPEN = frozenset(("open conductors", "knob and tube"))
"""Wiring that nothing sheathes."""
_METAL = frozenset(("raceway", "armored cable", "metal-clad cable"))
_MAINS = frozenset(("power cable", "lighting circuit"))
_VALUES = TOO_NEAR | {"method": optional(WORD)}

CHECK = Check(
    name="route.power-separation",
    each=CABLE,
    judge=power_separation,
    applies_to=accompanied,
    cases={"open wiring": _VALUES, "parallel": _VALUES},
    cannot_judge={"no wiring": NOT_SAID, "no distance": NOT_SAID},
    does_not_apply={"no power beside": {}},
    related=HERE,
    former_values={"wiring": "[, {method},]"},
    limits={
        "least": LimitKind(LengthPair, by=("where",)),
        "parallel": LimitKind(LengthPair),
        "harmless": LimitKind(Voltage),
    },
)
