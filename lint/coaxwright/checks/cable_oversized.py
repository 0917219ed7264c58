"""Does a larger class buy anything at any outlet?"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Literal

from coaxwright.analysis import LossRange, Outlet
from coaxwright.analysis.other_classes import in_class
from coaxwright.analysis.remedies import more_loss_db
from coaxwright.catalogue import CableClass, UnknownWords
from coaxwright.checks.contract import Check, CheckContext, Correction, DoesNotApply, NotMet, Verdict
from coaxwright.checks.limits import LimitKind, Limits
from coaxwright.checks.phrasing import count, decibels, frequency, level_text
from coaxwright.checks.selectors import CABLE
from coaxwright.design.quantities import Decibels, Level
from coaxwright.frozen_value import frozen_value
from coaxwright.network import CableLink, ServiceNode, Unknown
from coaxwright.physics.comparison import at_least, at_most


@frozen_value
class _Left:
    """What the weakest outlet has left with the smaller class."""

    level_dbmv: float
    outlet: str
    freq_hz: float
    outlets: int


def oversized(link: CableLink, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """A larger class buys more than next to nothing at some outlet behind it.

    Counted for all cables of larger classes on the way to an outlet at once, so that a trunk of many short pieces is
    seen whole. Quiet wherever a level is not known, or a larger class may have another reason: outdoors, as a span, or
    where power rides on it.
    """
    services = context.network.services_on(link.tag)
    if isinstance(link.type, UnknownWords) or isinstance(link.length, Unknown) or not services:
        yield DoesNotApply("its loss or what it carries is not known")
        return
    if _has_another_reason(link, context):
        yield DoesNotApply("it may be of its class for its strength, or for the power that rides on it")
        return
    for (name,) in limits.keys("benefit"):
        smaller = context.network.catalogue.classes.get(name)
        benefit = limits.decibels("benefit", name)
        assert benefit is not None
        if smaller is None or smaller.impedance_ohm != link.type.impedance_ohm:
            continue
        top_hz = max((grid[-1] for service in services if (grid := service.grid_hz("down"))), default=0.0)
        gain_db = more_loss_db(link, smaller, top_hz)
        if not gain_db:
            continue
        lefts = [_left(link, service, smaller, benefit, context, limits) for service in services]
        if "worth it" in lefts:
            return
        known = [left for left in lefts if isinstance(left, _Left)]
        if len(known) < len(lefts):
            yield DoesNotApply("a level behind it is not known")
            return
        weakest = min(known, key=lambda left: left.level_dbmv)
        ample = limits.level("ample", services[0].service.kind)
        assert ample is not None  # each service was judged by its own
        suiting = in_class(link.type, name, context.network.catalogue)
        at = (*link.path, "type")
        values = {
            "cable": link.tag,
            "class": link.type.cable_class.name,
            "smaller": name,
            "length": link.length.text,
            "gain": decibels(gain_db, benefit.ratio_db),
            "frequency": frequency(top_hz),
            "benefit": benefit.text,
            "outlets": count(sum(left.outlets for left in known), "outlet"),
            "left": f"{level_text(weakest.level_dbmv, ample)} at {weakest.outlet} at {frequency(weakest.freq_hz)}",
            "suiting": suiting,
        }
        yield NotMet("buys little", at, values, mend=Correction(at, suiting), cites=(("benefit", name),))
        return


def _has_another_reason(link: CableLink, context: CheckContext) -> bool:
    outside = any(segment.place is None or segment.place.is_outside for segment in link.segments)
    spans = any(segment.leg is not None and segment.leg.support == "messenger" for segment in link.segments)
    is_new = link.cable.state == "new" and link.cable.owner == "owner"
    return outside or spans or not is_new or bool(context.network.feeds_over(link.tag))


def _left(
    link: CableLink, service: ServiceNode, smaller: CableClass, benefit: Decibels, context: CheckContext, limits: Limits
) -> _Left | Literal["worth it", "not known"]:
    """What a service has left behind a cable with the smaller class, or why that need not be told."""
    ample = limits.level("ample", service.service.kind)
    slope = limits.decibels("slope")
    assert slope is not None
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
        found.append(_Left(min(levels)[0], outlet.device.tag, min(levels)[1], 1))
    if not found:
        return "not known"
    weakest = min(found, key=lambda left: left.level_dbmv)
    return _Left(weakest.level_dbmv, weakest.outlet, weakest.freq_hz, len(found))


def _can_answer(
    outlet: Outlet, service: ServiceNode, smaller: CableClass, context: CheckContext, limits: Limits
) -> bool:
    """Whether what the modem there has to send stays well within its range."""
    if service.service.up is None:
        return True
    most = limits.level("sends at most")
    assert most is not None
    up = context.analysis.outlet(service.tag, outlet.device.tag, "up")
    if up is None or not up.readings:
        return False
    for reading, change_db in zip(up.readings, context.analysis.more_loss_db(up, smaller), strict=True):
        needed = reading.level_dbmv
        if not isinstance(needed, LossRange) or not at_most(needed.high + change_db, most.level_dbmv):
            return False
    return True


CHECKS = (
    Check(
        name="oversized",
        each=CABLE,
        judge=oversized,
        cases={
            "buys little": (
                "cable",
                "class",
                "smaller",
                "length",
                "gain",
                "frequency",
                "benefit",
                "outlets",
                "left",
                "suiting",
            )
        },
        reads=(
            "cables.*.type",
            "cables.*.route",
            "cables.*.length",
            "cables.*.state",
            "cables.*.owner",
            "services.*.kind",
            "services.*.down",
            "services.*.up",
            "devices.*.serves",
            "places.*.exposure",
            "places.*.temperature",
        ),
        limits={
            "benefit": LimitKind(Decibels, by=("smaller class",)),
            "ample": LimitKind(Level, by=("service",)),
            "slope": LimitKind(Decibels),
            "sends at most": LimitKind(Level),
        },
    ),
)
