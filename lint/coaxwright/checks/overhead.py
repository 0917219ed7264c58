"""Is a cable in the open air clear of power lines, roofs, ways below it and lightning conductors?"""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.checks.adjacent_hazards import beside, is_near, not_said, one_per_facet, short_text
from coaxwright.checks.contract import CannotJudge, Check, CheckContext, DoesNotApply, NotMet, Verdict
from coaxwright.checks.limits import LimitKind, Limits
from coaxwright.checks.phrasing import article, in_system
from coaxwright.checks.selectors import CABLE
from coaxwright.checks.subject_filters import at
from coaxwright.design import LightningSystem
from coaxwright.design.quantities import Length, LengthPair, RoofSlope, Voltage
from coaxwright.design.words import AERIALS, POWER_LINES, Exposure
from coaxwright.network import CableLink, Neighbour, Network, Segment, Unknown
from coaxwright.physics.comparison import at_least, at_most

_OPEN_AIR: frozenset[Exposure] = frozenset(("outdoors", "rooftop", "wet"))
_LIGHTNING = frozenset(("lightning conductor",))


def aerial_clearance(link: CableLink, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """In the open air a cable keeps clear of power lines and lightning conductors, and hangs high enough."""
    asked = [
        segment
        for segment in link.segments
        if segment.place is not None
        and segment.place.exposure in _OPEN_AIR
        and (_over(segment) is not None or beside(segment, POWER_LINES | _LIGHTNING))
    ]
    if not asked:
        yield DoesNotApply("nothing is drawn that it hangs over or runs beside in the open air")
        return
    is_lead_in = _is_lead_in(link, context.network)
    yield from one_per_facet(
        verdict
        for segment in asked
        for verdict in (
            *_from_power(link, segment, is_lead_in, limits),
            *_from_lightning(link, segment, context.network, limits),
            *_above(link, segment, context.network, limits),
        )
    )


def _from_power(link: CableLink, segment: Segment, is_lead_in: bool, limits: Limits) -> Iterator[NotMet | CannotJudge]:
    """Clear of power drops and lines; the lead-in of an aerial further from those of higher voltage."""
    for neighbour in beside(segment, POWER_LINES):
        facet = f"{segment.tag}, {neighbour.what}"
        if neighbour.distance is None:
            yield CannotJudge(not_said(neighbour, "the distance", link.tag), facet=facet)
            continue
        high = limits.length("power", "lead-in, higher voltage")
        assert high is not None
        if is_lead_in and neighbour.what == "overhead power line" and neighbour.voltage is None:
            low = limits.length("power", "lead-in")
            assert low is not None
            if is_near(neighbour.distance, high) and not is_near(neighbour.distance, low):
                yield CannotJudge(not_said(neighbour, "the voltage", link.tag), facet=facet)
                continue
        key = ("power", _line(neighbour, is_lead_in, limits))
        yield from _near("power", link, segment, neighbour, limits.length(*key), key)


def _line(neighbour: Neighbour, is_lead_in: bool, limits: Limits) -> str:
    higher = limits.quantity(Voltage, "higher voltage")
    assert higher is not None
    if not is_lead_in:
        return "drop"
    is_high = neighbour.voltage is not None and not at_most(neighbour.voltage.voltage_v, higher.voltage_v)
    return "lead-in, higher voltage" if is_high else "lead-in"


def _from_lightning(
    link: CableLink, segment: Segment, network: Network, limits: Limits
) -> Iterator[NotMet | CannotJudge]:
    """Clear of lightning conductors, by what the designer of their system asks for where that is more."""
    least = limits.length("lightning")
    assert least is not None
    for neighbour in beside(segment, _LIGHTNING):
        facet = f"{segment.tag}, {neighbour.what}"
        distance = neighbour.distance
        if distance is None:
            yield CannotJudge(not_said(neighbour, "the distance", link.tag), facet=facet)
            continue
        asked = _asked_for(segment, network)
        limit = least.for_author(distance.is_metric)
        if asked is not None and asked.length_m > limit.length_m:
            if not at_least(in_system(distance, asked.is_metric), in_system(asked, asked.is_metric)):
                yield _too_near("lightning", link, segment, neighbour, distance, asked, ())
            continue
        yield from _near("lightning", link, segment, neighbour, least, ("lightning",))


def _above(link: CableLink, segment: Segment, network: Network, limits: Limits) -> Iterator[NotMet | CannotJudge]:
    """High enough above a roof or a way."""
    over = _over(segment)
    assert segment.place is not None
    keys = {key for (key,) in limits.keys("height")}
    if over is None or (over != "roof" and over not in keys) or (over == "roof" and _is_auxiliary(segment, network)):
        return
    facet = f"{segment.tag}, {over}"
    height = segment.leg.height if segment.leg is not None else None
    if height is None and over != "roof":
        height = segment.place.place.height
    if height is None:
        at = (*segment.path, "height")
        yield CannotJudge(Unknown(f"{link.tag} has no height over the {over}", at), facet=facet)
        return
    key, open_question = _roof(segment, height, limits) if over == "roof" else (("height", over), None)
    if open_question is not None:
        yield CannotJudge(open_question, facet=facet)
        return
    least = limits.length(*key)
    assert least is not None
    if not is_near(height, least):
        return
    limit = least.for_author(height.is_metric)
    values = {
        "cable": link.tag,
        "place": segment.tag,
        "over": over,
        "height": height.text,
        "least": limit.text,
        "missing": short_text(limit.length_m - height.length_m, height.is_metric),
    }
    case = "roof" if over == "roof" else "way"
    yield NotMet(case, segment.path, values, facet=facet, cites=(key,), excess=limit.length_m - height.length_m)


def _is_auxiliary(segment: Segment, network: Network) -> bool:
    """Whether the roof below is that of a garage or the like, over which no height is asked for.

    Source: NFPA 70, 820.44(B), 800.44(B) since 2020, found in part.
    """
    building = network.buildings.get(segment.place.building or "") if segment.place is not None else None
    return building is not None and building.building.auxiliary


def _roof(segment: Segment, height: Length, limits: Limits) -> tuple[tuple[str, ...], Unknown | None]:
    """Which height over a roof counts: less over a short overhang, and over a roof that nobody walks on."""
    assert segment.place is not None
    place = segment.place.place
    full, steep = limits.length("roof"), limits.length("steep roof")
    reach, slope = limits.length("reach"), limits.quantity(RoofSlope, "slope")
    assert full is not None
    assert steep is not None
    assert reach is not None
    assert slope is not None
    across = reach.for_author(segment.length.is_metric)
    is_short = at_most(in_system(segment.length, across.is_metric), in_system(across, across.is_metric))
    if place.overhang is not None and is_short:
        return ("overhang",), None
    if place.roof_slope is not None:
        return ("steep roof",) if at_least(place.roof_slope.rise_per_run, slope.rise_per_run) else ("roof",), None
    if is_near(height, steep) or not is_near(height, full):
        return ("steep roof",) if is_near(height, steep) else ("roof",), None
    at = ("places", segment.tag, "roof slope")
    return ("roof",), Unknown(f"the slope of the roof {segment.tag} is not stated", at)


def _near(
    case: str,
    link: CableLink,
    segment: Segment,
    neighbour: Neighbour,
    least: LengthPair | None,
    key: tuple[str, ...],
) -> Iterator[NotMet]:
    assert least is not None
    distance = neighbour.distance
    assert distance is not None
    if is_near(distance, least):
        limit = least.for_author(distance.is_metric)
        yield _too_near(case, link, segment, neighbour, distance, limit, (key,))


def _too_near(
    case: str,
    link: CableLink,
    segment: Segment,
    neighbour: Neighbour,
    distance: Length,
    limit: Length,
    cites: tuple[tuple[str, ...], ...],
) -> NotMet:
    lacking_m = limit.length_m - distance.length_m
    values = {
        "cable": link.tag,
        "place": segment.tag,
        "what": article(neighbour.what),
        "distance": distance.text,
        "least": limit.text,
        "missing": short_text(lacking_m, distance.is_metric),
    }
    related = ((neighbour.path, f"the {neighbour.what} is here"),)
    facet = f"{segment.tag}, {neighbour.what}"
    return NotMet(case, segment.path, values, facet=facet, related=related, cites=cites, excess=lacking_m)


def _over(segment: Segment) -> str | None:
    return segment.leg.over if segment.leg is not None else None


def _asked_for(segment: Segment, network: Network) -> Length | None:
    """The separation distance that the designer of the building's lightning system asks for."""
    building = network.buildings.get(segment.place.building or "") if segment.place is not None else None
    system = building.building.lightning_system if building is not None else None
    return system.separation if isinstance(system, LightningSystem) else None


def _is_lead_in(link: CableLink, network: Network) -> bool:
    """Whether the cable comes from an aerial."""
    if any(end.device is not None and end.device.device.kind in AERIALS for end in link.ends):
        return True
    return any(entry.line == "antenna" for entry in network.entries if entry.cable is link)


_NEAR = ("cable", "place", "what", "distance", "least", "missing")
_LOW = ("cable", "place", "over", "height", "least", "missing")

CHECKS = (
    Check(
        name="aerial-clearance",
        each=CABLE,
        judge=aerial_clearance,
        applies_to=at(_OPEN_AIR),
        cases={"power": _NEAR, "lightning": _NEAR, "roof": _LOW, "way": _LOW},
        reads=(
            "cables.*.route",
            "cables.*.from",
            "cables.*.to",
            "places.*.exposure",
            "places.*.beside",
            "places.*.height",
            "places.*.roof slope",
            "places.*.overhang",
            "buildings.*.auxiliary",
            "buildings.*.lightning system",
        ),
        limits={
            "power": LimitKind(LengthPair, by=("line",)),
            "higher voltage": LimitKind(Voltage),
            "lightning": LimitKind(LengthPair),
            "roof": LimitKind(LengthPair),
            "steep roof": LimitKind(LengthPair),
            "slope": LimitKind(RoofSlope),
            "overhang": LimitKind(LengthPair),
            "reach": LimitKind(LengthPair),
            "height": LimitKind(LengthPair, by=("over",)),
        },
    ),
)
