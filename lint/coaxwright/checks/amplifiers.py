"""Does every amplifier and switch get and give what it is made for?"""

from __future__ import annotations

from collections.abc import Iterator
from math import log10

from coaxwright.analysis import LossRange, Outlet
from coaxwright.analysis.levels import outlet_readings
from coaxwright.analysis.remedies import larger_class, pad_db
from coaxwright.checks.contract import CannotJudge, Check, CheckContext, DoesNotApply, NotMet, Verdict
from coaxwright.checks.limits import Limits
from coaxwright.checks.phrasing import article, decibels, frequency, level_text
from coaxwright.checks.selectors import PASSAGE
from coaxwright.checks.subject_filters import those
from coaxwright.design.quantities import Level
from coaxwright.frozen_value import frozen_value
from coaxwright.network import ServiceNode, Unknown
from coaxwright.network.device_passages import Passage
from coaxwright.network.devices import kind_of
from coaxwright.physics.comparison import at_least, at_most


@frozen_value
class _Beyond:
    """A level of one carrier beyond what a device is made for, or perhaps beyond it."""

    index: int
    freq_hz: float
    level: LossRange
    edge: Level
    is_low: bool
    is_certain: bool
    at: Outlet

    @property
    def usual_dbmv(self) -> float:
        return self.level.hot if self.is_low else self.level.cold

    @property
    def missing_db(self) -> float:
        return abs(self.usual_dbmv - self.edge.level_dbmv)


