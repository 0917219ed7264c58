"""The level of a service at an outlet lies in its window at every frequency, cold and hot.

low edge <= level <= high edge. The window is that of the receiver, else of the service, else of the standard of the
channel or the kind of service. A measured level stands for the computed one; where nobody says what comes in, the
usual level is taken. Source: the limit's own.
"""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.analysis import USUAL_LEVEL, LossRange, Outlet, Reading
from coaxwright.analysis.levels import least_sure_cable
from coaxwright.analysis.remedies import larger_class, largest_losses, pad_db, place_of_amplifier, whole_decibels
from coaxwright.checks.contract import CannotJudge, Check, CheckContext, DoesNotApply, NotMet, Verdict
from coaxwright.checks.level._shared import measured_dbmv, window_at
from coaxwright.checks.limits import LimitKind, Limits
from coaxwright.checks.selectors import OUTLET_AND_SERVICE, WantedAt
from coaxwright.design.quantities import Level, LevelRange
from coaxwright.design.value_types import (
    DECIBELS,
    FREQUENCY,
    LEVEL,
    QUANTITY,
    TAG,
    TEXT,
    WORD,
    Derived,
    Phrase,
    list_of,
    optional,
    phrase,
)
from coaxwright.design.value_types import Values as ValueTypes
from coaxwright.frozen_value import frozen_value
from coaxwright.network import ServiceNode, Unknown
from coaxwright.physics.comparison import at_least, at_most


