"""The protector of a run between buildings is bonded to the electrodes of the building that it protects."""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.checks.contract import CannotJudge, Check, CheckContext, DoesNotApply, NotMet, Verdict
from coaxwright.checks.limits import Limits
from coaxwright.checks.selectors import ENTRY
from coaxwright.design.value_types import TAG, WORD, Phrase, phrase
from coaxwright.network import BondNode, DeviceNode, Entry, Network, Unknown
from coaxwright.network.customer_premises import stays_on_premises


def both_buildings(entry: Entry, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """The way of its bond ends at an electrode of that building."""
    network = context.network
    protector = network.protector_at(entry)
    if entry.line != "inter-building":
        yield DoesNotApply("one building")
        return
    path = network.bond_paths.get(protector.tag) if isinstance(protector, DeviceNode) else None
    if not isinstance(protector, DeviceNode) or path is None:
        yield DoesNotApply("no bonded protector")
        return
    other = _building_of(path.electrode)
    if isinstance(other, Unknown):
        yield CannotJudge(other)
    elif other != entry.building:
        values = {
            "cable": entry.cable.tag,
            "building": entry.building,
            "protector": protector.tag,
            "conductor": path.conductors[-1].tag,
            "electrode": path.electrode.tag,
            "other": other,
            "own": _own(entry.building, network),
        }
        is_by_practice = stays_on_premises(network, entry.cable, entry.line)
        yield NotMet("other building", entry.cable.path, values, at_key=True, is_by_practice=is_by_practice)


def _building_of(electrode: BondNode) -> str | Unknown:
    place = electrode.place
    if place is not None and place.building is not None:
        return place.building
    at = ("bonding", electrode.tag, "place") if place is None else ("places", place.tag, "building")
    return Unknown("no building", at, {"electrode": electrode.tag})


def _own(building: str, network: Network) -> Phrase:
    """The bonding point of a building with its place, or that the design shows none."""
    own = network.bonding_point(building)
    if own is not None and own.place is not None:
        return Phrase("shown", {"tag": own.tag, "kind": own.item.kind, "place": own.place.tag})
    return Phrase("missing", {"building": building})


CHECK = Check(
    name="protection.both-buildings",
    each=ENTRY,
    judge=both_buildings,
    cases={
        "other building": {
            "cable": TAG,
            "building": TAG,
            "protector": TAG,
            "conductor": TAG,
            "electrode": TAG,
            "other": TAG,
            "own": phrase(shown={"tag": TAG, "kind": WORD, "place": TAG}, missing={"building": TAG}),
        }
    },
    cannot_judge={"no building": {"electrode": TAG}},
    does_not_apply={"one building": {}, "no bonded protector": {}},
)
