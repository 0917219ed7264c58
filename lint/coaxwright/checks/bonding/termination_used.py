"""What is bonded goes to the building's intersystem bonding termination where there is one.

An electrode of its own at the entry, joined to the others, is the way out where the termination is too far; and no
other place of the building's system will do. Source: NFPA 70, 800.100(B)(1) and 810.21(F), found in part.
"""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.checks.bonding._shared import TERMINATION, line_of
from coaxwright.checks.contract import Check, CheckContext, DoesNotApply, NotMet, Verdict
from coaxwright.checks.limits import Limits
from coaxwright.checks.selectors import BONDABLE
from coaxwright.design.value_types import TAG, WORD, Phrase, optional, phrase
from coaxwright.network import BUILDING_LEVEL, Bondable


def termination_used(bondable: Bondable, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """The way of its bond ends at the termination, at an electrode of its own, or passes the termination."""
    path = context.network.bond_paths[bondable.reference]
    place = bondable.device.place
    found = context.network.survey.terminations(place.building if place is not None else None)
    if path is None:
        yield DoesNotApply("not bonded")
        return
    if not found:
        yield DoesNotApply("no termination")
        return
    if bondable.is_in_house:
        yield DoesNotApply("on the premises")
        return
    end = path.electrode
    if end.item.kind == TERMINATION or end.item.kind not in BUILDING_LEVEL:
        return
    if context.network.bonding.meets(bondable.reference) & {node.tag for node in found}:
        return
    nearest = found[0]
    values = {
        "thing": bondable.reference,
        "conductor": path.conductors[-1].tag,
        "electrode": end.tag,
        "kind": end.item.kind,
        "termination": Phrase(
            "shown", {"tag": nearest.tag, "place": nearest.place.tag if nearest.place is not None else None}
        ),
    }
    yield NotMet(line_of(bondable), path.conductors[-1].path, values, at_key=True)


_BOND = {
    "thing": TAG,
    "conductor": TAG,
    "electrode": TAG,
    "kind": WORD,
    "termination": phrase(shown={"tag": TAG, "place": optional(TAG)}),
}

CHECK = Check(
    name="bonding.termination-used",
    each=BONDABLE,
    judge=termination_used,
    cases={"shield": _BOND, "antenna": _BOND},
    does_not_apply={"not bonded": {}, "no termination": {}, "on the premises": {}},
)