def outlet_window(wanted: WantedAt, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """The level of a service at an outlet lies in its window at every frequency, cold and hot."""
    service = wanted.service
    outlet = context.analysis.outlet(service.tag, wanted.device.tag)
    if not _is_levelled(service, limits):
        yield DoesNotApply("no window", {"kind": service.service.kind})
        return
    if outlet is None or not outlet.readings:
        yield _of_no_frequency(wanted, context)
        return
    usual = limits.row(Level, USUAL_LEVEL, service.service.kind)
    by_usual: set[int] = set()
    unknown: Unknown | None = None
    misses: list[_Miss] = []
    for reading in outlet.readings:
        window = window_at(service, reading.freq_hz, limits, wanted.device)
        if window is None:
            if not _between_channels(service, reading.freq_hz):
                unknown = unknown or _no_standard(service, reading.freq_hz)
            continue
        level = _known_level(wanted, reading)
        if isinstance(level, Unknown) and usual is not None and isinstance(reading.loss_db, LossRange):
            level = LossRange.exactly(usual.level_dbmv).less(reading.loss_db)
            by_usual.add(reading.index)
        if isinstance(level, Unknown):
            unknown = unknown or level
        else:
            misses += _outside(reading, level, window)
    certain = [miss for miss in misses if miss.is_certain]
    if certain:
        worst = max(certain, key=lambda miss: miss.missing_db)
        yield _not_met(wanted, outlet, worst, usual if worst.index in by_usual else None, context)
    elif unknown is not None:
        yield CannotJudge(unknown)
    elif misses:
        yield CannotJudge(_straddles(wanted, outlet, max(misses, key=lambda miss: miss.missing_db)))


@frozen_value
class _Miss:
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

    @property
    def values(self) -> dict[str, object]:
        """What it can be, and where."""
        low, high = Derived(self.level.low, self.edge), Derived(self.level.high, self.edge)
        return {"low": low, "high": high, "frequency": self.freq_hz, "edge": self.edge}


def _is_levelled(service: ServiceNode, limits: Limits) -> bool:
    """Whether a window is set for its kind, or for the standard of one of its channels."""
    keys = {key for (key,) in limits.keys("window")}
    said = service.service.at_outlets
    channels = service.service.channels or ()
    by_standard = service.service.kind == "terrestrial TV" and bool(keys & {"DVB-T", "8VSB"})
    if said is not None and said.level is not None and service.service.kind in {*keys, "terrestrial TV"}:
        return service.service.kind in keys or by_standard
    return service.service.kind in keys or by_standard or any(channel.standard in keys for channel in channels)


def _of_no_frequency(wanted: WantedAt, context: CheckContext) -> CannotJudge | DoesNotApply:
    """Of a service that comes to an outlet at no frequency: it states none, or all of them are lost on the way."""
    service, network = wanted.service, context.network
    source = service.service.from_
    if source not in network.devices:
        return CannotJudge(Unknown("no such device", ("services", service.tag, "from"), {"written": source}))
    if not service.grid_hz("down") and network.survey.comes_to(service.tag, wanted.device):
        return CannotJudge(Unknown("no frequencies", ("services", service.tag, "down"), {"service": service.tag}))
    if network.survey.feeding.is_plugged_in(wanted.device, (service.tag,)):
        return DoesNotApply("plugged in")
    values = {"service": service.tag, "outlet": wanted.device.tag}
    return CannotJudge(Unknown("does not come", (*wanted.device.path, "serves"), values))


def _known_level(wanted: WantedAt, reading: Reading) -> LossRange | Unknown:
    """The level as it was measured, else as it is computed."""
    measured = measured_dbmv(wanted.device, reading.freq_hz)
    return reading.level_dbmv if measured is None else LossRange.exactly(measured)


def _between_channels(service: ServiceNode, freq_hz: float) -> bool:
    """Whether a frequency, such as the edge of the band, is that of no channel, though the channels are stated."""
    channels = service.service.channels or ()
    return bool(channels) and all(channel.frequency.freq_hz != freq_hz for channel in channels)


def _no_standard(service: ServiceNode, freq_hz: float) -> Unknown:
    for index, channel in enumerate(service.service.channels or ()):
        if channel.frequency.freq_hz == freq_hz:
            at = ("services", service.tag, "channels", index, "standard")
            return Unknown("no standard", at, {"channel": channel.name, "service": service.tag})
    return Unknown("window not known", ("services", service.tag, "at outlets"), {"service": service.tag})


def _outside(reading: Reading, level: LossRange, window: LevelRange) -> Iterator[_Miss]:
    low_dbmv, high_dbmv = window.low.level_dbmv, window.high.level_dbmv
    if not at_least(level.low, low_dbmv):
        is_certain = not at_least(level.high, low_dbmv)
        yield _Miss(reading.index, reading.freq_hz, level, window, True, low_dbmv - level.hot, is_certain)
    if not at_most(level.high, high_dbmv):
        is_certain = not at_most(level.low, high_dbmv)
        yield _Miss(reading.index, reading.freq_hz, level, window, False, level.cold - high_dbmv, is_certain)


def _straddles(wanted: WantedAt, outlet: Outlet, miss: _Miss) -> Unknown:
    values = {"service": wanted.service.tag, "outlet": wanted.device.tag, **miss.values}
    return Unknown("straddles", least_sure_cable(outlet, miss.index), values)


def _not_met(wanted: WantedAt, outlet: Outlet, miss: _Miss, usual: Level | None, context: CheckContext) -> NotMet:
    steps = largest_losses(outlet.chain, miss.index)
    losses = [Phrase("step", {"part": part, "loss": loss_db}) for part, loss_db in steps]
    values: dict[str, object] = {
        "outlet": wanted.device.tag,
        "service": wanted.service.tag,
        "level": Derived(miss.usual_dbmv, miss.edge),
        "window": miss.window,
        "missing": abs(miss.missing_db),
        "losses": losses or [Phrase("nothing")],
        "usual": usual,
        **miss.values,
    }
    at, cites, catalogue = wanted.device.path, _cites(wanted.service, miss.freq_hz), context.network.catalogue
    if not miss.is_low:
        values["pad"] = pad_db(miss.missing_db, catalogue)
        return NotMet("high", at, values, at_key=True, cites=cites, excess=miss.missing_db)
    mending = larger_class(outlet.chain, miss.freq_hz, miss.missing_db, catalogue)
    if mending is not None:
        values |= {"cable": mending.cable.tag, "class": mending.cable_class.name, "gain": mending.gain_db}
        return NotMet("low, larger class", at, values, at_key=True, cites=cites, excess=miss.missing_db)
    values["gain"] = whole_decibels(miss.missing_db)
    values["place"] = place_of_amplifier(outlet.chain) or wanted.device.tag
    return NotMet("low, amplifier", at, values, at_key=True, cites=cites, excess=miss.missing_db)


def _cites(service: ServiceNode, freq_hz: float) -> tuple[tuple[str, ...], ...]:
    said = service.service.at_outlets
    if said is not None and said.level is not None:
        return ()
    standard = next(
        (c.standard for c in service.service.channels or () if c.frequency.freq_hz == freq_hz and c.standard), None
    )
    return (("window", standard or service.service.kind),)


_RANGE: ValueTypes = {
    "outlet": TAG,
    "service": TAG,
    "frequency": FREQUENCY,
    "low": LEVEL,
    "high": LEVEL,
    "edge": LEVEL,
}
_LEVEL: ValueTypes = {
    **_RANGE,
    "level": LEVEL,
    "window": QUANTITY,
    "missing": DECIBELS,
    "losses": list_of(phrase(step={"part": TAG, "loss": DECIBELS}, nothing={})),
    "usual": optional(LEVEL),
}

CHECK = Check(
    name="level.outlet-window",
    each=OUTLET_AND_SERVICE,
    judge=outlet_window,
    cases={
        "low, larger class": {**_LEVEL, "cable": TAG, "class": WORD, "gain": DECIBELS},
        "low, amplifier": {**_LEVEL, "gain": DECIBELS, "place": TAG},
        "high": {**_LEVEL, "pad": DECIBELS},
    },
    cannot_judge={
        "no frequencies": {"service": TAG},
        "no standard": {"channel": TEXT, "service": TAG},
        "window not known": {"service": TAG},
        "does not come": {"service": TAG, "outlet": TAG},
        "straddles": _RANGE,
    },
    does_not_apply={"no window": {"kind": WORD}, "plugged in": {}},
    limits={
        "window": LimitKind(LevelRange, by=("signal",)),
        USUAL_LEVEL: LimitKind(Level, by=("service",)),
    },
    former_values={"band": "{low} to {high}", "assumed": "[, if {usual} comes in, which is usual]"},
)
