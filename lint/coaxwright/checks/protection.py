"""Is what comes in from outdoors protected?"""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.checks.contract import CannotJudge, Check, CheckContext, DoesNotApply, NeedsPerson, NotMet, Verdict
from coaxwright.checks.limits import LimitKind, Limits
from coaxwright.checks.phrasing import article, in_system, length_text
from coaxwright.checks.selectors import ENTRY, OUTDOOR_ANTENNA
from coaxwright.design.quantities import Length, LengthPair, in_system_of
from coaxwright.network import DeviceNode, Entry, Network, Unknown, length_inside, length_outside
from coaxwright.network.customer_premises import stays_on_premises
from coaxwright.physics.comparison import at_most


def entry_protector(entry: Entry, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """A ground block or protector stands where coax enters a building."""
    protector = context.network.protector_at(entry)
    if isinstance(protector, DeviceNode):
        return
    if isinstance(protector, Unknown):
        yield CannotJudge(protector)
        return
    outside, inside = entry.outside, entry.inside
    assert inside is not None
    if outside is None:
        drawn = {"cable": entry.cable.tag, "building": entry.building or "the building", "drop": str(entry.source)}
        yield NeedsPerson("not drawn", entry.cable.path, {**drawn, "inside": inside.tag}, at_key=True)
        return
    values = {
        "cable": entry.cable.tag,
        "building": entry.building or "the building",
        "line": _LINES[entry.line].format(source=entry.source),
        "outside": outside.tag,
        "inside": inside.tag,
        "at": _wall(entry, context.network),
        "termination": _termination(entry, context.network),
    }
    is_in_house = stays_on_premises(context.network, entry.cable, entry.line)
    case = "lead-in" if entry.line == "antenna" else "in-house" if is_in_house else "cable"
    yield NotMet(case, entry.cable.path, values, at_key=True)


def entry_distance(entry: Entry, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """The protector of an entry stands near to it; how near is practicable, somebody has to see.

    That of a mobile home may stand at its service equipment, within a distance of its wall.
    Source: NFPA 70, 820.93 and 800.106, from memory.
    """
    protector = context.network.protector_at(entry)
    inside = entry.inside_end.device if entry.inside_end is not None else None
    is_inside = protector is inside and entry.inside is not None
    is_mobile = context.network.occupancy(entry.building) == "mobile home" and protector is entry.outside_end.device
    if not isinstance(protector, DeviceNode) or not (is_inside or is_mobile):
        yield DoesNotApply("it has no protector inside the building")
        return
    length = length_inside(entry) if is_inside else length_outside(entry)
    whole = entry.cable.length
    pair = limits.length("near" if is_inside else "mobile home")
    assert pair is not None
    if isinstance(length, Unknown):
        if isinstance(whole, Unknown) or not _is_near(whole, pair):  # a cable that is short all in all is so here too
            yield CannotJudge(length)
        return
    if _is_near(length, pair):
        return
    near = pair.for_author(length.is_metric)
    values = {
        "protector": protector.tag,
        "kind": protector.device.kind,
        "length": length_text(length, near),
        "building": entry.building or "the building",
        "cable": entry.cable.tag,
        "near": near.text,
    }
    yield NeedsPerson("far inside" if is_inside else "far from its wall", protector.path, values, at_key=True)


def _is_near(length: Length, pair: LengthPair) -> bool:
    near = pair.for_author(length.is_metric)
    return at_most(in_system(length, length.is_metric), in_system(near, length.is_metric))


def antenna_end(antenna: DeviceNode, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """The first protector on an outdoor antenna's coax is near enough to protect its upper end as well."""
    run = context.network.lead_in(antenna)
    if run.loose_end is not None:
        yield CannotJudge(Unknown(f"{run.loose_end.written!r} names no device", run.loose_end.path))
        return
    if run.building is None:
        yield DoesNotApply("its coax enters no building")
        return
    if run.protector is None:
        yield DoesNotApply("its coax has no protector at all, which is judged where it enters")
        return
    length = run.length
    if isinstance(length, Unknown):
        yield CannotJudge(length)
        return
    reach = limits.length("reach")
    assert reach is not None
    longest = reach.for_author(length.is_metric)
    if at_most(in_system(length, length.is_metric), in_system(longest, length.is_metric)):
        return
    values = {
        "antenna": antenna.tag,
        "length": length_text(length, longest),
        "reach": longest.text,
        "over": in_system_of(length, length.length_m - longest.length_m).text,
        "protector": run.protector.tag,
        "place": antenna.place.tag if antenna.place is not None else "",
        "cable": run.cables[0].tag,
    }
    building = context.network.buildings.get(run.building)
    lightning = building is not None and building.has_lightning_system
    case = "lightning system" if lightning else "far"
    yield NotMet(case, antenna.path, values, at_key=True, cites=(("reach",),))


_LINES = {
    "antenna": "from the antenna {source}",
    "service drop": "from the service drop {source}",
    "inter-building": "between buildings, from or to {source}",
    "outdoors": "from outdoors",
}


def _wall(entry: Entry, network: Network) -> str:
    """Where the protector would stand: the building's named entry if the cable passes it, else where it comes in."""
    assert entry.outside is not None
    building = network.buildings.get(entry.building)
    passed = [segment.tag for segment in entry.cable.segments]
    for named in building.entries if building is not None else ():
        if named in passed:
            return named
    if entry.outside.exposure == "buried" and building is not None and building.entries:
        return building.entries[0]
    return entry.outside.tag


def _termination(entry: Entry, network: Network) -> str:
    """The building's bonding point by its tag and place, or words for one that has to be provided."""
    node = network.bonding_point(entry.building)
    if node is not None and node.place is not None:
        return f"{node.tag} ({node.item.kind}, {node.place.tag})"
    return f"{article('intersystem termination')} of the building, which the design does not show"


CHECKS = (
    Check(
        name="entry-protector",
        each=ENTRY,
        judge=entry_protector,
        cases={
            **dict.fromkeys(
                ("cable", "lead-in", "in-house"),
                ("cable", "building", "line", "outside", "inside", "at", "termination"),
            ),
            "not drawn": ("cable", "building", "drop", "inside"),
        },
        reads=(
            "buildings.*.entry",
            "places.*.building",
            "places.*.exposure",
            "cables.*.from",
            "cables.*.to",
            "cables.*.route",
            "cables.*.state",
            "devices.*.kind",
            "devices.*.place",
            "devices.*.state",
        ),
    ),
    Check(
        name="entry-distance",
        each=ENTRY,
        judge=entry_distance,
        cases=dict.fromkeys(
            ("far inside", "far from its wall"), ("protector", "kind", "length", "building", "cable", "near")
        ),
        reads=(
            "cables.*.route",
            "cables.*.length",
            "places.*.exposure",
            "places.*.building",
            "devices.*.kind",
            "devices.*.place",
            "basis.occupancy",
            "buildings.*.occupancy",
        ),
        limits={"near": LimitKind(LengthPair), "mobile home": LimitKind(LengthPair)},
    ),
    Check(
        name="antenna-end",
        each=OUTDOOR_ANTENNA,
        judge=antenna_end,
        cases=dict.fromkeys(
            ("far", "lightning system"), ("antenna", "length", "reach", "over", "protector", "place", "cable")
        ),
        reads=(
            "buildings.*.lightning system",
            "cables.*.length",
            "cables.*.route",
            "devices.*.kind",
            "devices.*.place",
            "places.*.exposure",
        ),
        limits={"reach": LimitKind(LengthPair)},
    ),
)
