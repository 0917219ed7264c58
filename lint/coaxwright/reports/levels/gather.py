"""Gather what the forms show: for each service and direction its outlets, their levels, windows, losses and runs."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from functools import partial
from math import sqrt
from types import MappingProxyType

from coaxwright.analysis import Analysis, LossRange, Outlet
from coaxwright.analysis.longest import LongestRuns, longest_runs
from coaxwright.analysis.reflections import SolvedService, solve_service
from coaxwright.analysis.stations import StationLoss, between_stations
from coaxwright.design.quantities import Level
from coaxwright.frozen_value import frozen_value
from coaxwright.network import AuthorValues, Direction, ServiceNode, Unknown, author_values
from coaxwright.network.service_overlap import IN_HOME, stretches
from coaxwright.reports.levels.windows import Rules, limits_dbmv, longest_suiting_m, own_window, unit_of, window_words
from coaxwright.rules.phrase_book import cause_text

MOST_APART = 40
"""Of more outlets the losses between them are not told: nobody reads a thousand."""
DIRECTIONS: tuple[Direction, ...] = ("down", "up")
_NO_UNITS: Mapping[str, str] = MappingProxyType({})


@frozen_value
class Point:
    """One service at one outlet and frequency."""

    freq_hz: float
    loss_db: LossRange | None
    level_dbmv: LossRange | None
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


@frozen_value
class ChainStep:
    """A cable or device on the way, with its usual loss [dB] at each frequency of the outlet's points."""

    what: str
    kind: str
    is_cable: bool
    losses_db: tuple[float | None, ...]


@frozen_value
class OutletRow:
    """One outlet of a service."""

    tag: str
    unit: str
    """The repeated unit that it belongs to; empty for one that stands by itself."""
    typical: str
    """The typical unit of that."""
    kind: str
    place: str
    own_window: str
    """What the design says that this receiver takes, or this modem sends, in place of the service's window."""
    points: tuple[Point, ...]
    missed_hz: tuple[float, ...]
    chain: tuple[ChainStep, ...]
    longest: LongestRuns | None

    @property
    def tightest(self) -> Point | None:
        """The point with the least to spare."""
        known = [point for point in self.points if point.spare_db is not None]
        return min(known, key=lambda point: (point.spare_db or 0.0, point.freq_hz), default=None)


@frozen_value
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
    stated_hz: tuple[float, ...]
    """The frequencies that the design states: the edges of the band, and the channels."""
    outlets: tuple[OutletRow, ...]
    no_figure: Mapping[float, tuple[str, ...]]
    """The devices that frequencies come to and for which no figure says what they do there."""
    solved: SolvedService | None
    """What is doubtful about adding decibels here, and what solving the network gives; None where nothing is wanted."""
    apart_hz: float
    apart: tuple[StationLoss, ...]
    """The loss between every two outlets, of not too many, at the top of the band; towards the outlets only."""

    @property
    def is_levelled(self) -> bool:
        """Whether a level is known anywhere; else there are at most losses."""
        return any(point.level_dbmv is not None for row in self.outlets for point in row.points)


@frozen_value
class LeftOut:
    """A service of which there is nothing to tell, and why."""

    tag: str
    because: str


@frozen_value
class SiteLevels:
    """All levels of one design."""

    file: str
    title: str
    sheet: str
    revision: str
    rulesets: tuple[str, ...]
    suppositions: tuple[str, ...]
    author_values: tuple[AuthorValues, ...]
    """What is computed from figures of the author's own."""
    services: tuple[ServiceLevels, ...]
    left_out: tuple[LeftOut, ...]


