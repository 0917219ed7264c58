"""A way leads from everything that has to be bonded over bonding conductors to an electrode or termination."""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.checks.bonding._shared import (
    BONDING_POINT,
    PLACE,
    leads_to_nothing,
    line_of,
    nearest_bonding_point,
    place_of,
)
from coaxwright.checks.contract import CannotJudge, Check, CheckContext, DoesNotApply, NotMet, Verdict
from coaxwright.checks.limits import LimitKind, Limits
from coaxwright.checks.selectors import BONDABLE
from coaxwright.design.quantities import Conductor
from coaxwright.design.value_types import CONDUCTOR, TAG, TAGS, WORD, optional
from coaxwright.network import Bondable


def conductor_present(bondable: Bondable, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """A protector, a lead-in's ground block or a metal mast has such a way."""
    network = context.network
    path = network.bond_paths[bondable.reference]
    if path is not None:
        missing = network.bonding.open_end(path.electrode)
        if missing is not None:
            yield CannotJudge(missing)
        return
    if network.bonding.astray(bondable.reference) is not None:
        yield DoesNotApply("gas pipe")
        return
    loose = network.bonding.loose_end(bondable.reference)
    if loose is not None:
        yield CannotJudge(leads_to_nothing(loose, network))
        return
    values = {
        "thing": bondable.reference,
        "kind": "mast" if bondable.is_mast else bondable.device.device.kind,
        "place": place_of(bondable.device.place),
        "size": limits.row(Conductor, "size", line_of(bondable), "copper"),
        "termination": nearest_bonding_point(bondable, network),
    }
    joined = network.bonding.conductors_at(bondable.reference)
    if joined:
        values["conductors"] = [node.tag for node in joined]
        yield NotMet("leads nowhere", joined[0].path, values, at_key=True, is_by_practice=bondable.is_in_house)
    else:
        body = "lead-in" if bondable.line == "antenna" else "protector"
        case = "mast" if bondable.is_mast else body
        yield NotMet(case, bondable.path, values, at_key=True, is_by_practice=bondable.is_in_house)


_THING = {"thing": TAG, "kind": WORD, "place": PLACE, "size": optional(CONDUCTOR), "termination": BONDING_POINT}

CHECK = Check(
    name="bonding.conductor-present",
    each=BONDABLE,
    judge=conductor_present,
    cases={
        **dict.fromkeys(("protector", "lead-in", "mast"), _THING),
        "leads nowhere": {**_THING, "conductors": TAGS},
    },
    cannot_judge={"leads to nothing": {"conductor": TAG, "written": TAG}},
    does_not_apply={"gas pipe": {}},
    limits={"size": LimitKind(Conductor, by=("line", "metal"))},
)
