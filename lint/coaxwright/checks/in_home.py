"""In-home data over coax: does it stay in the house, and do its stations hear one another?"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from coaxwright.analysis import LossRange
from coaxwright.analysis.stations import StationLoss, between_stations
from coaxwright.checks.contract import CannotJudge, Check, CheckContext, DoesNotApply, NotMet, Verdict
from coaxwright.checks.limits import LimitKind, Limits
from coaxwright.checks.phrasing import article, decibels, frequency
from coaxwright.checks.selectors import IN_HOME_DATA
from coaxwright.design.quantities import Decibels
from coaxwright.network import DeviceNode, ServiceNode, Unknown
from coaxwright.network.devices import kind_of
from coaxwright.network.service_demand import receiving_port
from coaxwright.network.service_overlap import in_home_band
from coaxwright.network.stations import Hop, always, is_out_of_the_house, spread, unless_stopped
from coaxwright.physics.comparison import at_most

_AT_THE_ENTRY = frozenset(("ground block", "protector", "galvanic isolator", "power inserter"))
"""Kinds behind which, seen from the hand-off, an entry filter belongs."""


def entry_filter(node: ServiceNode, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """In-home data leaves the house by no drop and no aerial: a filter stops it on every way that leads there."""
    stations = context.network.traffic.stations(node.tag)
    ways_out = list(_ways_out(context, stations, None))
    if not ways_out:
        yield DoesNotApply("its coax leads to no drop and no aerial")
        return
    band = in_home_band(context.network, node)
    freqs_hz = (band.low_hz, (band.low_hz + band.high_hz) / 2, band.high_hz)
    for hop in _ways_out(context, stations, freqs_hz):
        before = _behind(hop)
        values = {
            "service": node.tag,
            "exit": hop.device.tag,
            "kind": article(kind_of(hop.device.device)),
            "station": hop.way[0].device.tag,
            "band": f"{frequency(band.low_hz)} to {frequency(band.high_hz)}",
            "place": f"between {before[1]} and {before[0]}",
        }
        case = "drop" if hop.device.device.kind in ("service drop", "optical node") else "aerial"
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


def _behind(hop: Hop) -> tuple[str, str]:
    """Where an entry filter belongs: the first device behind the entry that divides or ends, and the one before it."""
    devices = list(dict.fromkeys(step.device.tag for step in reversed(hop.way)))
    kinds = {step.device.tag: step.device.device.kind for step in hop.way}
    return next((tag, before) for before, tag in pairwise(devices) if kinds[tag] not in _AT_THE_ENTRY)


def path_loss(node: ServiceNode, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """The loss from any station to any other on its coax is one that they can bridge, at the top of their band."""
    band = in_home_band(context.network, node)
    stations = context.network.traffic.stations(node.tag)
    found = list(between_stations(context.network.graph, stations, context.analysis.line_figures, band.high_hz))
    if not found:
        yield DoesNotApply("no two of its stations are on one coax")
        return
    parted = [pair for pair in found if pair.parted_by is not None]
    for blocker in dict.fromkeys(pair.parted_by.tag for pair in parted if pair.parted_by is not None):
        pair = next(one for one in parted if one.parted_by is not None and one.parted_by.tag == blocker)
        assert pair.parted_by is not None
        values = {**_pair(node, pair), "blocker": blocker, "kind": article(kind_of(pair.parted_by.device))}
        yield NotMet("parted", ("services", node.tag), values, at_key=True, facet=blocker)
    planned, most = limits.decibels("planned"), limits.decibels("most")
    assert planned is not None  # the loader has seen to it
    assert most is not None
    known = [(pair, pair.loss_db) for pair in found if isinstance(pair.loss_db, LossRange)]
    over = [(pair, loss) for pair, loss in known if not at_most(loss.nominal, planned.ratio_db)]
    if over:
        pair, loss = max(over, key=lambda one: one[1].nominal)
        is_beyond = not at_most(loss.nominal, most.ratio_db)
        limit = most if is_beyond else planned
        over_db = loss.nominal - limit.ratio_db
        values = {
            **_pair(node, pair),
            "loss": decibels(loss.nominal, limit.ratio_db),
            "spread": f"{decibels(loss.low)} to {decibels(loss.high)}",
            "frequency": frequency(band.high_hz),
            "limit": limit.text,
            "over": decibels(over_db),
            "others": _others(len(over) - 1),
        }
        case = "beyond reach" if is_beyond else "more than planned"
        cites = (("most" if is_beyond else "planned",),)
        yield NotMet(case, ("services", node.tag), values, at_key=True, facet="loss", cites=cites, excess=over_db)
        return
    unknown = next((pair.loss_db for pair in found if isinstance(pair.loss_db, Unknown)), None)
    if unknown is not None:
        yield CannotJudge(unknown)


def _pair(node: ServiceNode, pair: StationLoss) -> dict[str, str]:
    return {"service": node.tag, "one": pair.one.tag, "other": pair.other.tag}


def _others(number: int) -> str:
    return "" if number < 1 else f", and {number} more {'pair' if number == 1 else 'pairs'} as well"


_NETWORK = (
    "services.*.kind",
    "services.*.from",
    "services.*.down",
    "services.*.up",
    "devices.*.kind",
    "devices.*.variant",
    "devices.*.ways",
    "devices.*.outputs",
    "devices.*.serves",
    "devices.*.state",
    "cables.*.from",
    "cables.*.to",
    "cables.*.state",
)
_LOSS = ("service", "one", "other", "loss", "spread", "frequency", "limit", "over", "others")
_EXIT = ("service", "exit", "kind", "station", "band", "place")

CHECKS = (
    Check(
        name="entry-filter",
        each=IN_HOME_DATA,
        judge=entry_filter,
        cases={"drop": _EXIT, "aerial": _EXIT},
        reads=_NETWORK,
    ),
    Check(
        name="path-loss",
        each=IN_HOME_DATA,
        judge=path_loss,
        cases={
            "parted": ("service", "one", "other", "blocker", "kind"),
            "more than planned": _LOSS,
            "beyond reach": _LOSS,
        },
        reads=(
            *_NETWORK,
            "devices.*.loss",
            "cables.*.type",
            "cables.*.route",
            "cables.*.length",
            "places.*.temperature",
        ),
        limits={"planned": LimitKind(Decibels), "most": LimitKind(Decibels)},
    ),
)
