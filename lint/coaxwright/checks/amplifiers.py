"""Does every amplifier get and give what it is made for, and is it needed?"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from math import log10
from re import Match
from typing import ClassVar

from coaxwright.analysis import Figures, Outlet
from coaxwright.analysis.levels import outlet_readings
from coaxwright.analysis.remedies import larger_class, pad_db
from coaxwright.catalogue import DeviceEntry
from coaxwright.checks.contract import CannotJudge, Check, DoesNotApply, NotMet, Site, Verdict
from coaxwright.checks.levels import window_at
from coaxwright.checks.limits import LimitKind, Limits
from coaxwright.checks.phrasing import article, count, decibels, frequency, level_text, listed
from coaxwright.checks.selectors import DEVICE, PASSAGE
from coaxwright.design.quantities import Decibels, Level, LevelRange, Quantity
from coaxwright.physics.comparison import at_least, at_most
from coaxwright.plant import DeviceNode, ServiceNode, Unknown
from coaxwright.plant.devices import kind_of
from coaxwright.plant.passing import Passage
from coaxwright.plant.sharing import IN_HOME


class InSeries(Quantity):
    """How many of a kind may follow one another: ``2 in series``; ``number`` of them."""

    __slots__ = ("number",)
    NAME: ClassVar[str] = "number in series"
    EXAMPLES: ClassVar[tuple[str, ...]] = ("2 in series",)
    UNITS: ClassVar[tuple[str, ...]] = ("in series",)
    PATTERN: ClassVar[str] = "^[1-9][0-9]? in series$"

    number: int

    def _read(self, match: Match[str]) -> None:
        self.number = int(self.text.split()[0])


@dataclass(frozen=True, slots=True)
class _Beyond:
    """A level of one carrier beyond what a device is made for, or perhaps beyond it."""

    index: int
    freq_hz: float
    level: Figures
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


def amplifier_input(passage: Passage, site: Site, limits: Limits) -> Iterator[Verdict]:
    """Each carrier comes to a device with a level that the device takes, where the design states which."""
    window = passage.device.device.input_level
    if window is None:
        yield DoesNotApply("it states no level that it takes")
        return
    inputs = dict.fromkeys(leg.one.name for leg in passage.legs)
    found = list(_levels(passage, site, inputs, is_through=False))
    yield from _verdict(passage, window.low, window.high, found, site)


def amplifier_output(passage: Passage, site: Site, limits: Limits) -> Iterator[Verdict]:
    """Each carrier leaves a device with no more than the device can put out, where the design states how much."""
    rating, taken = passage.device.device.output_level, passage.device.device.input_level
    if rating is None:
        yield DoesNotApply("it states no level that it can put out")
        return
    inputs = _levels(passage, site, dict.fromkeys(leg.one.name for leg in passage.legs), is_through=False)
    if taken is not None and any(one.is_certain and not one.is_low for one in _beyond(None, taken.high, list(inputs))):
        yield DoesNotApply("its input is too strong, which the rule of its input tells")
        return
    outputs = dict.fromkeys(leg.other.name for leg in passage.legs)
    yield from _verdict(passage, None, rating.high, list(_levels(passage, site, outputs, is_through=True)), site)


def _levels(passage: Passage, site: Site, ports: dict[str, None], *, is_through: bool) -> Iterator[Outlet]:
    """What comes to ports of a device: from outside, or through itself."""
    node, tag = passage.device, passage.service.tag
    losses = site.analysis.losses(tag, "down")
    for arrival in losses.signal.ports_of(node.tag):
        if arrival.port.name in ports and arrival.is_through == is_through:
            yield outlet_readings(passage.service, node, arrival, losses)


def _beyond(low: Level | None, high: Level, found: list[Outlet]) -> Iterator[_Beyond]:
    for at in found:
        for reading in at.readings:
            level = reading.level_dbmv
            if not isinstance(level, Figures):
                continue
            if low is not None and not at_least(level.low, low.level_dbmv):
                certain = not at_least(level.high, low.level_dbmv)
                yield _Beyond(reading.index, reading.freq_hz, level, low, True, certain, at)
            if not at_most(level.high, high.level_dbmv):
                certain = not at_most(level.low, high.level_dbmv)
                yield _Beyond(reading.index, reading.freq_hz, level, high, False, certain, at)


def _verdict(
    passage: Passage, low: Level | None, high: Level, found: list[Outlet], site: Site
) -> Iterator[NotMet | CannotJudge]:
    beyond = list(_beyond(low, high, found))
    certain = [one for one in beyond if one.is_certain]
    unknown = [r.level_dbmv for at in found for r in at.readings if isinstance(r.level_dbmv, Unknown)]
    if certain:
        yield _not_met(passage, max(certain, key=lambda one: one.missing_db), site)
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


def _not_met(passage: Passage, worst: _Beyond, site: Site) -> NotMet:
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
        values["pad"] = f"{pad_db(worst.missing_db, site.plant.catalogue):g} dB"
        return NotMet("strong", node.path, values, at_key=True, excess=worst.missing_db)
    mending = larger_class(worst.at.chain, worst.freq_hz, worst.missing_db, site.plant.catalogue)
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


def amplifier_needless(node: DeviceNode, site: Site, limits: Limits) -> Iterator[Verdict]:
    """An amplifier in the building is needed, and does not follow too many others.

    Without it, with a splitter of as many outputs in its place, some outlet behind it would miss its window, or have
    little to spare. Quiet where a level behind it is not known. On the way back a splitter loses less than it does.
    """
    if node.device.kind != "drop amplifier":
        yield DoesNotApply("it is no amplifier in the building")
        return
    passed = [p for p in _passed(site) if p.device is node and any(leg.wanted for leg in p.legs)]
    if not passed:
        yield DoesNotApply("nothing that it amplifies is wanted behind it")
        return
    spare = limits.decibels("to spare")
    assert spare is not None
    outputs = node.device.outputs or 1
    splitter = site.plant.catalogue.device("splitter", ways=outputs) if outputs > 1 else None
    left = _least_left(node, passed, splitter, site, limits) if splitter is not None or outputs == 1 else None
    if left is not None and at_least(left.spare_db, spare.ratio_db):
        values = {
            "device": node.tag,
            "outlets": count(left.outlets, "outlet"),
            "left": f"{level_text(left.level_dbmv, left.edge)} at {left.outlet} at {frequency(left.freq_hz)}",
            "window": left.window.text,
            "spare": spare.text,
        }
        if outputs > 1:
            values["splitter"] = f"a {outputs}-way splitter"
        case = "nothing in its place" if outputs == 1 else "splitter in its place"
        yield NotMet(case, node.path, values, at_key=True)
        return
    yield from _in_series(node, passed, site, limits)


def _passed(site: Site) -> Iterator[Passage]:
    for tag, service in site.plant.services.items():
        if service.service.kind != IN_HOME:
            yield from site.plant.passages(tag)


@dataclass(frozen=True, slots=True)
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
    node: DeviceNode, passed: list[Passage], splitter: DeviceEntry | None, site: Site, limits: Limits
) -> _Left | None:
    """The outlet with the least to spare without an amplifier; None where something of it is not known."""
    least: list[tuple[float, float, Level, LevelRange, str, float]] = []
    outlets: set[str] = set()
    for passage in passed:
        for wanted in {device.tag: device for leg in passage.legs for device in leg.wanted}.values():
            outlet = site.analysis.outlet(passage.service.tag, wanted.tag)
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
    tightest = min(least, key=lambda one: (one[0], one[4], one[5]))
    return _Left(*tightest, len(outlets))


def _without(node: DeviceNode, outlet: Outlet, index: int, splitter: DeviceEntry | None) -> Figures | None:
    """The level at an outlet with a splitter, or nothing, in an amplifier's place."""
    reading = next(reading for reading in outlet.readings if reading.index == index)
    lost = reading.loss_db
    if not isinstance(lost, Figures) or not isinstance(reading.level_dbmv, Figures):
        return None
    start = Figures.exactly(reading.level_dbmv.nominal + lost.nominal)  # hand-offs have no spread of their own
    for step in outlet.chain:
        own = step.losses[index]
        if step.is_cable or step.arrival.device is not node or not isinstance(own, Figures):
            continue
        put = _splitter_figures(splitter, reading.freq_hz)
        if put is None:
            return None
        lost = Figures(*(whole - gone + new for whole, gone, new in zip(lost, own, put, strict=True)))
    return start.less(lost)


