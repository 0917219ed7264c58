"""Does every outlet get the level it needs, and can its modem answer?"""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.analysis import LossRange, Outlet
from coaxwright.analysis.remedies import larger_class, largest_losses, pad_db, place_of_amplifier, whole_decibels
from coaxwright.checks.contract import CannotJudge, Check, CheckContext, DoesNotApply, NotMet, Verdict
from coaxwright.checks.limits import LimitKind, Limits
from coaxwright.checks.phrasing import decibels, frequency, level_text, listed
from coaxwright.checks.selectors import OUTLET_AND_SERVICE, WantedAt
from coaxwright.design.quantities import Decibels, Level, LevelRange
from coaxwright.frozen_value import frozen_value
from coaxwright.network import DeviceNode, ServiceNode, Unknown
from coaxwright.physics.comparison import at_least, at_most
from coaxwright.source import Path

_CHANNEL_HZ = 6e6
"""A level measured so near to a frequency holds for it. Source: common practice, no source; the width of a channel."""


@frozen_value
class _Out:
    """A level that is, or may be, outside its window at one frequency."""

    index: int
    freq_hz: float
    level: LossRange
    window: LevelRange
    is_low: bool
    missing_db: float
    """From the usual level at the worst temperature to the window; below zero where only the spread reaches out."""
    is_certain: bool

    @property
    def usual_dbmv(self) -> float:
        """The usual level at the temperature that is worse here."""
        return self.level.hot if self.is_low else self.level.cold

    @property
    def edge(self) -> Level:
        """The edge of the window that it misses."""
        return self.window.low if self.is_low else self.window.high


