"""Gather what the forms show: for each service and direction its outlets, their levels, windows, losses and runs."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from math import sqrt

from coaxwright.analysis import Analysis, Figures, Outlet
from coaxwright.analysis.longest import LongestRuns, longest_runs
from coaxwright.checks.levels import window_at
from coaxwright.design.quantities import Level, LevelRange
from coaxwright.plant import Direction, OwnFigures, ServiceNode, Unknown, own_figures
from coaxwright.rules import Rule

WINDOW_RULES = ("level.outlet-window", "satellite.if-level")
RETURN_RULE = "return.upstream-level"
DIRECTIONS: tuple[Direction, ...] = ("down", "up")


@dataclass(frozen=True, slots=True)
class Point:
    """One service at one outlet and frequency."""

    freq_hz: float
    loss_db: Figures | None
    level_dbmv: Figures | None
    """At the outlet; upstream what the modem has to send."""
    unknown: str
    """Why there is no level."""
    low_dbmv: float | None
    high_dbmv: float | None
    """The window; upstream only what the modem can send at most."""

    @property
    def spare_db(self) -> float | None:
        """How far the usual level stays inside the window on the coldest and hottest day; below zero outside."""
        level = self.level_dbmv
        if level is None:
            return None
        up = [] if self.high_dbmv is None else [self.high_dbmv - max(level.cold, level.hot)]
        down = [] if self.low_dbmv is None else [min(level.cold, level.hot) - self.low_dbmv]
        return min((*up, *down), default=None)


@dataclass(frozen=True, slots=True)
class ChainStep:
    """A cable or device on the way, with its usual loss [dB] at each frequency of the outlet's points."""

    what: str
    kind: str
    is_cable: bool
    losses_db: tuple[float | None, ...]


@dataclass(frozen=True, slots=True)
class OutletRow:
    """One outlet of a service."""

    tag: str
    kind: str
    place: str
    points: tuple[Point, ...]
    missed_hz: tuple[float, ...]
    chain: tuple[ChainStep, ...]
    longest: LongestRuns | None

    @property
    def tightest(self) -> Point | None:
        """The point with the least to spare."""
        known = [point for point in self.points if point.spare_db is not None]
        return min(known, key=lambda point: (point.spare_db or 0.0, point.freq_hz), default=None)


@dataclass(frozen=True, slots=True)
class ServiceLevels:
    """A service in one direction."""

    tag: str
    kind: str
    direction: Direction
    start: str
    handoff: str
    """What is stated of its level where it comes in."""
    window: str
    source: str
    unit: Level
    """A level in the unit that the author or the window uses."""
    grid_hz: tuple[float, ...]
    outlets: tuple[OutletRow, ...]


@dataclass(frozen=True, slots=True)
class SiteLevels:
    """All levels of one design."""

    file: str
    title: str
    sheet: str
    revision: str
    rulesets: tuple[str, ...]
    suppositions: tuple[str, ...]
    own_figures: tuple[OwnFigures, ...]
    """What is computed from figures of the author's own."""
    services: tuple[ServiceLevels, ...]


def site_levels(
    file: str,
    analysis: Analysis,
    rulesets: tuple[str, ...],
    rules: Mapping[str, Rule],
    *,
    only: Sequence[str] = (),
    suppositions: tuple[str, ...] = (),
    between: int = 0,
) -> SiteLevels:
    """The levels of a design.

    ``only`` names services, or none for all; ``between`` is how many frequencies to add between the edges of a band.
    """
    plant = analysis.plant
    design = plant.design
    own = own_figures(plant.catalogue, plant.cables.values(), plant.devices.values())
    return SiteLevels(
        file=file,
        title=design.title,
        sheet=design.sheet or "",
        revision=design.revision or "",
        rulesets=rulesets,
        suppositions=suppositions,
        own_figures=tuple(one for one in own if one.used_by),
        services=tuple(_services(analysis, rules, only, between)),
    )


def _services(
    analysis: Analysis, rules: Mapping[str, Rule], only: Sequence[str], between: int
) -> Iterator[ServiceLevels]:
    for tag, node in analysis.plant.services.items():
        if node.service.kind == "camera video" or (only and tag not in only):
            continue
        for direction in DIRECTIONS:
            if node.grid_hz(direction) and analysis.plant.outlets_of(tag):
                yield _service(node, direction, analysis, rules, _grid_hz(node, direction, between))


def _grid_hz(node: ServiceNode, direction: Direction, between: int) -> tuple[float, ...]:
    """The frequencies that the service states, with more between the edges of its band, even on the root scale."""
    stated = node.grid_hz(direction)
    stream = node.service.down if direction == "down" else node.service.up
    if stream is None or not between:
        return stated
    low, high = sqrt(stream.band.low_hz), sqrt(stream.band.high_hz)
    more = ((low + (high - low) * step / (between + 1)) ** 2 for step in range(1, between + 1))
    return tuple(sorted({*stated, *more}))