def _splitter_figures(splitter: DeviceEntry | None, freq_hz: float) -> Figures | None:
    """The loss [dB] of the output of a splitter that loses most; nothing where there is none."""
    if splitter is None:
        return Figures.exactly(0.0)
    losses = [
        loss
        for port in splitter.ports
        if port.group != "in" and (loss := splitter.loss("in", port.name, freq_hz)) is not None
    ]
    return Figures.spread(*max(losses, key=lambda loss: loss.nominal_db)) if losses else None


def _in_series(node: DeviceNode, passed: list[Passage], site: Site, limits: Limits) -> Iterator[NotMet]:
    """No more amplifiers follow one another than noise and tilt allow."""
    most = limits.quantity(InSeries, "most")
    assert most is not None
    for passage in passed:
        signal = site.plant.signal(passage.service.tag, "down")
        for arrival in signal.at(node.tag):
            ahead = list(
                dict.fromkeys(
                    step.device.tag
                    for step in arrival.way
                    if step.device.device.kind == "drop amplifier" and step.device is not node and step.is_through
                )
            )
            if len(ahead) + 1 > most.number:
                values = {"device": node.tag, "ahead": listed(ahead), "most": most.text, "first": ahead[0]}
                yield NotMet("in series", node.path, values, at_key=True)
                return


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
    "cables.*.type",
    "cables.*.route",
    "cables.*.length",
    "places.*.temperature",
)
_LEVEL = ("device", "kind", "service", "level", "band", "frequency", "edge", "missing", "together")
_SHORT = ("device", "outlets", "left", "window", "spare")

CHECKS = (
    Check(
        name="amplifier-input",
        each=PASSAGE,
        judge=amplifier_input,
        cases={
            "strong": (*_LEVEL, "pad"),
            "weak": (*_LEVEL, "start"),
            "weak, larger class": (*_LEVEL, "cable", "class", "gain"),
        },
        reads=(*_READS, "services.*.down.carriers"),
    ),
    Check(
        name="amplifier-output",
        each=PASSAGE,
        judge=amplifier_output,
        cases={"strong": (*_LEVEL, "pad")},
        reads=(*_READS, "services.*.down.carriers", "devices.*.output level"),
    ),
    Check(
        name="amplifier-needless",
        each=DEVICE,
        judge=amplifier_needless,
        cases={
            "nothing in its place": _SHORT,
            "splitter in its place": (*_SHORT, "splitter"),
            "in series": ("device", "ahead", "most", "first"),
        },
        reads=(*_READS, "devices.*.outputs"),
        limits={
            "window": LimitKind(LevelRange, by=("signal",)),
            "to spare": LimitKind(Decibels),
            "most": LimitKind(InSeries),
        },
    ),
)
