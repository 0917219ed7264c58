"""Outdoors a cable keeps clear of power lines and lightning conductors, and hangs high enough.

distance >= least of the line, or as much as the designer of a lightning system asks for where that is more; height >=
that over a way, or over a roof by its slope. Source: NFPA 70, 820.44, 800.44 and 810.18(A), found in part; common
practice over ways.
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
    lacking,
    not_said,
    too_near,
    worst_of_each,
)
from coaxwright.checks.selectors import CABLE
from coaxwright.checks.subject_filters import at
from coaxwright.design import LightningSystem
from coaxwright.design.quantities import Length, LengthPair, RoofSlope, Voltage, in_system, is_at_most
from coaxwright.design.value_types import LENGTH, TAG, WORD
from coaxwright.design.words import AERIALS, POWER_LINES, ROOF, Exposure
from coaxwright.network import CableLink, Neighbor, Network, PlaceNode, Segment, Unknown
from coaxwright.physics.comparison import at_least, at_most


def aerial_clearance(link: CableLink, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """Each stretch outdoors is clear of the lines beside it, and of what it hangs over."""
    asked = [
        (segment, segment.place)
        for segment in link.segments
        if segment.place is not None
        and segment.place.exposure in _OPEN_AIR
        and (_over(segment) is not None or segment.beside(POWER_LINES | _LIGHTNING))
    ]
    if not asked:
        yield DoesNotApply("nothing drawn")
        return
    is_lead_in = _is_lead_in(link, context.network)
    yield from worst_of_each(
        verdict
        for segment, place in asked
        for verdict in (
            *_from_power(link, segment, is_lead_in, limits),
            *_from_lightning(link, segment, context.network, limits),
            *_above(link, segment, place, context.network, limits),
        )
    )


def _from_power(link: CableLink, segment: Segment, is_lead_in: bool, limits: Limits) -> Iterator[NotMet | CannotJudge]:
    """Clear of power drops and lines; the lead-in of an aerial further from those of higher voltage."""
    low, high = (limits.row(LengthPair, "power", line) for line in ("lead-in", "lead-in, higher voltage"))
    for neighbor in segment.beside(POWER_LINES):
        facet = facet_of(segment, neighbor.what)
        distance = neighbor.distance
        if distance is None:
            yield CannotJudge(not_said("no distance", neighbor, link), facet=facet)
            continue
        if is_lead_in and neighbor.what == "overhead power line" and neighbor.voltage is None:
            may_be_low = low is not None and not is_near(distance, low)
            if may_be_low and high is not None and is_near(distance, high):
                yield CannotJudge(not_said("no voltage", neighbor, link), facet=facet)
                continue
        line = _line(neighbor, is_lead_in, limits)
        least = limits.row(LengthPair, "power", line)
        if least is not None and is_near(distance, least):
            limit = least.for_author(distance.is_metric)
            yield _too_near("power", link, segment, neighbor, distance, limit, (("power", line),))


def _line(neighbor: Neighbor, is_lead_in: bool, limits: Limits) -> str:
    """The row of the table for a power line beside the cable."""
    higher = limits.one(Voltage, "higher voltage")
    if not is_lead_in:
        return "drop"
    is_high = neighbor.voltage is not None and not at_most(neighbor.voltage.voltage_v, higher.voltage_v)
    return "lead-in, higher voltage" if is_high else "lead-in"


def _from_lightning(
    link: CableLink, segment: Segment, network: Network, limits: Limits
) -> Iterator[NotMet | CannotJudge]:
    """Clear of lightning conductors, by what the designer of their system asks for where that is more."""
    least = limits.one(LengthPair, "lightning")
    for neighbor in segment.beside(_LIGHTNING):
        distance = neighbor.distance
        if distance is None:
            facet = facet_of(segment, neighbor.what)
            yield CannotJudge(not_said("no distance", neighbor, link), facet=facet)
            continue
        asked = _asked_for(segment, network)
        limit = least.for_author(distance.is_metric)
        if asked is not None and asked.length_m > limit.length_m:
            if not at_least(in_system(distance, asked.is_metric), in_system(asked, asked.is_metric)):
                yield _too_near("lightning", link, segment, neighbor, distance, asked, ())
        elif is_near(distance, least):
            yield _too_near("lightning", link, segment, neighbor, distance, limit, (("lightning",),))


def _asked_for(segment: Segment, network: Network) -> Length | None:
    """The separation distance that the designer of the building's lightning system asks for."""
    building = network.buildings.get(segment.place.building or "") if segment.place is not None else None
    system = building.building.lightning_system if building is not None else None
    return system.separation if isinstance(system, LightningSystem) else None


