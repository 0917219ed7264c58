"""A larger class buys more than next to nothing at some outlet behind it.

Counted for all cables of larger classes on the way to an outlet at once, so that a trunk of many short pieces is seen
whole. Quiet wherever a level is not known, or a larger class may have another reason: outdoors, as a span, or where
power rides on it. Source of the limits: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Literal

from coaxwright.analysis import LossRange, Outlet
from coaxwright.analysis.other_classes import in_class
from coaxwright.analysis.remedies import more_loss_db
from coaxwright.catalogue import CableClass, CableType
from coaxwright.checks.contract import Check, CheckContext, Correction, DoesNotApply, NotMet, Verdict
from coaxwright.checks.limits import LimitKind, Limits
from coaxwright.checks.selectors import CABLE
from coaxwright.design.quantities import Decibels, Length, Level
from coaxwright.design.value_types import (
    COUNT,
    DECIBELS,
    FREQUENCY,
    LEVEL,
    QUANTITY,
    TAG,
    TEXT,
    WORD,
    Derived,
    Phrase,
    phrase,
)
from coaxwright.frozen_value import frozen_value
from coaxwright.network import CableLink, ServiceNode
from coaxwright.physics.comparison import at_least, at_most


def oversized(link: CableLink, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """No smaller class would do as well behind it."""
    services = context.network.services_on(link.tag)
    if not isinstance(link.type, CableType) or not isinstance(link.length, Length) or not services:
        yield DoesNotApply("not known")
        return
    if _has_another_reason(link, context):
        yield DoesNotApply("another reason")
        return
    top_hz = max((grid[-1] for service in services if (grid := service.grid_hz("down"))), default=0.0)
    for smaller, benefit in _smaller(link.type, context, limits):
        gain_db = more_loss_db(link, smaller, top_hz)
        if not gain_db:
            continue
        lefts = [_left(link, service, smaller, benefit, context, limits) for service in services]
        if "worth it" in lefts:
            return
        known = [left for left in lefts if isinstance(left, _Left)]
        if len(known) < len(lefts):
            yield DoesNotApply("level not known")
            return
        suiting = in_class(link.type, smaller.name, context.network.catalogue)
        at = (*link.path, "type")
        values = {
            "cable": link.tag,
            "class": link.type.cable_class.name,
            "length": link.length,
            "gain": gain_db,
            "frequency": top_hz,
            "suiting": suiting,
            **_values(smaller, benefit, known),
        }
        yield NotMet("buys little", at, values, mend=Correction(at, suiting), cites=(("benefit", smaller.name),))
        return


def _smaller(of: CableType, context: CheckContext, limits: Limits) -> Iterator[tuple[CableClass, Decibels]]:
    """The classes of the same impedance that may do as well, each with what a larger one has to gain over it."""
    for (name,) in limits.keys("benefit"):
        made, benefit = context.network.catalogue.classes.get(name), limits.row(Decibels, "benefit", name)
        if made is not None and benefit is not None and made.impedance_ohm == of.impedance_ohm:
            yield made, benefit


@frozen_value
class _Left:
    """What the weakest outlet of a service has left with the smaller class."""

    level_dbmv: float
    ample: Level
    """What would do for the service."""
    outlet: str
    freq_hz: float
    outlets: int


def _values(smaller: CableClass, benefit: Decibels, known: list[_Left]) -> dict[str, object]:
    weakest = min(known, key=lambda left: left.level_dbmv)
    level = Derived(weakest.level_dbmv, known[0].ample)
    return {
        "smaller": smaller.name,
        "benefit": benefit,
        "outlets": sum(left.outlets for left in known),
        "left": Phrase("level", {"level": level, "outlet": weakest.outlet, "frequency": weakest.freq_hz}),
    }


def _has_another_reason(link: CableLink, context: CheckContext) -> bool:
    outside = any(segment.place is None or segment.place.is_outside for segment in link.segments)
    spans = any(segment.leg is not None and segment.leg.support == "messenger" for segment in link.segments)
    is_new = link.cable.state == "new" and link.cable.owner == "owner"
    return outside or spans or not is_new or bool(context.network.feeds_over(link.tag))


def _left(
    link: CableLink, service: ServiceNode, smaller: CableClass, benefit: Decibels, context: CheckContext, limits: Limits
) -> _Left | Literal["worth it", "not known"]:
    """What a service has left behind a cable with the smaller class, or why that does not count."""
    ample = limits.row(Level, "ample", service.service.kind)
    slope = limits.one(Decibels, "slope")
    found: list[_Left] = []
    for outlet in context.analysis.outlets_behind(link.tag, service.tag):
        levels: list[tuple[float, float, float]] = []
        for reading, change_db in zip(outlet.readings, context.analysis.more_loss_db(outlet, smaller), strict=True):
            if at_least(change_db, benefit.ratio_db):
                return "worth it"
            if ample is None or not isinstance(reading.level_dbmv, LossRange):
                return "not known"
            levels.append((reading.level_dbmv.low - change_db, reading.freq_hz, reading.level_dbmv.hot - change_db))
        if not levels or ample is None:
            continue
        usual = [level for _, _, level in levels]
        if not at_least(min(levels)[0], ample.level_dbmv) or not at_most(max(usual) - min(usual), slope.ratio_db):
            return "worth it"
        if not _can_answer(outlet, service, smaller, context, limits):
            return "worth it"
        found.append(_Left(min(levels)[0], ample, outlet.device.tag, min(levels)[1], 1))
    if not found:
        return "not known"
    weakest = min(found, key=lambda left: left.level_dbmv)
    return _Left(weakest.level_dbmv, weakest.ample, weakest.outlet, weakest.freq_hz, len(found))


def _can_answer(
    outlet: Outlet, service: ServiceNode, smaller: CableClass, context: CheckContext, limits: Limits
) -> bool:
    """Whether what the modem there has to send stays well within its range."""
    if service.service.up is None:
        return True
    most = limits.one(Level, "sends at most")
    up = context.analysis.outlet(service.tag, outlet.device.tag, "up")
    if up is None or not up.readings:
        return False
    for reading, change_db in zip(up.readings, context.analysis.more_loss_db(up, smaller), strict=True):
        needed = reading.level_dbmv
        if not isinstance(needed, LossRange) or not at_most(needed.high + change_db, most.level_dbmv):
            return False
    return True


CHECK = Check(
    name="cable.oversized",
    each=CABLE,
    judge=oversized,
    cases={
        "buys little": {
            "cable": TAG,
            "class": WORD,
            "smaller": WORD,
            "length": QUANTITY,
            "gain": DECIBELS,
            "frequency": FREQUENCY,
            "benefit": QUANTITY,
            "outlets": COUNT,
            "left": phrase(level={"level": LEVEL, "outlet": TAG, "frequency": FREQUENCY}),
            "suiting": TEXT,
        }
    },
    does_not_apply={"not known": {}, "another reason": {}, "level not known": {}},
    limits={
        "benefit": LimitKind(Decibels, by=("smaller class",)),
        "ample": LimitKind(Level, by=("service",)),
        "slope": LimitKind(Decibels),
        "sends at most": LimitKind(Level),
    },
)
