"""The first protector on an outdoor antenna's coax is near enough to protect its upper end as well."""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.checks.contract import CannotJudge, Check, CheckContext, DoesNotApply, NotMet, Verdict
from coaxwright.checks.limits import LimitKind, Limits
from coaxwright.checks.selectors import OUTDOOR_ANTENNA
from coaxwright.design.quantities import LengthPair, is_at_most
from coaxwright.design.value_types import LENGTH, TAG, Derived
from coaxwright.network import DeviceNode, Unknown


def antenna_end(antenna: DeviceNode, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """A protector is reached within so much coax from the antenna."""
    run = context.network.lead_in(antenna)
    if run.loose_end is not None:
        yield CannotJudge(Unknown("loose end", run.loose_end.path, {"written": run.loose_end.written}))
        return
    if run.building is None:
        yield DoesNotApply("enters no building")
        return
    if run.protector is None:
        yield DoesNotApply("no protector")
        return
    length = run.length
    if isinstance(length, Unknown):
        yield CannotJudge(length)
        return
    reach = limits.one(LengthPair, "reach").for_author(length.is_metric)
    if is_at_most(length, reach):
        return
    values = {
        "antenna": antenna.tag,
        "length": length,
        "reach": reach,
        "over": Derived(length.length_m - reach.length_m, length),
        "protector": run.protector.tag,
        "place": antenna.place.tag if antenna.place is not None else "",
        "cable": run.cables[0].tag,
    }
    building = context.network.buildings.get(run.building)
    case = "lightning system" if building is not None and building.has_lightning_system else "far"
    yield NotMet(case, antenna.path, values, at_key=True, cites=(("reach",),))


_FAR = {
    "antenna": TAG,
    "length": LENGTH,
    "reach": LENGTH,
    "over": LENGTH,
    "protector": TAG,
    "place": TAG,
    "cable": TAG,
}

CHECK = Check(
    name="protection.antenna-end",
    each=OUTDOOR_ANTENNA,
    judge=antenna_end,
    cases={"far": _FAR, "lightning system": _FAR},
    cannot_judge={"loose end": {"written": TAG}},
    does_not_apply={"enters no building": {}, "no protector": {}},
    limits={"reach": LimitKind(LengthPair)},
)
