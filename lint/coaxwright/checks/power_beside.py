"""Is a cable far enough from power, light and the like, indoors, on the building and in the ground?"""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.checks.adjacent_hazards import (
    POWER,
    beside,
    is_enclosed,
    is_near,
    missing_text,
    not_said,
    one_per_facet,
    short_text,
)
from coaxwright.checks.contract import CannotJudge, Check, CheckContext, DoesNotApply, NotMet, Verdict
from coaxwright.checks.limits import LimitKind, Limits
from coaxwright.checks.phrasing import article
from coaxwright.checks.selectors import CABLE
from coaxwright.checks.subject_filters import accompanied, at
from coaxwright.design.quantities import Length, LengthPair, Voltage
from coaxwright.network import CableLink, Neighbour, Segment
from coaxwright.physics.comparison import at_most

_OPEN = frozenset(("open conductors", "knob and tube"))
"""Wiring that nothing sheathes. Beside every other method no distance is asked for indoors.

Source: NFPA 70, 820.133(A)(2) and 800.133(B), found.
"""
_METAL = frozenset(("raceway", "armoured cable", "metal-clad cable"))
_MAINS = frozenset(("power cable", "lighting circuit"))
_KEPT_IN_EARTH = frozenset(("raceway", "UF cable", "USE cable", "armoured cable", "metal-clad cable"))
"""Power in the ground beside which no distance is asked for. Source: NFPA 70, 820.47(B), found."""


def power_separation(link: CableLink, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """Outside raceway a cable keeps its distance from open wiring; beside mains in parallel practice asks for more."""
    found = [
        (segment, neighbour)
        for segment in link.segments
        if segment.place is not None and segment.place.exposure != "buried" and not is_enclosed(segment)
        for neighbour in beside(segment, POWER)
    ]
    if not found:
        yield DoesNotApply("no power is drawn beside it with nothing between")
        return
    yield from one_per_facet(
        verdict for segment, neighbour in found for verdict in _separation(link, segment, neighbour, limits)
    )


def _separation(
    link: CableLink, segment: Segment, neighbour: Neighbour, limits: Limits
) -> Iterator[NotMet | CannotJudge]:
    where = "on the building" if segment.place is not None and segment.place.is_outside else "indoors"
    least = limits.length("least", where)
    assert least is not None
    distance = neighbour.distance
    if neighbour.wiring is None and (distance is None or is_near(distance, least)):
        yield CannotJudge(not_said(neighbour, "the wiring", link.tag), facet=segment.tag)
    elif neighbour.wiring in _OPEN:
        if distance is None:
            yield CannotJudge(not_said(neighbour, "the distance", link.tag), facet=segment.tag)
        elif is_near(distance, least):
            yield _near("open wiring", link, segment, neighbour, distance, least, ("least", where))
            return
    parallel = limits.length("parallel")
    assert parallel is not None
    is_indoors = where == "indoors" and _is_mains_in_parallel(neighbour, limits)
    if is_indoors and distance is not None and is_near(distance, parallel):
        yield _near("parallel", link, segment, neighbour, distance, parallel, ("parallel",))


def _is_mains_in_parallel(neighbour: Neighbour, limits: Limits) -> bool:
    """Whether it may hum into the cable: mains that runs along it, in no metal."""
    harmless = limits.quantity(Voltage, "harmless")
    assert harmless is not None
    is_low = neighbour.voltage is not None and at_most(neighbour.voltage.voltage_v, harmless.voltage_v)
    is_shut_in = neighbour.wiring in _METAL
    return neighbour.what in _MAINS and not (is_low or is_shut_in or neighbour.only_crosses)


def buried_separation(link: CableLink, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """Buried outside raceway, a cable keeps its distance from buried power; how deep it lies is local practice."""
    buried = [s for s in link.segments if s.place is not None and s.place.exposure == "buried" and not is_enclosed(s)]
    asked = [segment for segment in buried if beside(segment, POWER) or _depth(segment) is not None]
    if not asked:
        yield DoesNotApply("it is not buried outside raceway with power beside it or a depth stated")
        return
    yield from one_per_facet(verdict for segment in asked for verdict in _buried(link, segment, limits))


def _buried(link: CableLink, segment: Segment, limits: Limits) -> Iterator[NotMet | CannotJudge]:
    least, deep = limits.length("least"), limits.length("depth")
    assert least is not None
    assert deep is not None
    for neighbour in beside(segment, POWER):
        distance = neighbour.distance
        if neighbour.wiring in _KEPT_IN_EARTH or (distance is not None and not is_near(distance, least)):
            continue
        if neighbour.wiring is None:
            yield CannotJudge(not_said(neighbour, "the wiring", link.tag), facet=segment.tag)
        elif distance is None:
            yield CannotJudge(not_said(neighbour, "the distance", link.tag), facet=segment.tag)
        else:
            yield _near("near power", link, segment, neighbour, distance, least, ("least",))
    depth = _depth(segment)
    if depth is not None and is_near(depth, deep):
        limit = deep.for_author(depth.is_metric)
        values = {
            "cable": link.tag,
            "place": segment.tag,
            "depth": depth.text,
            "least": limit.text,
            "missing": missing_text(depth, limit),
        }
        at = (*segment.path, "depth")
        yield NotMet("shallow", at, values, facet=f"{segment.tag}, depth", cites=(("depth",),))


def _depth(segment: Segment) -> Length | None:
    return segment.leg.depth if segment.leg is not None else None


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
    lacking_m = limit.length_m - distance.length_m
    values = {
        "cable": link.tag,
        "place": segment.tag,
        "what": article(neighbour.what),
        "wiring": f", {neighbour.wiring}," if neighbour.wiring is not None else "",
        "distance": distance.text,
        "least": limit.text,
        "missing": short_text(lacking_m, distance.is_metric),
    }
    related = ((neighbour.path, f"the {neighbour.what} is here"),)
    return NotMet(case, segment.path, values, facet=segment.tag, related=related, cites=(cite,), excess=lacking_m)


_VALUES = ("cable", "place", "what", "wiring", "distance", "least", "missing")

CHECKS = (
    Check(
        name="power-separation",
        each=CABLE,
        judge=power_separation,
        applies_to=accompanied,
        cases={"open wiring": _VALUES, "parallel": _VALUES},
        reads=("cables.*.route", "places.*.exposure", "places.*.beside", "raceways.*.kind", "raceways.*.holds"),
        limits={
            "least": LimitKind(LengthPair, by=("where",)),
            "parallel": LimitKind(LengthPair),
            "harmless": LimitKind(Voltage),
        },
    ),
    Check(
        name="buried-separation",
        each=CABLE,
        judge=buried_separation,
        applies_to=at(("buried",)),
        cases={"near power": _VALUES, "shallow": ("cable", "place", "depth", "least", "missing")},
        reads=("cables.*.route", "places.*.exposure", "places.*.beside", "raceways.*.kind", "raceways.*.holds"),
        limits={"least": LimitKind(LengthPair), "depth": LimitKind(LengthPair)},
    ),
)