def site_levels(
    file: str,
    analysis: Analysis,
    rulesets: tuple[str, ...],
    rules: Rules,
    *,
    units: Mapping[str, str] = _NO_UNITS,
    only: Sequence[str] = (),
    outlet: str | None = None,
    suppositions: tuple[str, ...] = (),
    between: int = 0,
) -> SiteLevels:
    """The levels of a design.

    ``units`` gives the typical unit of each repeated one; ``only`` names services, or none for all; ``outlet`` is the
    only one asked for; ``between`` is how many frequencies to add between the edges of a band.
    """
    network = analysis.network
    design = network.design
    own = author_values(network.catalogue, network.cables.values(), network.devices.values())
    nodes = [node for tag, node in analysis.network.services.items() if not only or tag in only]
    without = {node.tag: _without(node, analysis, outlet) for node in nodes}
    asked = _Asked(analysis, rules, units, outlet, between)
    return SiteLevels(
        file=file,
        title=design.title,
        sheet=design.sheet or "",
        revision=design.revision or "",
        rulesets=rulesets,
        suppositions=suppositions,
        author_values=tuple(values for values in own if values.used_by),
        services=tuple(
            service
            for node in nodes
            if not without[node.tag]
            for direction in DIRECTIONS
            if node.grid_hz(direction) or (node.service.kind == IN_HOME and direction == "down")
            if (service := _service(node, direction, asked)).outlets or service.apart
        ),
        left_out=tuple(LeftOut(tag, because) for tag, because in without.items() if because),
    )


@frozen_value
class _Asked:
    """What the levels are asked of, and how much of it."""

    analysis: Analysis
    rules: Rules
    units: Mapping[str, str]
    outlet: str | None
    between: int


def _without(node: ServiceNode, analysis: Analysis, outlet: str | None) -> str:
    """Why there is nothing to tell of a service; empty where there is something."""
    wanted_at = [device.tag for device in analysis.network.outlets_of(node.tag)]
    if node.service.kind == "camera video":
        return "camera video is judged by its distance, not by levels"
    if not wanted_at:
        return "no outlet wants it"
    if outlet is not None and outlet not in wanted_at:
        return f"{outlet} does not want it"
    if node.service.kind == IN_HOME:
        return ""
    if not any(node.grid_hz(direction) for direction in DIRECTIONS):
        return "it states no band and no channels"
    return ""


def _grid_hz(node: ServiceNode, direction: Direction, between: int) -> tuple[float, ...]:
    """The frequencies that the service states, with more between the edges of its band, even on the root scale."""
    stated = node.grid_hz(direction)
    stream = node.service.down if direction == "down" else node.service.up
    if stream is None or not between or stream.band.low_hz == stream.band.high_hz:
        return stated
    low, high = sqrt(stream.band.low_hz), sqrt(stream.band.high_hz)
    more = ((low + (high - low) * step / (between + 1)) ** 2 for step in range(1, between + 1))
    return tuple(sorted({*stated, *more}))


def _service(node: ServiceNode, direction: Direction, asked: _Asked) -> ServiceLevels:
    stream = node.service.down if direction == "down" else node.service.up
    stated = [point.text for point in stream.level or ()] if stream is not None and direction == "down" else []
    if direction == "up" and stream is not None and stream.wanted is not None:
        stated = [f"{stream.wanted.text} required at the demarcation point"]
    grid_hz = _grid_hz(node, direction, asked.between)
    of_stations = node.service.kind == IN_HOME  # they talk to one another: nothing comes in, and nothing is answered
    rows = [
        _row(node, direction, outlet, asked)
        for outlet in asked.analysis.outlets(node.tag, direction, grid_hz)
        if not of_stations
        and asked.outlet in (None, outlet.device.tag)
        and (direction == "down" or outlet.device in asked.analysis.network.answering(node.tag))
    ]
    apart_hz, apart = _apart(node, asked) if direction == "down" else (0.0, ())
    window, source = window_words(node, direction, asked.rules)
    return ServiceLevels(
        tag=node.tag,
        kind=node.service.kind,
        direction=direction,
        start=node.service.from_,
        handoff=", ".join(stated),
        window=window,
        source=source,
        unit=unit_of(node, direction, asked.rules),
        grid_hz=grid_hz,
        stated_hz=node.grid_hz(direction),
        outlets=tuple(rows),
        no_figure=_no_figure(node, direction, grid_hz, asked),
        solved=_solved(node, direction, asked) if rows else None,
        apart_hz=apart_hz,
        apart=apart,
    )


