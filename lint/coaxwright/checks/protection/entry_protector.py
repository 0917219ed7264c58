"""Coax from outdoors meets a ground block or protector where it enters a building."""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.checks.contract import CannotJudge, Check, CheckContext, NeedsPerson, NotMet, Verdict
from coaxwright.checks.limits import Limits
from coaxwright.checks.protection._shared import BUILDING, building_named
from coaxwright.checks.selectors import ENTRY
from coaxwright.design.value_types import TAG, WORD, Phrase, phrase
from coaxwright.network import Entry, Network, PlaceNode, Unknown
from coaxwright.network.customer_premises import stays_on_premises


def entry_protector(entry: Entry, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """Something that protects stands at the entry; one that is not drawn is seen on site."""
    protector = context.network.protector_at(entry)
    if isinstance(protector, Unknown):
        yield CannotJudge(protector)
    elif protector is None:
        yield _missing(entry, context.network)


def _missing(entry: Entry, network: Network) -> NotMet | NeedsPerson:
    known = {"cable": entry.cable.tag, "building": building_named(entry.building)}
    inside = entry.inside.tag if entry.inside is not None else ""
    if entry.outside is None:
        drawn = {**known, "drop": str(entry.source), "inside": inside}
        return NeedsPerson("not drawn", entry.cable.path, drawn, at_key=True)
    values = {
        **known,
        "line": Phrase(entry.line, {} if entry.line == "outdoors" else {"source": str(entry.source)}),
        "outside": entry.outside.tag,
        "inside": inside,
        "at": _wall(entry, entry.outside, network),
        "termination": _termination(entry, network),
    }
    is_in_house = stays_on_premises(network, entry.cable, entry.line)
    case = "lead-in" if entry.line == "antenna" else "in-house" if is_in_house else "cable"
    return NotMet(case, entry.cable.path, values, at_key=True)


def _wall(entry: Entry, outside: PlaceNode, network: Network) -> str:
    """Where the protector would stand: the building's named entry if the cable passes it, else where it comes in."""
    building = network.buildings.get(entry.building)
    passed = [segment.tag for segment in entry.cable.segments]
    for named in building.entries if building is not None else ():
        if named in passed:
            return named
    if outside.exposure == "buried" and building is not None and building.entries:
        return building.entries[0]
    return outside.tag


def _termination(entry: Entry, network: Network) -> Phrase:
    """The building's bonding point by its tag and place, or that the design shows none."""
    node = network.bonding_point(entry.building)
    if node is not None and node.place is not None:
        return Phrase("shown", {"tag": node.tag, "kind": node.item.kind, "place": node.place.tag})
    return Phrase("missing")


_FROM = {"source": TAG}
_NOT_PROTECTED = {
    "cable": TAG,
    "building": BUILDING,
    "line": phrase(**{"antenna": _FROM, "coax drop": _FROM, "inter-building": _FROM, "outdoors": {}}),
    "outside": TAG,
    "inside": TAG,
    "at": TAG,
    "termination": phrase(shown={"tag": TAG, "kind": WORD, "place": TAG}, missing={}),
}

CHECK = Check(
    name="protection.entry-protector",
    each=ENTRY,
    judge=entry_protector,
    cases={
        **dict.fromkeys(("cable", "lead-in", "in-house"), _NOT_PROTECTED),
        "not drawn": {"cable": TAG, "building": BUILDING, "drop": TAG, "inside": TAG},
    },
)
