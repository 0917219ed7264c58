"""New service equipment has an intersystem bonding termination; what is there already may stay as it is.

Where the design gives the day it is installed, it says that it is new; else somebody has to see. Source: NFPA 70,
250.94(A), found in part.
"""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.checks.bonding._shared import BUILDING, building_named
from coaxwright.checks.contract import Check, CheckContext, DoesNotApply, NeedsPerson, NotMet, Verdict
from coaxwright.checks.limits import Limits
from coaxwright.checks.selectors import ELECTRODE
from coaxwright.design.value_types import TAG, TEXT
from coaxwright.network import BondNode


def termination_present(node: BondNode, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """A termination is drawn in the building of the service."""
    if node.item.kind != "service equipment" or node.item.state != "new":
        yield DoesNotApply("no new service")
        return
    if node.place is None:
        yield DoesNotApply("no place")
        return
    building = node.place.building
    if context.network.survey.terminations(building):
        return
    values = {"service": node.tag, "place": node.place.tag, "building": building_named(building)}
    if node.item.installed is not None:
        yield NotMet("none", node.path, values | {"day": str(node.item.installed)}, at_key=True)
    else:
        yield NeedsPerson("not shown", node.path, values, at_key=True)


_SERVICE = {"service": TAG, "place": TAG, "building": BUILDING}

CHECK = Check(
    name="bonding.termination-present",
    each=ELECTRODE,
    judge=termination_present,
    cases={"none": {**_SERVICE, "day": TEXT}, "not shown": _SERVICE},
    does_not_apply={"no new service": {}, "no place": {}},
)