def outlet_window(wanted: WantedAt, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """The level of a service at an outlet lies in its window at every frequency, cold and hot."""
    service = wanted.service
    outlet = context.analysis.outlet(service.tag, wanted.device.tag)
    if not _is_levelled(service, limits):
        yield DoesNotApply(f"no window is set for {service.service.kind}")
        return
    if outlet is None or not outlet.readings:
        if not service.grid_hz("down") and context.network.survey.comes_to(service.tag, wanted.device):
            cause = f"{service.tag} states neither a band nor channels"
            yield CannotJudge(Unknown(cause, ("services", service.tag, "down")))
        else:
            yield DoesNotApply("no frequency of it comes here, which other rules tell")
        return
    assumed = limits.level("usual hand-off", service.service.kind)
    is_assumed = False
    unknown: Unknown | None = None
    outs: list[_Out] = []
    for reading in outlet.readings:
        level = reading.level_dbmv
        window = window_at(service, reading.freq_hz, limits, wanted.device)
        if window is None:
            if not _between_channels(service, reading.freq_hz):
                unknown = unknown or _no_standard(service, reading.freq_hz)
            continue
        measured_dbmv = _measured_dbmv(wanted.device, reading.freq_hz)
        if measured_dbmv is not None:
            level = LossRange.exactly(measured_dbmv)
        elif isinstance(level, Unknown) and assumed is not None and isinstance(reading.loss_db, LossRange):
            level, is_assumed = LossRange.exactly(assumed.level_dbmv).less(reading.loss_db), True
        if isinstance(level, Unknown):
            unknown = unknown or level
        else:
            outs += _outside(reading.index, reading.freq_hz, level, window)
    certain = [out for out in outs if out.is_certain]
    if certain:
        worst = max(certain, key=lambda out: out.missing_db)
        yield _not_met(wanted, outlet, worst, assumed if is_assumed else None, context)
    elif unknown is not None:
        yield CannotJudge(unknown)
    elif outs:
        yield CannotJudge(_straddles(wanted, outlet, max(outs, key=lambda out: out.missing_db)))


def _is_levelled(service: ServiceNode, limits: Limits) -> bool:
    """Whether a window is set for its kind, or for the standard of one of its channels."""
    keys = {key for (key,) in limits.keys("window")}
    said = service.service.at_outlets
    channels = service.service.channels or ()
    by_standard = service.service.kind == "terrestrial TV" and bool(keys & {"DVB-T", "8VSB"})
    if said is not None and said.level is not None and service.service.kind in {*keys, "terrestrial TV"}:
        return service.service.kind in keys or by_standard
    return service.service.kind in keys or by_standard or any(channel.standard in keys for channel in channels)


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
            return limits.level_range("window", channel.standard)
    return limits.level_range("window", service.service.kind)


def _between_channels(service: ServiceNode, freq_hz: float) -> bool:
    """Whether a frequency, such as the edge of the band, is that of no channel, though the channels are stated."""
    channels = service.service.channels or ()
    return bool(channels) and all(channel.frequency.freq_hz != freq_hz for channel in channels)


def _no_standard(service: ServiceNode, freq_hz: float) -> Unknown:
    for index, channel in enumerate(service.service.channels or ()):
        if channel.frequency.freq_hz == freq_hz:
            at = ("services", service.tag, "channels", index, "standard")
            return Unknown(f"channel {channel.name} of {service.tag} states no standard", at)
    return Unknown(f"no window is known for {service.tag}", ("services", service.tag, "at outlets"))


def _outside(index: int, freq_hz: float, level: LossRange, window: LevelRange) -> Iterator[_Out]:
    low_dbmv, high_dbmv = window.low.level_dbmv, window.high.level_dbmv
    if not at_least(level.low, low_dbmv):
        certain = not at_least(level.high, low_dbmv)
        yield _Out(index, freq_hz, level, window, True, low_dbmv - level.hot, certain)
    if not at_most(level.high, high_dbmv):
        certain = not at_most(level.low, high_dbmv)
        yield _Out(index, freq_hz, level, window, False, level.cold - high_dbmv, certain)


def _straddles(wanted: WantedAt, outlet: Outlet, out: _Out) -> Unknown:
    level, edge = out.level, out.edge
    low, high = (level_text(value, edge) for value in (level.low, level.high))
    at = frequency(out.freq_hz)
    cause = (
        f"{wanted.service.tag} comes to {wanted.device.tag} with {low} to {high} at {at}, which straddles {edge.text}; "
        "a level measured there, or the loss of a cable on the way, would settle it"
    )
    return Unknown(cause, _widest_cable(outlet, out.index))


def _measured_dbmv(device: DeviceNode, freq_hz: float) -> float | None:
    """The level that was measured at an outlet nearest to a frequency, within a channel of it."""
    near = [
        (abs(reading.level.frequency.freq_hz - freq_hz), reading.level.level.level_dbmv)
        for reading in device.device.readings or ()
        if reading.level is not None and abs(reading.level.frequency.freq_hz - freq_hz) <= _CHANNEL_HZ
    ]
    return min(near)[1] if near else None


def _widest_cable(outlet: Outlet, index: int) -> Path:
    """Where a measured loss tells most: at the cable whose loss is least sure, else at the outlet."""
    spreads = [
        (loss.high - loss.low, number, step.arrival.cable)
        for number, step in enumerate(outlet.chain)
        if step.arrival.cable is not None and isinstance(loss := step.losses[index], LossRange)
    ]
    return max(spreads)[2].path if spreads else outlet.device.path


def _not_met(wanted: WantedAt, outlet: Outlet, out: _Out, assumed: Level | None, context: CheckContext) -> NotMet:
    edge = out.edge
    low, high = (level_text(value, edge) for value in (out.level.low, out.level.high))
    losses = largest_losses(outlet.chain, out.index)
    values = {
        "outlet": wanted.device.tag,
        "service": wanted.service.tag,
        "level": level_text(out.usual_dbmv, edge, edge.level_dbmv),
        "band": f"{low} to {high}",
        "frequency": frequency(out.freq_hz),
        "window": out.window.text,
        "missing": decibels(abs(out.missing_db)),
        "losses": listed([f"{what} {decibels(loss_db)}" for what, loss_db in losses]) or "nothing",
        "assumed": "" if assumed is None else f", if {assumed.text} comes in, which is usual",
    }
    at, cites = wanted.device.path, _cites(wanted.service, out.freq_hz)
    if not out.is_low:
        values["pad"] = f"{pad_db(out.missing_db, context.network.catalogue):g} dB"
        return NotMet("high", at, values, at_key=True, cites=cites, excess=out.missing_db)
    mending = larger_class(outlet.chain, out.freq_hz, out.missing_db, context.network.catalogue)
    if mending is not None:
        values["cable"] = mending.cable.tag
        values["class"] = mending.cable_class.name
        values["gain"] = decibels(mending.gain_db)
        return NotMet("low, larger class", at, values, at_key=True, cites=cites, excess=out.missing_db)
    values["gain"] = f"{whole_decibels(out.missing_db)} dB"
    values["place"] = place_of_amplifier(outlet.chain) or wanted.device.tag
    return NotMet("low, amplifier", at, values, at_key=True, cites=cites, excess=out.missing_db)


def _cites(service: ServiceNode, freq_hz: float) -> tuple[tuple[str, ...], ...]:
    said = service.service.at_outlets
    if said is not None and said.level is not None:
        return ()
    standard = next(
        (c.standard for c in service.service.channels or () if c.frequency.freq_hz == freq_hz and c.standard), None
    )
    return (("window", standard or service.service.kind),)


def upstream_level(wanted: WantedAt, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """A modem reaches the level that is wanted at the hand-off with what it can send."""
    node = wanted.device
    is_answered = node in context.network.answering(wanted.service.tag)
    outlet = context.analysis.outlet(wanted.service.tag, node.tag, "up") if is_answered else None
    if outlet is None or not outlet.readings:
        yield DoesNotApply("nothing is sent from here")
        return
    said = node.device.output_level if node.device.kind == "cable modem" else None
    highest = said.high if said is not None else limits.level("highest")
    assert highest is not None
    unknown: Unknown | None = None
    worst: tuple[float, int, float, LossRange] | None = None
    straddle: tuple[float, float, int, LossRange] | None = None
    for reading in outlet.readings:
        needed = reading.level_dbmv
        if isinstance(needed, Unknown):
            unknown = unknown or needed
        elif not at_most(needed.low, highest.level_dbmv):
            over_db = needed.hot - highest.level_dbmv
            if worst is None or over_db > worst[0]:
                worst = (over_db, reading.index, reading.freq_hz, needed)
        elif not at_most(needed.high, highest.level_dbmv):
            straddle = max(straddle or (-1e9, 0.0, 0, needed), (needed.hot, reading.freq_hz, reading.index, needed))
    if worst is not None:
        over_db, index, freq_hz, needed = worst
        values = {
            "outlet": node.tag,
            "service": wanted.service.tag,
            "needed": level_text(needed.hot, highest, highest.level_dbmv),
            "highest": highest.text,
            "frequency": frequency(freq_hz),
            "over": decibels(over_db),
            "losses": listed([f"{what} {decibels(loss)}" for what, loss in largest_losses(outlet.chain, index)]),
        }
        cites = () if said is not None else (("highest",),)
        yield NotMet("high", node.path, values, at_key=True, cites=cites, excess=over_db)
    elif unknown is not None:
        yield CannotJudge(unknown)
    elif straddle is not None:
        _, freq_hz, index, needed = straddle
        low, high = (level_text(value, highest) for value in (needed.low, needed.high))
        cause = f"{node.tag} has to send {low} to {high} at {frequency(freq_hz)}, which straddles {highest.text}"
        yield CannotJudge(Unknown(cause, _widest_cable(outlet, index)))


def tilt(wanted: WantedAt, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """The level of a service at an outlet differs no more across its band than its receivers bear.

    By what was measured there, where that is two frequencies of the band or more.
    """
    service = wanted.service
    said = service.service.at_outlets
    most = said.tilt if said is not None and said.tilt is not None else limits.decibels("most", service.service.kind)
    outlet = context.analysis.outlet(service.tag, wanted.device.tag)
    if most is None or outlet is None or len(outlet.readings) < 2:
        yield DoesNotApply(f"no slope is limited for {service.service.kind}")
        return
    measured = [(r.freq_hz, _measured_dbmv(wanted.device, r.freq_hz)) for r in outlet.readings]
    found = [(freq_hz, LossRange.exactly(level)) for freq_hz, level in measured if level is not None]
    known = found if len(found) > 1 else outlet.known
    unknown = next((r.level_dbmv for r in outlet.readings if isinstance(r.level_dbmv, Unknown)), None)
    if unknown is not None and known is not found:
        yield CannotJudge(unknown)
        return
    weakest = limits.level("judged above", service.service.kind)
    if weakest is not None and any(not at_least(level.hot, weakest.level_dbmv) for _, level in known):
        yield DoesNotApply("its level is too low at one end, which the rule of its window tells")
        return
    high_hz, highest = max(known, key=lambda one: one[1].hot)
    low_hz, lowest = min(known, key=lambda one: one[1].hot)
    slope_db = highest.hot - lowest.hot
    if at_most(slope_db, most.ratio_db):
        return
    values = {
        "outlet": wanted.device.tag,
        "service": service.tag,
        "slope": decibels(slope_db, most.ratio_db),
        "most": most.text,
        "high": frequency(high_hz),
        "low": frequency(low_hz),
        "equaliser": f"{whole_decibels(slope_db - most.ratio_db)} dB",
    }
    cites = () if said is not None and said.tilt is not None else (("most", service.service.kind),)
    yield NotMet("steep", wanted.device.path, values, at_key=True, cites=cites, excess=slope_db - most.ratio_db)


_WHERE = ("outlet", "service", "frequency")
_LEVEL = (*_WHERE, "level", "band", "window", "missing", "losses", "assumed")
_READS = (
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
    "devices.*.readings",
    "cables.*.type",
    "cables.*.route",
    "cables.*.length",
    "places.*.temperature",
)

CHECKS = (
    Check(
        name="outlet-window",
        each=OUTLET_AND_SERVICE,
        judge=outlet_window,
        cases={
            "low, larger class": (*_LEVEL, "cable", "class", "gain"),
            "low, amplifier": (*_LEVEL, "gain", "place"),
            "high": (*_LEVEL, "pad"),
        },
        reads=_READS,
        limits={
            "window": LimitKind(LevelRange, by=("signal",)),
            "usual hand-off": LimitKind(Level, by=("service",)),
        },
    ),
    Check(
        name="upstream-level",
        each=OUTLET_AND_SERVICE,
        judge=upstream_level,
        cases={"high": (*_WHERE, "needed", "highest", "over", "losses")},
        reads=(*_READS, "services.*.up", "devices.*.output level"),
        limits={"highest": LimitKind(Level)},
    ),
    Check(
        name="tilt",
        each=OUTLET_AND_SERVICE,
        judge=tilt,
        cases={"steep": ("outlet", "service", "slope", "most", "high", "low", "equaliser")},
        reads=_READS,
        limits={
            "most": LimitKind(Decibels, by=("service",)),
            "judged above": LimitKind(Level, by=("service",)),
        },
    ),
)
