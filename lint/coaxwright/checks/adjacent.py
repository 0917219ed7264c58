"""Can a receiver tell a weak channel from a strong neighbour?"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from coaxwright.analysis import LossRange, Outlet
from coaxwright.analysis.remedies import whole_decibels
from coaxwright.checks.contract import CannotJudge, Check, CheckContext, DoesNotApply, NotMet, Verdict
from coaxwright.checks.limits import LimitKind, Limits
from coaxwright.checks.phrasing import decibels, level_text
from coaxwright.checks.selectors import SERVICE
from coaxwright.design.model import Channel
from coaxwright.design.quantities import Decibels, Level
from coaxwright.frozen_value import frozen_value
from coaxwright.network import ServiceNode, Unknown
from coaxwright.physics.comparison import at_most

WIDTHS_HZ = {"8VSB": 6e6, "ATSC 3.0": 6e6}
"""Width of a channel [Hz] of each standard, where the design states none. Source: 47 CFR 73.682, from memory."""


@frozen_value
class _Pair:
    """Two neighbours at one outlet."""

    weak: tuple[int, Channel, float]
    """Its place in the design, itself, and its usual level [dBmV]."""
    strong: tuple[int, Channel, float]
    outlet: Outlet

    @property
    def difference_db(self) -> float:
        return self.strong[2] - self.weak[2]


def adjacent(service: ServiceNode, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """Of two channels side by side the stronger is not so much stronger that a receiver loses the weaker.

    Judged at the usual levels: temperature and the spread of published figures move both together.
    """
    neighbours = list(_neighbours(service, limits))
    if not neighbours:
        yield DoesNotApply("no two of its channels lie side by side, or nothing is asked of their standard")
        return
    found: list[tuple[float, _Pair, Decibels]] = []
    unknown: Unknown | None = None
    for outlet in context.analysis.outlets(service.tag):
        levels = {reading.freq_hz: reading.level_dbmv for reading in outlet.readings}
        for one, other in neighbours:
            both = [levels.get(channel.frequency.freq_hz) for _, channel in (one, other)]
            unknown = unknown or next((level for level in both if isinstance(level, Unknown)), None)
            if not (isinstance(both[0], LossRange) and isinstance(both[1], LossRange)):
                continue
            rising = sorted(((*one, both[0].nominal), (*other, both[1].nominal)), key=lambda of: of[2])
            most = limits.decibels("most", rising[0][1].standard or "")
            pair = _Pair(rising[0], rising[1], outlet)
            if most is not None and not at_most(pair.difference_db, most.ratio_db):
                found.append((pair.difference_db - most.ratio_db, pair, most))
    if found:
        excess_db, pair, most = max(found, key=lambda one: one[0])
        yield _not_met(service, pair, most, excess_db)
    elif unknown is not None:
        yield CannotJudge(unknown)


def _neighbours(service: ServiceNode, limits: Limits) -> Iterator[tuple[tuple[int, Channel], tuple[int, Channel]]]:
    """Channels of which the next begins where one ends, or so nearly that no other fits between."""
    channels = sorted(enumerate(service.service.channels or ()), key=lambda one: one[1].frequency.freq_hz)
    if service.service.kind != "terrestrial TV":
        return
    for one, other in pairwise(channels):
        widths = [width for _, channel in (one, other) if (width := _width_hz(channel)) is not None]
        apart_hz = other[1].frequency.freq_hz - one[1].frequency.freq_hz
        is_limited = any(limits.decibels("most", channel.standard or "") is not None for _, channel in (one, other))
        if widths and is_limited and 0 < apart_hz < 2 * min(widths):
            yield one, other


def _width_hz(channel: Channel) -> float | None:
    return channel.width.freq_hz if channel.width is not None else WIDTHS_HZ.get(channel.standard or "")


def _not_met(service: ServiceNode, pair: _Pair, most: Decibels, excess_db: float) -> NotMet:
    index, weak, weak_dbmv = pair.weak
    _, strong, strong_dbmv = pair.strong
    like = Level.parse("0 dBm")
    values = {
        "service": service.tag,
        "weak": weak.name,
        "strong": strong.name,
        "outlet": pair.outlet.device.tag,
        "levels": f"{level_text(strong_dbmv, like)} and {level_text(weak_dbmv, like)}",
        "difference": decibels(pair.difference_db, most.ratio_db),
        "most": most.text,
        "filter": f"{whole_decibels(excess_db)} dB",
    }
    at = ("services", service.tag, "channels", index)
    return NotMet("apart", at, values, cites=(("most", weak.standard or ""),), excess=excess_db)


CHECKS = (
    Check(
        name="adjacent",
        each=SERVICE,
        judge=adjacent,
        cases={"apart": ("service", "weak", "strong", "outlet", "levels", "difference", "most", "filter")},
        reads=(
            "services.*.from",
            "services.*.kind",
            "services.*.channels",
            "devices.*.serves",
            "devices.*.gain",
            "devices.*.loss",
            "cables.*.type",
            "cables.*.route",
            "cables.*.length",
        ),
        limits={"most": LimitKind(Decibels, by=("standard",))},
    ),
)
