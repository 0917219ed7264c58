"""Of two channels side by side the stronger is not so much stronger that a receiver loses the weaker.

stronger - weaker <= most for the standard of the weaker. Source: ATSC A/74 (2010), 5.4.2, adjacent channel.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from coaxwright.analysis import LossRange, Outlet
from coaxwright.analysis.remedies import whole_decibels
from coaxwright.checks.contract import CannotJudge, Check, CheckContext, DoesNotApply, NotMet, Verdict
from coaxwright.checks.limits import LimitKind, Limits
from coaxwright.checks.selectors import SERVICE
from coaxwright.design.model import Channel
from coaxwright.design.quantities import Decibels, Level
from coaxwright.design.value_types import DECIBELS, LEVEL, QUANTITY, TAG, TEXT, Derived
from coaxwright.frozen_value import frozen_value
from coaxwright.network import ServiceNode, Unknown
from coaxwright.physics.comparison import at_most

_WIDTHS_HZ = {"8VSB": 6e6, "ATSC 3.0": 6e6}
"""Width of a channel [Hz] of each standard, where the design states none. Source: 47 CFR 73.682, from memory."""
_UNIT = Level.parse("0 dBm")
"""Levels at receivers of television are given in dBm, as in ATSC A/74."""


def adjacent(service: ServiceNode, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """Of two channels side by side the stronger is not so much stronger that a receiver loses the weaker.

    Judged at the usual levels: temperature and the spread of published figures move both together.
    """
    neighbors = list(_neighbors(service, limits))
    if not neighbors:
        yield DoesNotApply("no neighbors")
        return
    found: list[_Pair] = []
    unknown: Unknown | None = None
    for outlet in context.analysis.outlets(service.tag):
        levels = {reading.freq_hz: reading.level_dbmv for reading in outlet.readings}
        for lower, upper in neighbors:
            both = [levels.get(channel.frequency.freq_hz) for _, channel in (lower, upper)]
            unknown = unknown or next((level for level in both if isinstance(level, Unknown)), None)
            if not (isinstance(both[0], LossRange) and isinstance(both[1], LossRange)):
                continue
            weak, strong = sorted(((*lower, both[0].nominal), (*upper, both[1].nominal)), key=lambda of: of[2])
            most = limits.row(Decibels, "most", weak[1].standard or "")
            if most is not None and not at_most(strong[2] - weak[2], most.ratio_db):
                found.append(_Pair(weak, strong, most, outlet))
    if found:
        yield _not_met(service, max(found, key=lambda pair: pair.excess_db))
    elif unknown is not None:
        yield CannotJudge(unknown)


@frozen_value
class _Pair:
    """Two neighbors at one outlet, and by how much they may differ."""

    weak: tuple[int, Channel, float]
    """Its place in the design, itself, and its usual level [dBmV]."""
    strong: tuple[int, Channel, float]
    most: Decibels
    outlet: Outlet

    @property
    def difference_db(self) -> float:
        return self.strong[2] - self.weak[2]

    @property
    def excess_db(self) -> float:
        return self.difference_db - self.most.ratio_db


def _neighbors(service: ServiceNode, limits: Limits) -> Iterator[tuple[tuple[int, Channel], tuple[int, Channel]]]:
    """Channels of which the next begins where one ends, or so nearly that no other fits between."""
    channels = sorted(enumerate(service.service.channels or ()), key=lambda indexed: indexed[1].frequency.freq_hz)
    if service.service.kind != "terrestrial TV":
        return
    for lower, upper in pairwise(channels):
        widths = [width for _, channel in (lower, upper) if (width := _width_hz(channel)) is not None]
        apart_hz = upper[1].frequency.freq_hz - lower[1].frequency.freq_hz
        is_limited = any(
            limits.row(Decibels, "most", channel.standard or "") is not None for _, channel in (lower, upper)
        )
        if widths and is_limited and 0 < apart_hz < 2 * min(widths):
            yield lower, upper


def _width_hz(channel: Channel) -> float | None:
    return channel.width.freq_hz if channel.width is not None else _WIDTHS_HZ.get(channel.standard or "")


def _not_met(service: ServiceNode, pair: _Pair) -> NotMet:
    index, weak, weak_dbmv = pair.weak
    _, strong, strong_dbmv = pair.strong
    values = {
        "service": service.tag,
        "weak": weak.name,
        "strong": strong.name,
        "outlet": pair.outlet.device.tag,
        "strong_level": Derived(strong_dbmv, _UNIT),
        "weak_level": Derived(weak_dbmv, _UNIT),
        "difference": pair.difference_db,
        "most": pair.most,
        "filter": whole_decibels(pair.excess_db),
    }
    at = ("services", service.tag, "channels", index)
    return NotMet("apart", at, values, cites=(("most", weak.standard or ""),), excess=pair.excess_db)


CHECK = Check(
    name="level.adjacent",
    each=SERVICE,
    judge=adjacent,
    cases={
        "apart": {
            "service": TAG,
            "weak": TEXT,
            "strong": TEXT,
            "outlet": TAG,
            "strong_level": LEVEL,
            "weak_level": LEVEL,
            "difference": DECIBELS,
            "most": QUANTITY,
            "filter": DECIBELS,
        }
    },
    does_not_apply={"no neighbors": {}},
    limits={"most": LimitKind(Decibels, by=("standard",))},
    former_values={"levels": "{strong_level} and {weak_level}"},
)