def _no_figure(
    node: ServiceNode, direction: Direction, grid_hz: Sequence[float], asked: _Asked
) -> Mapping[float, tuple[str, ...]]:
    signal = asked.analysis.network.signal(node.tag, direction, tuple(grid_hz))
    found: dict[float, dict[str, None]] = {}
    for stop in signal.stops:
        for freq_hz in signal.hertz(stop.frequencies) if not stop.is_known else ():
            found.setdefault(freq_hz, {})[stop.arrival.device.tag] = None
    return MappingProxyType({freq_hz: tuple(tags) for freq_hz, tags in found.items()})


def _solved(node: ServiceNode, direction: Direction, asked: _Asked) -> SolvedService | None:
    analysis = asked.analysis
    solved = solve_service(
        analysis.network, node.tag, direction, lambda grid_hz: analysis.losses(node.tag, direction, grid_hz)
    )
    if solved is None:
        return None
    return replace(
        solved,
        departures=tuple(departure for departure in solved.departures if asked.outlet in (None, departure.device.tag)),
    )


def _in_home_top_hz(node: ServiceNode, asked: _Asked) -> float | None:
    """The top of what in-home data is on, stated or its adapters' own."""
    found = stretches(asked.analysis.network, node)
    return None if isinstance(found, Unknown) else max(row.high_hz for row in found)


def _apart(node: ServiceNode, asked: _Asked) -> tuple[float, tuple[StationLoss, ...]]:
    """The loss between every two stations of in-home data, or outlets of another service that reach it."""
    analysis = asked.analysis
    network = analysis.network
    if node.service.kind == IN_HOME:
        stations, top_hz = network.traffic.stations(node.tag), _in_home_top_hz(node, asked)
    else:
        stations = tuple(outlet.device for outlet in analysis.outlets(node.tag) if outlet.readings)
        top_hz = node.grid_hz("down")[-1] if stations else None
    if asked.outlet is not None or top_hz is None or not 1 < len(stations) <= MOST_APART:
        return 0.0, ()
    return top_hz, tuple(between_stations(network.graph, stations, analysis.line_figures, top_hz))


def _row(node: ServiceNode, direction: Direction, outlet: Outlet, asked: _Asked) -> OutletRow:
    points: list[Point] = []
    lowest: list[float | None] = []
    for reading in outlet.readings:
        low, high = limits_dbmv(node, direction, outlet.device, reading.freq_hz, asked.rules)
        level = reading.level_dbmv
        loss = reading.loss_db
        points.append(
            Point(
                reading.freq_hz,
                loss if isinstance(loss, LossRange) else None,
                level if isinstance(level, LossRange) else None,
                cause_text(level) if isinstance(level, Unknown) else "",
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
                step.what,
                kind,
                step.is_cable,
                tuple(point.nominal if isinstance(point, LossRange) else None for point in at),
            )
        )
    longest = None
    if direction == "down":
        suits = partial(longest_suiting_m, node, asked.rules)
        longest = longest_runs(outlet, lowest, asked.analysis.network.catalogue, suits)
    unit = outlet.device.tag.partition("/")[0]
    return OutletRow(
        tag=outlet.device.tag,
        unit=unit if unit in asked.units else "",
        typical=asked.units.get(unit, ""),
        kind=outlet.device.device.kind,
        place=place.tag if place is not None else "",
        own_window=own_window(direction, outlet.device),
        points=tuple(points),
        missed_hz=outlet.missed_hz,
        chain=tuple(steps),
        longest=longest,
    )