def amplifier_input(passage: Passage, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """Each carrier comes to a device with a level that the device takes, where the design states which."""
    window = passage.device.device.input_level
    if window is None:
        yield DoesNotApply("it states no level that it takes")
        return
    inputs = dict.fromkeys(leg.one.name for leg in passage.legs)
    found = list(_levels(passage, context, inputs, is_through=False))
    yield from _verdict(passage, window.low, window.high, found, context)


def amplifier_output(passage: Passage, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """Each carrier leaves a device with no more than the device can put out, where the design states how much."""
    rating, taken = passage.device.device.output_level, passage.device.device.input_level
    if rating is None:
        yield DoesNotApply("it states no level that it can put out")
        return
    inputs = _levels(passage, context, dict.fromkeys(leg.one.name for leg in passage.legs), is_through=False)
    if taken is not None and any(one.is_certain and not one.is_low for one in _beyond(None, taken.high, list(inputs))):
        yield DoesNotApply("its input is too strong, which the rule of its input tells")
        return
    outputs = dict.fromkeys(leg.other.name for leg in passage.legs)
    yield from _verdict(passage, None, rating.high, list(_levels(passage, context, outputs, is_through=True)), context)


def _levels(passage: Passage, context: CheckContext, ports: dict[str, None], *, is_through: bool) -> Iterator[Outlet]:
    """What comes to ports of a device: from outside, or through itself."""
    node, tag = passage.device, passage.service.tag
    losses = context.analysis.losses(tag, "down")
    for arrival in losses.signal.ports_of(node.tag):
        if arrival.port.name in ports and arrival.is_through == is_through:
            yield outlet_readings(passage.service, node, (arrival,), losses)


def _beyond(low: Level | None, high: Level, found: list[Outlet]) -> Iterator[_Beyond]:
    for at in found:
        for reading in at.readings:
            level = reading.level_dbmv
            if not isinstance(level, LossRange):
                continue
            if low is not None and not at_least(level.low, low.level_dbmv):
                certain = not at_least(level.high, low.level_dbmv)
                yield _Beyond(reading.index, reading.freq_hz, level, low, True, certain, at)
            if not at_most(level.high, high.level_dbmv):
                certain = not at_most(level.low, high.level_dbmv)
                yield _Beyond(reading.index, reading.freq_hz, level, high, False, certain, at)


def _verdict(
    passage: Passage, low: Level | None, high: Level, found: list[Outlet], context: CheckContext
) -> Iterator[NotMet | CannotJudge]:
    beyond = list(_beyond(low, high, found))
    certain = [one for one in beyond if one.is_certain]
    unknown = [r.level_dbmv for at in found for r in at.readings if isinstance(r.level_dbmv, Unknown)]
    if certain:
        yield _not_met(passage, max(certain, key=lambda one: one.missing_db), context)
    elif unknown:
        yield CannotJudge(unknown[0])
    elif beyond:
        worst = max(beyond, key=lambda one: (one.level.high - one.level.low, one.freq_hz))
        band = f"{level_text(worst.level.low, worst.edge)} to {level_text(worst.level.high, worst.edge)}"
        cause = (
            f"{passage.service.tag} has {band} at {passage.device.tag} at {frequency(worst.freq_hz)}, which straddles "
            f"{worst.edge.text}; a measured level there would settle it"
        )
        yield CannotJudge(Unknown(cause, passage.device.path))


def _not_met(passage: Passage, worst: _Beyond, context: CheckContext) -> NotMet:
    node, edge = passage.device, worst.edge
    low, high = (level_text(value, edge) for value in (worst.level.low, worst.level.high))
    values = {
        "device": node.tag,
        "kind": article(kind_of(node.device)),
        "service": passage.service.tag,
        "level": level_text(worst.usual_dbmv, edge, edge.level_dbmv),
        "band": f"{low} to {high}",
        "frequency": frequency(worst.freq_hz),
        "edge": edge.text,
        "missing": decibels(worst.missing_db),
        "together": _together(passage.service, worst),
    }
    if not worst.is_low:
        values["pad"] = f"{pad_db(worst.missing_db, context.network.catalogue):g} dB"
        return NotMet("strong", node.path, values, at_key=True, excess=worst.missing_db)
    mending = larger_class(worst.at.chain, worst.freq_hz, worst.missing_db, context.network.catalogue)
    if mending is None:
        values["start"] = passage.service.service.from_
        return NotMet("weak", node.path, values, at_key=True, excess=worst.missing_db)
    values |= {"cable": mending.cable.tag, "class": mending.cable_class.name, "gain": decibels(mending.gain_db)}
    return NotMet("weak, larger class", node.path, values, at_key=True, excess=worst.missing_db)


def _together(service: ServiceNode, worst: _Beyond) -> str:
    """What all carriers are together, where their number is stated: 10 log N above one. Source: textbook identity."""
    carriers = service.service.down.carriers if service.service.down is not None else None
    if carriers is None or carriers < 2:
        return ""
    return f", {level_text(worst.usual_dbmv + 10 * log10(carriers), worst.edge)} in all of {carriers} alike"


READS = (
    "services.*.from",
    "services.*.kind",
    "services.*.down",
    "services.*.channels",
    "services.*.at outlets",
    "devices.*.serves",
    "devices.*.kind",
    "devices.*.gain",
    "devices.*.loss",
    "devices.*.input level",
    "cables.*.type",
    "cables.*.route",
    "cables.*.length",
    "places.*.temperature",
)
_LEVEL = ("device", "kind", "service", "level", "band", "frequency", "edge", "missing", "together")

CHECKS = (
    Check(
        name="amplifier-input",
        each=PASSAGE,
        judge=amplifier_input,
        applies_to=those(lambda passage: passage.device.device.input_level is not None),
        cases={
            "strong": (*_LEVEL, "pad"),
            "weak": (*_LEVEL, "start"),
            "weak, larger class": (*_LEVEL, "cable", "class", "gain"),
        },
        reads=(*READS, "services.*.down.carriers"),
    ),
    Check(
        name="amplifier-output",
        each=PASSAGE,
        judge=amplifier_output,
        applies_to=those(lambda passage: passage.device.device.output_level is not None),
        cases={"strong": (*_LEVEL, "pad")},
        reads=(*READS, "services.*.down.carriers", "devices.*.output level"),
    ),
)
