"""The loss from any station to any other on its coax is one that they can bridge, at the top of their band."""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.analysis import LossRange
from coaxwright.analysis.stations import StationLoss, between_stations
from coaxwright.checks.contract import CannotJudge, Check, CheckContext, DoesNotApply, NotMet, Verdict
from coaxwright.checks.limits import LimitKind, Limits
from coaxwright.checks.selectors import IN_HOME_DATA
from coaxwright.design.quantities import Decibels
from coaxwright.design.value_types import COUNT, DECIBELS, FREQUENCY, TAG, WORD, Phrase, optional, phrase
from coaxwright.network import ServiceNode, Unknown
from coaxwright.network.devices import kind_of
from coaxwright.network.service_overlap import in_home_band
from coaxwright.physics.comparison import at_most


def path_loss(node: ServiceNode, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """No two stations are parted, and the two farthest are not further apart than is planned for."""
    band = in_home_band(context.network, node)
    stations = context.network.traffic.stations(node.tag)
    pairs = list(between_stations(context.network.graph, stations, context.analysis.line_figures, band.high_hz))
    if not pairs:
        yield DoesNotApply("no two stations")
        return
    yield from _parted(node, pairs)
    known = [(pair, pair.loss_db) for pair in pairs if isinstance(pair.loss_db, LossRange)]
    planned = limits.one(Decibels, "planned")
    over = [(pair, loss) for pair, loss in known if not at_most(loss.nominal, planned.ratio_db)]
    unknown = next((pair.loss_db for pair in pairs if isinstance(pair.loss_db, Unknown)), None)
    if over:
        yield _too_far(node, over, band.high_hz, limits)
    elif unknown is not None:
        yield CannotJudge(unknown)


def _parted(node: ServiceNode, pairs: list[StationLoss]) -> Iterator[NotMet]:
    """For each device that lets nothing pass back, the first pair that it parts."""
    first: dict[str, NotMet] = {}
    for pair in pairs:
        blocker = pair.parted_by
        if blocker is not None and blocker.tag not in first:
            values = {**_pair(node, pair), "blocker": blocker.tag, "kind": kind_of(blocker.device)}
            at = ("services", node.tag)
            first[blocker.tag] = NotMet("parted", at, values, at_key=True, facet=blocker.tag)
    yield from first.values()


def _too_far(node: ServiceNode, over: list[tuple[StationLoss, LossRange]], top_hz: float, limits: Limits) -> NotMet:
    pair, loss = max(over, key=lambda found: found[1].nominal)
    planned, most = limits.one(Decibels, "planned"), limits.one(Decibels, "most")
    is_beyond = not at_most(loss.nominal, most.ratio_db)
    limit = most if is_beyond else planned
    values = {
        **_pair(node, pair),
        "loss": loss.nominal,
        "spread": Phrase("spread", {"low": loss.low, "high": loss.high}),
        "frequency": top_hz,
        "limit": limit,
        "over": loss.nominal - limit.ratio_db,
        "others": len(over) - 1 or None,
    }
    case, cites = ("beyond reach", (("most",),)) if is_beyond else ("more than planned", (("planned",),))
    excess = loss.nominal - limit.ratio_db
    return NotMet(case, ("services", node.tag), values, at_key=True, facet="loss", cites=cites, excess=excess)


def _pair(node: ServiceNode, pair: StationLoss) -> dict[str, object]:
    return {"service": node.tag, "one": pair.one.tag, "other": pair.other.tag}


_PAIR = {"service": TAG, "one": TAG, "other": TAG}
_LOSS = {
    **_PAIR,
    "loss": DECIBELS,
    "spread": phrase(spread={"low": DECIBELS, "high": DECIBELS}),
    "frequency": FREQUENCY,
    "limit": DECIBELS,
    "over": DECIBELS,
    "others": optional(COUNT),
}

CHECK = Check(
    name="indata.path-loss",
    each=IN_HOME_DATA,
    judge=path_loss,
    cases={"parted": {**_PAIR, "blocker": TAG, "kind": WORD}, "more than planned": _LOSS, "beyond reach": _LOSS},
    does_not_apply={"no two stations": {}},
    limits={"planned": LimitKind(Decibels), "most": LimitKind(Decibels)},
)
