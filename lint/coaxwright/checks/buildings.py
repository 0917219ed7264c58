"""Coax between buildings: bonded in each to that building's own electrodes, and those joined, or the shields parted."""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.checks.contract import CannotJudge, Check, CheckContext, DoesNotApply, NeedsPerson, NotMet, Verdict
from coaxwright.checks.limits import Limits
from coaxwright.checks.phrasing import listed
from coaxwright.checks.selectors import BUILDING_PAIR, ENTRY
from coaxwright.network import DeviceNode, Entry, JoinedBuildings, Unknown
from coaxwright.network.customer_premises import stays_on_premises


def both_buildings(entry: Entry, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """The protector of a run between buildings is bonded to the electrodes of the building that it protects."""
    network = context.network
    protector = network.protector_at(entry)
    if entry.line != "inter-building":
        yield DoesNotApply("its coax does not run between buildings")
        return
    path = network.bond_paths.get(protector.tag) if isinstance(protector, DeviceNode) else None
    if not isinstance(protector, DeviceNode) or path is None:
        yield DoesNotApply("it has no bonded protector, which is judged where it enters and where it is bonded")
        return
    place = path.electrode.place
    if place is None or place.building is None:
        cause = f"{path.electrode.tag} does not say at which building it is"
        at = ("bonding", path.electrode.tag, "place") if place is None else ("places", place.tag, "building")
        yield CannotJudge(Unknown(cause, at))
        return
    if place.building == entry.building:
        return
    own = network.bonding_point(entry.building)
    where = f"{own.tag} ({own.item.kind}, {own.place.tag})" if own is not None and own.place is not None else ""
    values = {
        "cable": entry.cable.tag,
        "building": entry.building,
        "protector": protector.tag,
        "conductor": path.conductors[-1].tag,
        "electrode": path.electrode.tag,
        "other": place.building,
        "own": where or f"the electrode system of {entry.building}, which the design does not show",
    }
    is_by_practice = stays_on_premises(network, entry.cable, entry.line)
    yield NotMet("other building", entry.cable.path, values, at_key=True, is_by_practice=is_by_practice)


def equipotential(pair: JoinedBuildings, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """The electrode systems of two buildings that a shield joins are joined themselves.

    A feeder between the two mostly joins them, and few drawings of coax show it: only where a building says with which
    it is tied, and leaves the other out, are they known to stand apart. Else somebody has to see.
    """
    network = context.network
    if network.are_joined(pair.one, pair.other):
        return
    for _, path in pair.bonds:
        missing = network.bonding.open_end(path.electrode)
        if missing is not None:
            yield CannotJudge(missing)
            return
    (one, one_way), (other, other_way) = pair.bonds
    if one_way.electrode is other_way.electrode:
        yield DoesNotApply("both ends are brought to one electrode, which is judged at the building it is not of")
        return
    values = {
        "one": pair.one,
        "other": pair.other,
        "cables": listed(pair.cables) if pair.cables else "their coax",
        "protectors": listed([one.reference, other.reference]),
        "electrodes": listed([one_way.electrode.tag, other_way.electrode.tag]),
    }
    at = ("buildings", pair.one)
    if any(network.buildings[tag].tied_to for tag in (pair.one, pair.other) if tag in network.buildings):
        yield NotMet("not joined", at, values, at_key=True)
    else:
        yield NeedsPerson("not shown", at, values, at_key=True)


CHECKS = (
    Check(
        name="both-buildings",
        each=ENTRY,
        judge=both_buildings,
        cases={"other building": ("cable", "building", "protector", "conductor", "electrode", "other", "own")},
        reads=(
            "buildings.*.entry",
            "places.*.building",
            "places.*.exposure",
            "cables.*.route",
            "devices.*.place",
            "bonding.*.from",
            "bonding.*.to",
            "bonding.*.place",
        ),
    ),
    Check(
        name="equipotential",
        each=BUILDING_PAIR,
        judge=equipotential,
        cases=dict.fromkeys(("not joined", "not shown"), ("one", "other", "cables", "protectors", "electrodes")),
        reads=(
            "buildings.*.tied to",
            "places.*.building",
            "cables.*.from",
            "cables.*.to",
            "devices.*.kind",
            "bonding.*.from",
            "bonding.*.to",
            "bonding.*.electrode",
        ),
    ),
)
