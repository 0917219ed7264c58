"""No two receivers on one cable of a satellite system have the same user band.

Source: EN 50494 (2007), user bands, from memory.
"""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.checks.contract import CannotJudge, Check, CheckContext, DoesNotApply, NotMet, Verdict
from coaxwright.checks.limits import Limits
from coaxwright.checks.selectors import OUTLET_AND_SERVICE, WantedAt
from coaxwright.design.value_types import FREQUENCY, TAG, TAGS, list_of
from coaxwright.network import DeviceNode, Unknown, tag_order


def user_band(wanted: WantedAt, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """No two receivers on one cable of a satellite system have the same user band."""
    receiver = wanted.device
    if wanted.service.service.kind != "satellite IF" or receiver.device.kind != "satellite receiver":
        yield DoesNotApply("no receiver")
        return
    others = [other for other in _on_one_cable(wanted, context) if other.tag != receiver.tag]
    own = receiver.device.user_band
    if own is None:
        if any(other.device.user_band is not None for other in others):
            yield CannotJudge(Unknown("no user band", (*receiver.path, "user band"), {"receiver": receiver.tag}))
        else:
            yield DoesNotApply("no bands")
        return
    before = [
        other
        for other in others
        if other.device.user_band is not None
        and other.device.user_band.freq_hz == own.freq_hz
        and tag_order(other.tag) < tag_order(receiver.tag)
    ]
    if before:
        bands = (node.device.user_band for node in (receiver, *others))
        values = {
            "receiver": receiver.tag,
            "others": [other.tag for other in before],
            "band": own.freq_hz,
            "taken": sorted({band.freq_hz for band in bands if band is not None}),
        }
        related = tuple(((*other.path, "user band"), "same band") for other in before)
        yield NotMet("taken", (*receiver.path, "user band"), values, related=related)


def _on_one_cable(wanted: WantedAt, context: CheckContext) -> list[DeviceNode]:
    """The receivers that hang on the same output of a converter or switch, in tag order."""
    mine = _output(wanted.device, wanted, context)
    if mine is None:
        return []
    return [
        other
        for other in context.network.outlets_of(wanted.service.tag)
        if other.device.kind == "satellite receiver" and _output(other, wanted, context) == mine
    ]


def _output(receiver: DeviceNode, wanted: WantedAt, context: CheckContext) -> tuple[str, str] | None:
    """The output at which the cable to a receiver begins: of the last multiswitch on its way, else of the converter."""
    arrival = context.network.arrival_at(context.network.signal(wanted.service.tag, "down"), receiver)
    if arrival is None:
        return None
    begins = [step for step in arrival.way if step.before is None or step.device.device.kind == "multiswitch"]
    return (begins[-1].device.tag, begins[-1].port.name)


CHECK = Check(
    name="satellite.user-band",
    each=OUTLET_AND_SERVICE,
    judge=user_band,
    cases={"taken": {"receiver": TAG, "others": TAGS, "band": FREQUENCY, "taken": list_of(FREQUENCY)}},
    cannot_judge={"no user band": {"receiver": TAG}},
    does_not_apply={"no receiver": {}, "no bands": {}},
    related=("same band",),
)
