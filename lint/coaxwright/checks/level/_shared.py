"""What several checks of levels ask: windows, readings, carriers at the ports of a device, outlets that are parted."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from math import log10

from coaxwright.analysis import LossRange, Outlet
from coaxwright.analysis.isolation import Isolations, OutletIsolation
from coaxwright.analysis.levels import outlet_readings
from coaxwright.analysis.remedies import larger_class, pad_db
from coaxwright.checks.contract import CannotJudge, CheckContext, DoesNotApply, NotMet, Verdict
from coaxwright.checks.limits import LimitKind, Limits
from coaxwright.design.quantities import Decibels, Level, LevelRange
from coaxwright.design.value_types import COUNT, DECIBELS, FREQUENCY, LEVEL, QUANTITY, TAG, WORD, Derived, optional
from coaxwright.design.value_types import Values as ValueTypes
from coaxwright.frozen_value import frozen_value
from coaxwright.network import DeviceNode, ServiceNode, Unknown
from coaxwright.network.device_passages import Passage
from coaxwright.network.devices import kind_of
from coaxwright.physics.comparison import at_least, at_most

_CHANNEL_HZ = 6e6
"""A level measured so near to a frequency holds for it. Source: common practice, no source; the width of a channel."""


def window_at(
    service: ServiceNode, freq_hz: float, limits: Limits, device: DeviceNode | None = None
) -> LevelRange | None:
    """What the design says of the receiver or the service, else the window of the channel's standard or the kind."""
    if device is not None and device.device.input_level is not None:
        return device.device.input_level
    said = service.service.at_outlets
    if said is not None and said.level is not None:
        return said.level
    for channel in service.service.channels or ():
        if channel.frequency.freq_hz == freq_hz and channel.standard is not None:
            return limits.row(LevelRange, "window", channel.standard)
    return limits.row(LevelRange, "window", service.service.kind)


def measured_dbmv(device: DeviceNode, freq_hz: float) -> float | None:
    """The level that was measured at an outlet nearest to a frequency, within a channel of it."""
    near = [
        (abs(reading.level.frequency.freq_hz - freq_hz), reading.level.level.level_dbmv)
        for reading in device.device.readings or ()
        if reading.level is not None and abs(reading.level.frequency.freq_hz - freq_hz) <= _CHANNEL_HZ
    ]
    return min(near)[1] if near else None


CARRIER: ValueTypes = {
    "device": TAG,
    "kind": WORD,
    "service": TAG,
    "level": LEVEL,
    "low": LEVEL,
    "high": LEVEL,
    "frequency": FREQUENCY,
    "edge": LEVEL,
    "missing": DECIBELS,
    "sum": optional(LEVEL),
    "carriers": optional(COUNT),
}
"""The level of the worst carrier at a device, and that of all of them together where their number is stated."""
TOO_STRONG: ValueTypes = {**CARRIER, "pad": DECIBELS}
STRADDLES: ValueTypes = {
    "service": TAG,
    "device": TAG,
    "low": LEVEL,
    "high": LEVEL,
    "frequency": FREQUENCY,
    "edge": LEVEL,
}
FORMER_OF_CARRIERS: Mapping[str, str] = {
    "band": "{low} to {high}",
    "together": "[, {sum} in all of {carriers} alike]",
}


@frozen_value
class Beyond:
    """A level of one carrier beyond what a device is made for, or perhaps beyond it."""

    freq_hz: float
    level: LossRange
    edge: Level
    is_low: bool
    is_certain: bool
    at: Outlet

    @property
    def usual_dbmv(self) -> float:
        """The usual level at the temperature that is worse here."""
        return self.level.hot if self.is_low else self.level.cold

    @property
    def missing_db(self) -> float:
        """From the usual level to the edge."""
        return abs(self.usual_dbmv - self.edge.level_dbmv)


def at_inputs(passage: Passage, context: CheckContext) -> list[Outlet]:
    """What comes to the inputs of a device from outside."""
    inputs = {leg.one.name for leg in passage.legs}
    return list(_levels(passage, context, inputs, is_through=False))


def at_outputs(passage: Passage, context: CheckContext) -> list[Outlet]:
    """What comes to the outputs of a device through itself."""
    outputs = {leg.other.name for leg in passage.legs}
    return list(_levels(passage, context, outputs, is_through=True))


def _levels(passage: Passage, context: CheckContext, ports: set[str], *, is_through: bool) -> Iterator[Outlet]:
    losses = context.analysis.losses(passage.service.tag, "down")
    for arrival in losses.signal.ports_of(passage.device.tag):
        if arrival.port.name in ports and arrival.is_through == is_through:
            yield outlet_readings(passage.service, passage.device, (arrival,), losses)


def beyond(low: Level | None, high: Level, found: Iterable[Outlet]) -> Iterator[Beyond]:
    """The levels that are, or may be, below or above the edges of what a device is made for."""
    for at in found:
        for reading in at.readings:
            level = reading.level_dbmv
            if not isinstance(level, LossRange):
                continue
            if low is not None and not at_least(level.low, low.level_dbmv):
                is_certain = not at_least(level.high, low.level_dbmv)
                yield Beyond(reading.freq_hz, level, low, True, is_certain, at)
            if not at_most(level.high, high.level_dbmv):
                is_certain = not at_most(level.low, high.level_dbmv)
                yield Beyond(reading.freq_hz, level, high, False, is_certain, at)


