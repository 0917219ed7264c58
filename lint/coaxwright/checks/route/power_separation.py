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
from coaxwright.network import CableLink, Neighbour, Segment
from coaxwright.physics.comparison import at_most


def power_separation(link: CableLink, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """Of the power beside it with nothing between, that in each place which is furthest within its distance."""
    found = [
        (segment, neighbour)
        for segment in link.segments
        if segment.place is not None and segment.place.exposure != "buried" and not segment.is_enclosed
        for neighbour in segment.beside(POWER)
    ]
    if not found:
        yield DoesNotApply("no power beside")
        return
    yield from worst_of_each(
        verdict for segment, neighbour in found for verdict in _separation(link, segment, neighbour, limits)
    )


def _separation(
    link: CableLink, segment: Segment, neighbour: Neighbour, limits: Limits
) -> Iterator[NotMet | CannotJudge]:
    is_outside = segment.place is not None and segment.place.is_outside
    where = "on the building" if is_outside else "indoors"
    least = limits.row(LengthPair, "least", where)
    distance = neighbour.distance
    if least is not None and neighbour.wiring is None and (distance is None or is_near(distance, least)):
        yield CannotJudge(not_said("no wiring", neighbour, link), facet=segment.tag)
    elif least is not None and neighbour.wiring in _OPEN:
        if distance is None:
            yield CannotJudge(not_said("no distance", neighbour, link), facet=segment.tag)
        elif is_near(distance, least):
            yield _near("open wiring", link, segment, neighbour, distance, least, ("least", where))
            return
    parallel = limits.one(LengthPair, "parallel")
    if is_outside or not _is_mains_in_parallel(neighbour, limits):
        return
    if distance is not None and is_near(distance, parallel):
        yield _near("parallel", link, segment, neighbour, distance, parallel, ("parallel",))


def _is_mains_in_parallel(neighbour: Neighbour, limits: Limits) -> bool:
    """Whether it may hum into the cable: mains that runs along it, in no metal."""
    harmless = limits.one(Voltage, "harmless")
    is_low = neighbour.voltage is not None and at_most(neighbour.voltage.voltage_v, harmless.voltage_v)
    is_shut_in = neighbour.wiring in _METAL
    return neighbour.what in _MAINS and not (is_low or is_shut_in or neighbour.only_crosses)


def _near(
    case: str,
    link: CableLink,
    segment: Segment,
    neighbour: Neighbour,
    distance: Length,
    least: LengthPair,
    cite: tuple[str, ...],
) -> NotMet:
    limit = least.for_author(distance.is_metric)
    return NotMet(
        case,
        segment.path,
        too_near(link, segment, neighbour, distance, limit) | {"method": neighbour.wiring},
        facet=segment.tag,
        related=((neighbour.path, here(neighbour)),),
        cites=(cite,),
        excess=limit.length_m - distance.length_m,
    )


_OPEN = frozenset(("open conductors", "knob and tube"))
"""Wiring that nothing sheathes."""
_METAL = frozenset(("raceway", "armoured cable", "metal-clad cable"))
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
