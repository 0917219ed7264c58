"""Two services on one coax are on no frequency at once, wherever they come along it together."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from coaxwright.checks.contract import CannotJudge, Check, CheckContext, NotMet, Verdict
from coaxwright.checks.limits import Limits
from coaxwright.checks.selectors import PAIR
from coaxwright.design.value_types import FREQUENCY, TAG, Phrase, Values, list_of, phrase
from coaxwright.network import Network, Unknown
from coaxwright.network.service_overlap import Overlap, Pair, overlaps
from coaxwright.source import Path


def band_overlap(pair: Pair, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """What both are on, frequency by frequency, is nothing on every cable."""
    found = overlaps(context.network, pair)
    if isinstance(found, Unknown):
        yield CannotJudge(found)
        return
    if not found:
        return
    kinds = {pair.one.service.kind, pair.other.service.kind}
    values: dict[str, object] = {"one": pair.one.tag, "other": pair.other.tag, "cable": found[0].cable.tag}
    values["overlap"] = _overlap(found)
    case = "overlap"
    if kinds == {"in-home data", "satellite IF"}:
        case = "in-home data and satellite"
    elif kinds == {"in-home data", "cable broadband"}:
        case, values["below"] = "in-home data and broadband", min(overlap.low_hz for overlap in found)
    related = ((("services", pair.other.tag), "the other"),)
    excess = sum(overlap.high_hz - overlap.low_hz for overlap in found)
    involved = tuple(_feeding_back(pair, context.network))
    yield NotMet(case, found[0].cable.path, values, at_key=True, related=related, involved=involved, excess=excess)


def _feeding_back(pair: Pair, network: Network) -> Iterator[Path]:
    """The senders of one of the services whose signal comes to the drop of the other one."""
    begins = {pair.one.service.from_, pair.other.service.from_}
    begins |= {node.tag for node in network.devices.values() if node.device.on in begins}  # the LNBs of a dish
    for backfeed in network.traffic.backfeeds:
        if {backfeed.sender.tag, backfeed.handoff.tag} <= begins:
            yield backfeed.sender.path


def _overlap(found: Sequence[Overlap]) -> list[Phrase]:
    """The bands that both are on; of channels, the frequencies they lie on."""
    parts = [
        Phrase("band", {"width": band.high_hz - band.low_hz, "low": band.low_hz, "high": band.high_hz})
        for band in found
        if band.high_hz > band.low_hz
    ]
    channels = sorted({channel.low_hz for channel in found if channel.high_hz == channel.low_hz})
    return [*parts, Phrase("channels", {"channels": channels})] if channels else parts


_OVERLAP = list_of(
    phrase(
        band={"width": FREQUENCY, "low": FREQUENCY, "high": FREQUENCY},
        channels={"channels": list_of(FREQUENCY)},
    )
)
_PAIR: Values = {"one": TAG, "other": TAG, "overlap": _OVERLAP, "cable": TAG}

CHECK = Check(
    name="service.band-overlap",
    each=PAIR,
    judge=band_overlap,
    cases={
        "overlap": _PAIR,
        "in-home data and satellite": _PAIR,
        "in-home data and broadband": {**_PAIR, "below": FREQUENCY},
    },
    related=("the other",),
)
