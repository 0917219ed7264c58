"""Do the receivers of a single-cable satellite system have a user band each?"""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.checks.contract import CannotJudge, Check, CheckContext, DoesNotApply, NotMet, Verdict
from coaxwright.checks.limits import Limits
from coaxwright.checks.phrasing import frequency, listed
from coaxwright.checks.selectors import OUTLET_AND_SERVICE, WantedAt
from coaxwright.network import DeviceNode, Unknown, tag_order


def user_band(wanted: WantedAt, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """No two receivers on one cable of a satellite system have the same user band."""
    receiver = wanted.device
    if wanted.service.service.kind != "satellite IF" or receiver.device.kind != "satellite receiver":
        yield DoesNotApply("it is no satellite receiver")
        return
    others = [other for other in _on_one_cable(wanted, context) if other.tag != receiver.tag]
    own = receiver.device.user_band
    if own is None:
        if any(other.device.user_band is not None for other in others):
            cause = f"{receiver.tag} is on one cable with receivers that have user bands, and states none"
            yield CannotJudge(Unknown(cause, (*receiver.path, "user band")))
        else:
            yield DoesNotApply("no receiver on its cable has a user band")
        return
    before = [
        other
        for other in others
        if other.device.user_band is not None
        and other.device.user_band.freq_hz == own.freq_hz
        and tag_order(other.tag) < tag_order(receiver.tag)
    ]
    if before:
        taken = {one.device.user_band.freq_hz for one in (receiver, *others) if one.device.user_band is not None}
        values = {
            "receiver": receiver.tag,
            "others": listed([other.tag for other in before]),
            "band": frequency(own.freq_hz),
            "taken": listed([frequency(freq_hz) for freq_hz in sorted(taken)]),
        }
        related = tuple(((*other.path, "user band"), "this one has it") for other in before)
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


CHECKS = (
    Check(
        name="user-band",
        each=OUTLET_AND_SERVICE,
        judge=user_band,
        cases={"taken": ("receiver", "others", "band", "taken")},
        reads=(
            "services.*.kind",
            "services.*.from",
            "services.*.down",
            "services.*.channels",
            "devices.*.kind",
            "devices.*.serves",
            "devices.*.user band",
            "cables.*.from",
            "cables.*.to",
        ),
    ),
)