def _service(
    node: ServiceNode, direction: Direction, analysis: Analysis, rules: Mapping[str, Rule], grid_hz: tuple[float, ...]
) -> ServiceLevels:
    stream = node.service.down if direction == "down" else node.service.up
    stated = [point.text for point in stream.level or ()] if stream is not None else []
    if direction == "up" and stream is not None and stream.wanted is not None:
        stated = [f"{stream.wanted.text} wanted at the hand-off"]
    outlets = analysis.outlets(node.tag, direction, grid_hz)
    rows = tuple(_row(node, direction, outlet, analysis, rules) for outlet in outlets)
    window, source = _window_words(node, direction, rules)
    return ServiceLevels(
        tag=node.tag,
        kind=node.service.kind,
        direction=direction,
        start=node.service.from_,
        handoff=", ".join(stated),
        window=window.text if window is not None else "",
        source=source,
        unit=_unit(node, direction, window),
        grid_hz=grid_hz,
        outlets=rows,
    )


def _row(
    node: ServiceNode, direction: Direction, outlet: Outlet, analysis: Analysis, rules: Mapping[str, Rule]
) -> OutletRow:
    points: list[Point] = []
    lowest: list[float | None] = []
    for reading in outlet.readings:
        low, high = _limits_dbmv(node, direction, outlet, reading.freq_hz, rules)
        level = reading.level_dbmv
        loss = reading.loss_db
        points.append(
            Point(
                reading.freq_hz,
                loss if isinstance(loss, Figures) else None,
                level if isinstance(level, Figures) else None,
                level.cause if isinstance(level, Unknown) else "",
                low,
                high,
            )
        )
        lowest.append(low)
    place = outlet.device.place
    steps = []
    for step in outlet.chain:
        at = tuple(step.losses[reading.index] for reading in outlet.readings)
        cable, device = step.arrival.cable, step.arrival.device.device
        kind = cable.cable.type if cable is not None else device.model or device.kind
        steps.append(
            ChainStep(
                step.what, kind, step.is_cable, tuple(one.nominal if isinstance(one, Figures) else None for one in at)
            )
        )
    longest = longest_runs(outlet, lowest, analysis.plant.catalogue) if direction == "down" else None
    return OutletRow(
        tag=outlet.device.tag,
        kind=outlet.device.device.kind,
        place=place.tag if place is not None else "",
        points=tuple(points),
        missed_hz=outlet.missed_hz,
        chain=tuple(steps),
        longest=longest,
    )


def _limits_dbmv(
    node: ServiceNode, direction: Direction, outlet: Outlet, freq_hz: float, rules: Mapping[str, Rule]
) -> tuple[float | None, float | None]:
    if direction == "up":
        said = outlet.device.device.output_level
        rule = rules.get(RETURN_RULE)
        highest = said.high if said is not None else rule.limits.level("highest") if rule is not None else None
        return None, highest.level_dbmv if highest is not None else None
    window = _window(node, freq_hz, rules)
    return (None, None) if window is None else (window.low.level_dbmv, window.high.level_dbmv)


def _window(node: ServiceNode, freq_hz: float, rules: Mapping[str, Rule]) -> LevelRange | None:
    for name in WINDOW_RULES:
        found = window_at(node, freq_hz, rules[name].limits) if name in rules else None
        if found is not None:
            return found
    return None


def _window_words(
    node: ServiceNode, direction: Direction, rules: Mapping[str, Rule]
) -> tuple[LevelRange | Level | None, str]:
    """The window and where it is published; of several standards, that of the first channel."""
    if direction == "up":
        rule = rules.get(RETURN_RULE)
        limits = [limit for limit in rule.limits.all() if limit.name == "highest"] if rule is not None else []
        highest = rule.limits.level("highest") if rule is not None else None
        return highest, str(limits[0].source) if limits else ""
    said = node.service.at_outlets
    window = next((found for freq_hz in node.grid_hz(direction) if (found := _window(node, freq_hz, rules))), None)
    if window is None or (said is not None and said.level is window):
        return window, "stated by the design" if window is not None else ""
    for name in WINDOW_RULES:
        for limit in rules[name].limits.all() if name in rules else ():
            if limit.name == "window" and limit.value == window:
                return window, str(limit.source)
    return window, ""


def _unit(node: ServiceNode, direction: Direction, window: LevelRange | Level | None) -> Level:
    stream = node.service.down if direction == "down" else node.service.up
    if stream is not None and stream.level:
        return stream.level[0].level
    if stream is not None and stream.wanted is not None and direction == "up":
        return stream.wanted
    if isinstance(window, LevelRange):
        return window.high
    return window if window is not None else Level.parse("0 dBmV")