def carrier_verdicts(
    passage: Passage, low: Level | None, high: Level, found: list[Outlet], context: CheckContext
) -> Iterator[NotMet | CannotJudge]:
    """The worst carrier that is sure to be beyond an edge; else what is not known; else what may be beyond."""
    node = passage.device
    outside = list(beyond(low, high, found))
    certain = [carrier for carrier in outside if carrier.is_certain]
    unknown = [r.level_dbmv for at in found for r in at.readings if isinstance(r.level_dbmv, Unknown)]
    if certain:
        yield _not_met(passage, max(certain, key=lambda carrier: carrier.missing_db), context)
    elif unknown:
        yield CannotJudge(unknown[0])
    elif outside:
        widest = max(outside, key=lambda carrier: (carrier.level.high - carrier.level.low, carrier.freq_hz))
        values = {"service": passage.service.tag, "device": node.tag, **_range(widest)}
        yield CannotJudge(Unknown("straddles", node.path, values))


def _range(carrier: Beyond) -> dict[str, object]:
    edge = carrier.edge
    low, high = Derived(carrier.level.low, edge), Derived(carrier.level.high, edge)
    return {"low": low, "high": high, "frequency": carrier.freq_hz, "edge": edge}


def _not_met(passage: Passage, worst: Beyond, context: CheckContext) -> NotMet:
    node, catalogue, missing_db = passage.device, context.network.catalogue, worst.missing_db
    values: dict[str, object] = {
        "device": node.tag,
        "kind": kind_of(node.device),
        "service": passage.service.tag,
        "level": Derived(worst.usual_dbmv, worst.edge),
        "missing": missing_db,
        **_range(worst),
        **_together(passage.service, worst),
    }
    if not worst.is_low:
        values["pad"] = pad_db(missing_db, catalogue)
        return NotMet("strong", node.path, values, at_key=True, excess=missing_db)
    mending = larger_class(worst.at.chain, worst.freq_hz, missing_db, catalogue)
    if mending is None:
        values["start"] = passage.service.service.from_
        return NotMet("weak", node.path, values, at_key=True, excess=missing_db)
    values |= {"cable": mending.cable.tag, "class": mending.cable_class.name, "gain": mending.gain_db}
    return NotMet("weak, larger class", node.path, values, at_key=True, excess=missing_db)


def _together(service: ServiceNode, worst: Beyond) -> dict[str, object]:
    """What all carriers are together, where their number is stated: 10 log N above one. Source: textbook identity."""
    carriers = service.service.down.carriers if service.service.down is not None else None
    if carriers is None or carriers < 2:
        return {}
    return {"sum": Derived(worst.usual_dbmv + 10 * log10(carriers), worst.edge), "carriers": carriers}


_DIVIDING = frozenset(("splitter", "tap", "directional coupler", "drop amplifier", "outlet"))
"""Kinds whose outputs data sheets keep apart by so much; those of a multiswitch are switched, each on its own."""
PARTED: ValueTypes = {
    "device": TAG,
    "service": TAG,
    "one": TAG,
    "other": TAG,
    "isolation": DECIBELS,
    "frequency": FREQUENCY,
    "least": QUANTITY,
    "missing": DECIBELS,
}
LEAST_ISOLATION: Mapping[str, LimitKind] = {"least": LimitKind(Decibels, by=("service",))}


def isolation_verdicts(
    passage: Passage,
    context: CheckContext,
    limits: Limits,
    parted: Callable[[Isolations, Passage], Iterator[OutletIsolation | Unknown]],
) -> Iterator[Verdict]:
    """By the usual figures, as isolation is published; the worst pair of outlets is named."""
    kind = passage.service.service.kind
    least = limits.row(Decibels, "least", kind)
    if least is None or passage.device.device.kind not in _DIVIDING or len(passage.legs) < 2:
        yield DoesNotApply("nothing divided")
        return
    found = list(parted(context.analysis.isolations(passage.service.tag), passage))
    pairs = [pair for pair in found if isinstance(pair, OutletIsolation)]
    near = [pair for pair in pairs if not at_least(pair.isolation_db, least.ratio_db)]
    certain = [pair for pair in near if pair.missing is None]
    unknown = next((pair for pair in found if isinstance(pair, Unknown)), None)
    missing = unknown or next((pair.missing for pair in near), None)
    if certain:
        worst = min(certain, key=lambda pair: pair.isolation_db)
        missing_db = least.ratio_db - worst.isolation_db
        values = {
            "device": passage.device.tag,
            "service": passage.service.tag,
            "one": worst.one.tag,
            "other": worst.other.tag,
            "isolation": worst.isolation_db,
            "frequency": worst.freq_hz,
            "least": least,
            "missing": missing_db,
        }
        yield NotMet("close", passage.device.path, values, at_key=True, cites=(("least", kind),), excess=missing_db)
    elif missing is not None:
        yield CannotJudge(missing)
    elif not pairs:
        yield DoesNotApply("none parted")
