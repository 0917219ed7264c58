"""In-home data leaves the house by no drop and no aerial: a filter stops it on every way that leads there."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from coaxwright.checks.contract import Check, CheckContext, DoesNotApply, NotMet, Verdict
from coaxwright.checks.limits import Limits
from coaxwright.checks.selectors import IN_HOME_DATA
from coaxwright.design.value_types import FREQUENCY, TAG, WORD, Phrase, phrase
from coaxwright.network import DeviceNode, ServiceNode
from coaxwright.network.devices import kind_of
from coaxwright.network.service_demand import receiving_port
from coaxwright.network.service_overlap import in_home_band
from coaxwright.network.stations import Hop, always, is_out_of_the_house, spread, unless_stopped

_AT_THE_ENTRY = frozenset(("ground block", "protector", "galvanic isolator", "power inserter"))
"""Kinds behind which, seen from the demarcation point, an entry filter belongs."""


def entry_filter(node: ServiceNode, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """From no station does its band come to a drop or an aerial."""
    stations = context.network.traffic.stations(node.tag)
    if not any(True for _ in _ways_out(context, stations, None)):
        yield DoesNotApply("no way out")
        return
    band = in_home_band(context.network, node)
    freqs_hz = (band.low_hz, (band.low_hz + band.high_hz) / 2, band.high_hz)
    for hop in _ways_out(context, stations, freqs_hz):
        behind, before = _where_a_filter_belongs(hop)
        values = {
            "service": node.tag,
            "exit": hop.device.tag,
            "kind": kind_of(hop.device.device),
            "station": hop.way[0].device.tag,
            "band": Phrase("band", {"low": band.low_hz, "high": band.high_hz}),
            "place": Phrase("between", {"before": before, "behind": behind}),
        }
        case = "drop" if hop.device.device.kind in ("coax drop", "optical node") else "aerial"
        yield NotMet(case, ("services", node.tag), values, at_key=True, facet=hop.device.tag)


def _ways_out(
    context: CheckContext, stations: tuple[DeviceNode, ...], freqs_hz: tuple[float, ...] | None
) -> Iterator[Hop]:
    """For each drop or aerial that in-home data comes to, the first way found; or, without frequencies, could come."""
    passes = always if freqs_hz is None else unless_stopped(freqs_hz)
    found: dict[str, Hop] = {}
    for station in stations:
        port = receiving_port(station)
        for hop in spread(context.network.graph, station, port, passes) if port is not None else ():
            if is_out_of_the_house(hop):
                found.setdefault(hop.device.tag, hop)
    yield from found.values()


def _where_a_filter_belongs(hop: Hop) -> tuple[str, str]:
    """The first device behind the entry that divides or ends, and the one before it."""
    devices = list(dict.fromkeys(step.device.tag for step in reversed(hop.way)))
    kinds = {step.device.tag: step.device.device.kind for step in hop.way}
    return next((tag, before) for before, tag in pairwise(devices) if kinds[tag] not in _AT_THE_ENTRY)


_EXIT = {
    "service": TAG,
    "exit": TAG,
    "kind": WORD,
    "station": TAG,
    "band": phrase(band={"low": FREQUENCY, "high": FREQUENCY}),
    "place": phrase(between={"before": TAG, "behind": TAG}),
}

CHECK = Check(
    name="indata.entry-filter",
    each=IN_HOME_DATA,
    judge=entry_filter,
    cases={"drop": _EXIT, "aerial": _EXIT},
    does_not_apply={"no way out": {}},
)
