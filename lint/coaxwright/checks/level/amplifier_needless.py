"""An amplifier in the building is needed, and does not follow too many others.

With a splitter of as many outputs in its place, or nothing where it has one, some outlet behind it would miss its
window or come nearer to an edge than the limit; and no more follow one another than noise and tilt allow.
Source: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.analysis import LossRange, Outlet
from coaxwright.catalogue import DeviceEntry
from coaxwright.checks.contract import Check, CheckContext, DoesNotApply, NotMet, Verdict
from coaxwright.checks.level._shared import window_at
from coaxwright.checks.limits import LimitKind, Limits
from coaxwright.checks.selectors import DEVICE
from coaxwright.checks.subject_filters import kinds
from coaxwright.design.quantities import Decibels, InSeries, Level, LevelRange
from coaxwright.design.value_types import COUNT, FREQUENCY, LEVEL, QUANTITY, TAG, TAGS, Derived
from coaxwright.design.value_types import Values as ValueTypes
from coaxwright.frozen_value import frozen_value
from coaxwright.network import DeviceNode
from coaxwright.network.device_passages import Passage
from coaxwright.network.service_overlap import IN_HOME
from coaxwright.physics.comparison import at_least


def amplifier_needless(node: DeviceNode, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """An amplifier in the building is needed, and does not follow too many others.

    Quiet where a level behind it is not known. On the way back a splitter loses less than it does.
    """
    if node.device.kind != "drop amplifier":
        yield DoesNotApply("no amplifier")
        return
    passed = [p for p in _passed(context) if p.device is node and any(leg.wanted for leg in p.legs)]
    if not passed:
        yield DoesNotApply("nothing wanted")
        return
    spare = limits.one(Decibels, "to spare")
    outputs = node.device.outputs or 1
    splitter = context.network.catalogue.device("splitter", ways=outputs) if outputs > 1 else None
    left = _least_left(node, passed, splitter, context, limits) if splitter is not None or outputs == 1 else None
    if left is not None and at_least(left.spare_db, spare.ratio_db):
        values: dict[str, object] = {
            "device": node.tag,
            "outlets": left.outlets,
            "level": Derived(left.level_dbmv, left.edge),
            "outlet": left.outlet,
            "frequency": left.freq_hz,
            "window": left.window,
            "spare": spare,
        }
        if outputs == 1:
            yield NotMet("nothing in its place", node.path, values, at_key=True)
        else:
            yield NotMet("splitter in its place", node.path, {**values, "ways": outputs}, at_key=True)
        return
    yield from _in_series(node, passed, context, limits)


def _passed(context: CheckContext) -> Iterator[Passage]:
    for tag, service in context.network.services.items():
        if service.service.kind != IN_HOME:
            yield from context.network.passages(tag)


@frozen_value
class _Left:
    """What the outlet with the least to spare would have without an amplifier."""

    spare_db: float
    level_dbmv: float
    edge: Level
    window: LevelRange
    outlet: str
    freq_hz: float
    outlets: int


def _least_left(
    node: DeviceNode, passed: list[Passage], splitter: DeviceEntry | None, context: CheckContext, limits: Limits
) -> _Left | None:
    """The outlet with the least to spare without an amplifier; None where something of it is not known."""
    least: list[tuple[float, float, Level, LevelRange, str, float]] = []
    outlets: set[str] = set()
    for passage in passed:
        for wanted in {device.tag: device for leg in passage.legs for device in leg.wanted}.values():
            outlet = context.analysis.outlet(passage.service.tag, wanted.tag)
            if outlet is None or not outlet.readings:
                return None
            outlets.add(wanted.tag)
            for reading in outlet.readings:
                level = _without(node, outlet, reading.index, splitter)
                window = window_at(passage.service, reading.freq_hz, limits, wanted)
                if level is None or window is None:
                    return None
                low_db, high_db = level.low - window.low.level_dbmv, window.high.level_dbmv - level.high
                edge = window.low if low_db <= high_db else window.high
                shown_dbmv = level.low if low_db <= high_db else level.high
                least.append((min(low_db, high_db), shown_dbmv, edge, window, wanted.tag, reading.freq_hz))
    tightest = min(least, key=lambda left: (left[0], left[4], left[5]))
    return _Left(*tightest, len(outlets))


def _without(node: DeviceNode, outlet: Outlet, index: int, splitter: DeviceEntry | None) -> LossRange | None:
    """The level at an outlet with a splitter, or nothing, in an amplifier's place."""
    reading = next(reading for reading in outlet.readings if reading.index == index)
    lost = reading.loss_db
    if not isinstance(lost, LossRange) or not isinstance(reading.level_dbmv, LossRange):
        return None
    start = LossRange.exactly(
        reading.level_dbmv.nominal + lost.nominal
    )  # demarcation points have no spread of their own
    for step in outlet.chain:
        own = step.losses[index]
        if step.is_cable or step.arrival.device is not node or not isinstance(own, LossRange):
            continue
        put = _splitter_figures(splitter, reading.freq_hz)
        if put is None:
            return None
        lost = LossRange(*(whole - gone + new for whole, gone, new in zip(lost, own, put, strict=True)))
    return start.less(lost)


def _splitter_figures(splitter: DeviceEntry | None, freq_hz: float) -> LossRange | None:
    """The loss [dB] of the output of a splitter that loses most; nothing where there is none."""
    if splitter is None:
        return LossRange.exactly(0.0)
    losses = [
        loss
        for port in splitter.ports
        if port.group != "in" and (loss := splitter.loss("in", port.name, freq_hz)) is not None
    ]
    return LossRange.spread(*max(losses, key=lambda loss: loss.nominal_db)) if losses else None


def _in_series(node: DeviceNode, passed: list[Passage], context: CheckContext, limits: Limits) -> Iterator[NotMet]:
    """No more amplifiers follow one another than noise and tilt allow."""
    most = limits.one(InSeries, "most")
    for passage in passed:
        signal = context.network.signal(passage.service.tag, "down")
        for arrival in signal.at(node.tag):
            ahead = list(
                dict.fromkeys(
                    step.device.tag
                    for step in arrival.way
                    if step.device.device.kind == "drop amplifier" and step.device is not node and step.is_through
                )
            )
            if len(ahead) + 1 > most.number:
                values = {"device": node.tag, "ahead": ahead, "most": most, "first": ahead[0]}
                yield NotMet("in series", node.path, values, at_key=True)
                return


_TIGHTEST: ValueTypes = {
    "device": TAG,
    "outlets": COUNT,
    "level": LEVEL,
    "outlet": TAG,
    "frequency": FREQUENCY,
    "window": QUANTITY,
    "spare": QUANTITY,
}

CHECK = Check(
    name="level.amplifier-needless",
    each=DEVICE,
    judge=amplifier_needless,
    applies_to=kinds("drop amplifier"),
    cases={
        "nothing in its place": _TIGHTEST,
        "splitter in its place": {**_TIGHTEST, "ways": COUNT},
        "in series": {"device": TAG, "ahead": TAGS, "most": QUANTITY, "first": TAG},
    },
    does_not_apply={"no amplifier": {}, "nothing wanted": {}},
    limits={
        "window": LimitKind(LevelRange, by=("signal",)),
        "to spare": LimitKind(Decibels),
        "most": LimitKind(InSeries),
    },
    former_values={"left": "{level} at {outlet} at {frequency}", "splitter": "a {ways}-way splitter"},
)
