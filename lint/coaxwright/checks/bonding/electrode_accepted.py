"""Nothing relies on a gas pipe as its electrode; a gas pipe that is bonded to the electrodes itself is sound.

Source: NFPA 70, 250.52(B), from memory.
"""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.checks.bonding._shared import BONDING_POINT, leads_to_nothing, nearest_bonding_point
from coaxwright.checks.contract import CannotJudge, Check, CheckContext, DoesNotApply, NotMet, Verdict
from coaxwright.checks.limits import Limits
from coaxwright.checks.selectors import BONDABLE
from coaxwright.design.value_types import TAG
from coaxwright.network import Bondable


def electrode_accepted(bondable: Bondable, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """The way of its bond does not end at a gas pipe."""
    bonding = context.network.bonding
    if context.network.bond_paths[bondable.reference] is not None:
        return
    astray = bonding.astray(bondable.reference)
    if astray is None:
        loose = bonding.loose_end(bondable.reference)
        if loose is None:
            yield DoesNotApply("no electrode")
        else:
            yield CannotJudge(leads_to_nothing(loose, context.network))
        return
    conductor, pipe = astray
    end = "to" if conductor.item.to == pipe else "from"
    values = {
        "thing": bondable.reference,
        "pipe": pipe,
        "conductor": conductor.tag,
        "termination": nearest_bonding_point(bondable, context.network),
    }
    yield NotMet("gas pipe", (*conductor.path, end), values)


CHECK = Check(
    name="bonding.electrode-accepted",
    each=BONDABLE,
    judge=electrode_accepted,
    cases={"gas pipe": {"thing": TAG, "pipe": TAG, "conductor": TAG, "termination": BONDING_POINT}},
    cannot_judge={"leads to nothing": {"conductor": TAG, "written": TAG}},
    does_not_apply={"no electrode": {}},
)
