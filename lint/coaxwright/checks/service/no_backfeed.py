"""The signal of an aerial or generator comes to no operator's drop."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from coaxwright.checks.contract import CannotJudge, Check, CheckContext, NotMet, Verdict
from coaxwright.checks.limits import Limits
from coaxwright.checks.selectors import SENDER
from coaxwright.design.value_types import FREQUENCY, TAG, TAGS, WORD, Phrase, phrase
from coaxwright.network import DeviceNode
from coaxwright.network.backfeed import unknown_backfeed


def no_backfeed(sender: DeviceNode, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """It feeds into none, and nothing that would tell is missing."""
    found = [backfeed for backfeed in context.network.traffic.backfeeds if backfeed.sender is sender]
    for backfeed in found:
        steps = backfeed.arrival.way
        cables = [step.cable.tag for step in steps if step.cable is not None]
        joints = [step.device.tag for step in steps if step.is_through and len(step.device.ports) > 2]
        values = {
            "sender": sender.tag,
            "kind": sender.device.kind,
            "drop": backfeed.handoff.tag,
            "cables": cables,
            "frequencies": _from_to(backfeed.freqs_hz),
            "joint": joints[-1] if joints else cables[0],
        }
        related = ((backfeed.handoff.path, "comes in here"),)
        yield NotMet("feeds in", sender.path, values, at_key=True, facet=backfeed.handoff.tag, related=related)
    unknown = None if found else unknown_backfeed(context.network, sender)
    if unknown is not None:
        yield CannotJudge(unknown)


def _from_to(freqs_hz: Sequence[float]) -> Phrase:
    if len(freqs_hz) == 1:
        return Phrase("one", {"low": freqs_hz[0]})
    return Phrase("band", {"low": min(freqs_hz), "high": max(freqs_hz)})


CHECK = Check(
    name="service.no-backfeed",
    each=SENDER,
    judge=no_backfeed,
    cases={
        "feeds in": {
            "sender": TAG,
            "kind": WORD,
            "drop": TAG,
            "cables": TAGS,
            "frequencies": phrase(one={"low": FREQUENCY}, band={"low": FREQUENCY, "high": FREQUENCY}),
            "joint": TAG,
        }
    },
    related=("comes in here",),
)