def _too_near(
    case: str,
    link: CableLink,
    segment: Segment,
    neighbor: Neighbor,
    distance: Length,
    limit: Length,
    cites: tuple[tuple[str, ...], ...],
) -> NotMet:
    return NotMet(
        case,
        segment.path,
        too_near(link, segment, neighbor, distance, limit),
        facet=facet_of(segment, neighbor.what),
        related=((neighbor.path, here(neighbor)),),
        cites=cites,
        excess=limit.length_m - distance.length_m,
    )


def _above(
    link: CableLink, segment: Segment, place: PlaceNode, network: Network, limits: Limits
) -> Iterator[NotMet | CannotJudge]:
    """High enough above a roof or a way."""
    over = _over(segment)
    if over is None or (_is_auxiliary(place, network) if over == ROOF else (over,) not in limits.keys("height")):
        return
    facet = facet_of(segment, over)
    height = segment.leg.height if segment.leg is not None else None
    if height is None and over != ROOF:
        height = place.place.height
    if height is None:
        at = (*segment.path, "height")
        yield CannotJudge(Unknown("no height", at, {"cable": link.tag, "over": over}), facet=facet)
        return
    key = _of_roof(segment, place, height, limits) if over == ROOF else ("height", over)
    if isinstance(key, Unknown):
        yield CannotJudge(key, facet=facet)
        return
    least = limits.row(LengthPair, *key)
    if least is None or not is_near(height, least):
        return
    limit = least.for_author(height.is_metric)
    values = {
        "cable": link.tag,
        "place": segment.tag,
        "over": over,
        "height": height,
        "least": limit,
        "missing": lacking(height, limit),
    }
    case, excess = ROOF if over == ROOF else "way", limit.length_m - height.length_m
    yield NotMet(case, segment.path, values, facet=facet, cites=(key,), excess=excess)


def _over(segment: Segment) -> str | None:
    return segment.leg.over if segment.leg is not None else None


def _is_auxiliary(place: PlaceNode, network: Network) -> bool:
    """Whether the roof below is that of a garage or the like, over which no height is asked for.

    Source: NFPA 70, 820.44(B), 800.44(B) since 2020, found in part.
    """
    building = network.buildings.get(place.building or "")
    return building is not None and building.building.auxiliary


def _of_roof(segment: Segment, place: PlaceNode, height: Length, limits: Limits) -> tuple[str] | Unknown:
    """Which height over a roof counts: less over a short overhang, and over a roof that nobody walks on."""
    full, steep = limits.one(LengthPair, ROOF), limits.one(LengthPair, _STEEP_ROOF)
    across = limits.one(LengthPair, "reach").for_author(segment.length.is_metric)
    slope = limits.one(RoofSlope, "slope")
    if place.place.overhang is not None and is_at_most(segment.length, across):
        return ("overhang",)
    stated = place.place.roof_slope
    if stated is not None:
        return (_STEEP_ROOF,) if at_least(stated.rise_per_run, slope.rise_per_run) else (ROOF,)
    if is_near(height, steep):
        return (_STEEP_ROOF,)
    if not is_near(height, full):
        return (ROOF,)
    return Unknown("no slope", ("places", segment.tag, "roof slope"), {"place": segment.tag})


def _is_lead_in(link: CableLink, network: Network) -> bool:
    """Whether the cable comes from an aerial."""
    if any(end.device is not None and end.device.device.kind in AERIALS for end in link.ends):
        return True
    return any(entry.line == "antenna" for entry in network.entries if entry.cable is link)


_OPEN_AIR: frozenset[Exposure] = frozenset(("outdoors", "rooftop", "wet"))
_LIGHTNING = frozenset(("lightning conductor",))
_STEEP_ROOF = " ".join(("steep", ROOF))
_LOW = {"cable": TAG, "place": TAG, "over": WORD, "height": LENGTH, "least": LENGTH, "missing": LENGTH}

CHECK = Check(
    name="route.aerial-clearance",
    each=CABLE,
    judge=aerial_clearance,
    applies_to=at(_OPEN_AIR),
    cases={"power": TOO_NEAR, "lightning": TOO_NEAR, ROOF: _LOW, "way": _LOW},
    cannot_judge={
        "no distance": NOT_SAID,
        "no voltage": NOT_SAID,
        "no height": {"cable": TAG, "over": WORD},
        "no slope": {"place": TAG},
    },
    does_not_apply={"nothing drawn": {}},
    related=HERE,
    limits={
        "power": LimitKind(LengthPair, by=("line",)),
        "higher voltage": LimitKind(Voltage),
        "lightning": LimitKind(LengthPair),
        ROOF: LimitKind(LengthPair),
        _STEEP_ROOF: LimitKind(LengthPair),
        "slope": LimitKind(RoofSlope),
        "overhang": LimitKind(LengthPair),
        "reach": LimitKind(LengthPair),
        "height": LimitKind(LengthPair, by=("over",)),
    },
)
