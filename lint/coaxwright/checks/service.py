"""Do the services that share coax stay out of each other's way, and out of the operator's drop?"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from coaxwright.checks.contract import CannotJudge, Check, CheckContext, DoesNotApply, NotMet, Verdict
from coaxwright.checks.limits import Limits
from coaxwright.checks.phrasing import article, frequency, listed
from coaxwright.checks.selectors import PAIR, SENDER
from coaxwright.design.quantities import shown
from coaxwright.network import DeviceNode, Unknown
from coaxwright.network.backfeed import Backfeed, unknown_backfeed
from coaxwright.network.service_overlap import Overlap, Pair, overlaps


def band_overlap(pair: Pair, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """Two services on one coax are on no frequency at once, wherever they come along it together."""
    begins = {pair.one.service.from_, pair.other.service.from_}
    if any(_ends(backfeed) <= _with_dish(begins, context) for backfeed in context.network.traffic.backfeeds):
        yield DoesNotApply("one feeds into the drop of the other, which another rule tells")
        return
    found = overlaps(context.network, pair)
    if isinstance(found, Unknown):
        yield CannotJudge(found)
        return
    if not found:
        return
    kinds = {pair.one.service.kind, pair.other.service.kind}
    values = {
        "one": pair.one.tag,
        "other": pair.other.tag,
        "overlap": _overlap_text(found),
        "cable": found[0].cable.tag,
    }
    case = "overlap"
    if kinds == {"in-home data", "satellite IF"}:
        case = "in-home data and satellite"
    elif kinds == {"in-home data", "cable broadband"}:
        case = "in-home data and broadband"
        values["below"] = frequency(min(overlap.low_hz for overlap in found))
    related = ((("services", pair.other.tag), "the other one"),)
    excess = sum(overlap.high_hz - overlap.low_hz for overlap in found)
    yield NotMet(case, found[0].cable.path, values, at_key=True, related=related, excess=excess)


def _ends(backfeed: Backfeed) -> set[str]:
    return {backfeed.sender.tag, backfeed.handoff.tag}


def _with_dish(begins: set[str], context: CheckContext) -> set[str]:
    """The devices at which services begin, with the LNBs in front of a dish among them."""
    return begins | {node.tag for node in context.network.devices.values() if node.device.on in begins}


def _overlap_text(found: Sequence[Overlap]) -> str:
    """``448 MHz, from 554 MHz to 1002 MHz``; of channels, the frequencies they lie on."""
    bands = [one for one in found if one.high_hz > one.low_hz]
    channels = sorted({one.low_hz for one in found if one.high_hz == one.low_hz})
    texts = [
        f"{shown((one.high_hz - one.low_hz) / 1e6, 3)} MHz, from {frequency(one.low_hz)} to {frequency(one.high_hz)}"
        for one in bands
    ]
    if channels:
        noun = "the channel at" if len(channels) == 1 else "the channels at"
        texts.append(f"{noun} {listed([frequency(freq_hz) for freq_hz in channels])}")
    return listed(texts)


def no_backfeed(sender: DeviceNode, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """The signal of an aerial or generator comes to no operator's drop."""
    found = [backfeed for backfeed in context.network.traffic.backfeeds if backfeed.sender is sender]
    for backfeed in found:
        steps = backfeed.arrival.way
        cables = [step.cable.tag for step in steps if step.cable is not None]
        joints = [step.device.tag for step in steps if step.is_through and len(step.device.ports) > 2]
        values = {
            "sender": sender.tag,
            "kind": article(sender.device.kind),
            "drop": backfeed.handoff.tag,
            "cables": listed(cables),
            "frequencies": _from_to(backfeed.freqs_hz),
            "joint": joints[-1] if joints else cables[0],
        }
        related = ((backfeed.handoff.path, "it comes in here"),)
        yield NotMet("feeds in", sender.path, values, at_key=True, facet=backfeed.handoff.tag, related=related)
    unknown = None if found else unknown_backfeed(context.network, sender)
    if unknown is not None:
        yield CannotJudge(unknown)


def _from_to(freqs_hz: Sequence[float]) -> str:
    if len(freqs_hz) == 1:
        return frequency(freqs_hz[0])
    return f"{frequency(min(freqs_hz))} to {frequency(max(freqs_hz))}"


_PAIRED = ("one", "other", "overlap", "cable")
_NETWORK = (
    "devices.*.kind",
    "devices.*.variant",
    "devices.*.ways",
    "devices.*.outputs",
    "devices.*.on",
    "devices.*.state",
    "cables.*.from",
    "cables.*.to",
    "cables.*.state",
)

CHECKS = (
    Check(
        name="band-overlap",
        each=PAIR,
        judge=band_overlap,
        cases={
            "overlap": _PAIRED,
            "in-home data and satellite": _PAIRED,
            "in-home data and broadband": (*_PAIRED, "below"),
        },
        reads=(
            *_NETWORK,
            "services.*.kind",
            "services.*.from",
            "services.*.down",
            "services.*.up",
            "services.*.channels",
            "devices.*.serves",
            "devices.*.split",
        ),
    ),
    Check(
        name="no-backfeed",
        each=SENDER,
        judge=no_backfeed,
        cases={"feeds in": ("sender", "kind", "drop", "cables", "frequencies", "joint")},
        reads=(*_NETWORK, "services.*.from", "services.*.down", "services.*.channels"),
    ),
)
