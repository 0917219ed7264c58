"""The protector of an entry stands as near to it as practicable; how near that is, somebody has to see.

That of a mobile home may stand at its service equipment, within a distance of its wall. Source: NFPA 70, 820.93 and
800.106, from memory.
"""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.checks.contract import CannotJudge, Check, CheckContext, DoesNotApply, NeedsPerson, Verdict
from coaxwright.checks.limits import LimitKind, Limits
from coaxwright.checks.protection._shared import BUILDING, building_named
from coaxwright.checks.selectors import ENTRY
from coaxwright.design.quantities import Length, LengthPair, is_at_most
from coaxwright.design.value_types import LENGTH, TAG, WORD
from coaxwright.network import DeviceNode, Entry, Network, Unknown, length_inside, length_outside


def entry_distance(entry: Entry, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """Not further than the limit: inside from the wall, or outside a mobile home from its wall."""
    protector = context.network.protector_at(entry)
    case = _stands(entry, protector, context.network)
    if not isinstance(protector, DeviceNode) or case is None:
        yield DoesNotApply("no protector inside")
        return
    length = length_inside(entry) if case == "far inside" else length_outside(entry)
    pair = limits.one(LengthPair, "near" if case == "far inside" else "mobile home")
    if isinstance(length, Unknown):
        whole = entry.cable.length
        if isinstance(whole, Unknown) or not _is_near(whole, pair):  # a cable that is short all in all is so here too
            yield CannotJudge(length)
    elif not _is_near(length, pair):
        values = {
            "protector": protector.tag,
            "kind": protector.device.kind,
            "length": length,
            "building": building_named(entry.building),
            "cable": entry.cable.tag,
            "near": pair.for_author(length.is_metric),
        }
        yield NeedsPerson(case, protector.path, values, at_key=True)


def _stands(entry: Entry, protector: object, network: Network) -> str | None:
    """Whether a protector is one inside the building, or one ahead of a mobile home; None for any other."""
    if entry.inside is not None and entry.inside_end is not None and protector is entry.inside_end.device:
        return "far inside"
    is_mobile = network.occupancy(entry.building) == "mobile home" and protector is entry.outside_end.device
    return "far from its wall" if is_mobile else None


def _is_near(length: Length, pair: LengthPair) -> bool:
    return is_at_most(length, pair.for_author(length.is_metric))


_FAR = {"protector": TAG, "kind": WORD, "length": LENGTH, "building": BUILDING, "cable": TAG, "near": LENGTH}

CHECK = Check(
    name="protection.entry-distance",
    each=ENTRY,
    judge=entry_distance,
    cases={"far inside": _FAR, "far from its wall": _FAR},
    does_not_apply={"no protector inside": {}},
    limits={"near": LimitKind(LengthPair), "mobile home": LimitKind(LengthPair)},
)
