"""The loss of in-home data from station to station: through splitters, past them, and back from the entry filter."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from heapq import heappop, heappush
from itertools import combinations, count

from coaxwright.analysis.loss_range import NOTHING, LossRange
from coaxwright.analysis.losses import device_figures, no_figure
from coaxwright.analysis.path_loss import LineFigures
from coaxwright.catalogue import Port
from coaxwright.frozen_value import frozen_value
from coaxwright.network import DeviceNode, Unknown
from coaxwright.network.service_demand import receiving_port
from coaxwright.network.signals import SignalGraph
from coaxwright.network.stations import Hop, always, from_station_to_station, spread

_State = tuple[str, str, bool]
"""A device, a port of it, and whether the signal has come to it from outside."""


@frozen_value
class StationLoss:
    """Two stations on one coax, and the loss [dB] of the best way from one to the other."""

    one: DeviceNode
    other: DeviceNode
    loss_db: LossRange | Unknown | None
    """None where a part that passes one way only stands between."""
    parted_by: DeviceNode | None = None
    """That part; a pair that a filter parts is no pair."""


def between_stations(
    graph: SignalGraph, stations: Sequence[DeviceNode], line_figures: LineFigures, freq_hz: float
) -> Iterator[StationLoss]:
    """Every two stations that one coax joins, in their order, with the loss between them at a frequency [Hz].

    Of several ways the one of least loss counts, for the least and the greatest figure each: past a splitter by its
    isolation, or into it and back from a filter that stops the frequency, which reflects all of it, so that no more
    than twice the loss of the split and of the cable to the filter is left. Two ways of about one loss can cancel at
    single frequencies; that is not counted. Source: common practice, no source.
    """
    walks = {station.tag: _Least(graph, station, line_figures, freq_hz) for station in stations}
    for one, other in combinations(stations, 2):
        least, most = (walk.to(other) for walk in (walks[one.tag].low, walks[one.tag].high))
        if least is not None and most is not None:
            yield StationLoss(one, other, LossRange(least.low, least.cold, most.nominal, most.hot, most.high))
            continue
        missing = _missing(graph, one, other, line_figures, freq_hz)
        if missing is not None:
            yield StationLoss(one, other, missing)
            continue
        parted_by = _parting(graph, one, other, freq_hz)
        if parted_by is not None:
            yield StationLoss(one, other, None, parted_by)


class _Least:
    """The ways of least loss from one station, by the low and by the high figures."""

    def __init__(self, graph: SignalGraph, station: DeviceNode, line_figures: LineFigures, freq_hz: float) -> None:
        self.low = _Walk(graph, station, line_figures, freq_hz, by_high=False)
        self.high = _Walk(graph, station, line_figures, freq_hz, by_high=True)


class _Walk:
    def __init__(
        self, graph: SignalGraph, station: DeviceNode, line_figures: LineFigures, freq_hz: float, *, by_high: bool
    ) -> None:
        self.graph = graph
        self.line_figures = line_figures
        self.freq_hz = freq_hz
        self.by_high = by_high
        self.found: dict[_State, LossRange] = {}
        port = receiving_port(station)
        if port is not None:
            self._walk(station, port)

    def to(self, station: DeviceNode) -> LossRange | None:
        port = receiving_port(station)
        return None if port is None else self.found.get((station.tag, port.name, True))

    def _walk(self, station: DeviceNode, port: Port) -> None:
        order = count()  # so that devices are never compared
        queue = [(0.0, next(order), NOTHING, station, port, False)]
        while queue:
            _, _, loss, node, at, is_outside = heappop(queue)
            state = (node.tag, at.name, is_outside)
            if state in self.found:
                continue
            self.found[state] = loss
            for step, there, then, arrives in self._steps(node, at, is_outside):
                whole = loss.plus(step)
                cost_db = whole.high if self.by_high else whole.low
                heappush(queue, (cost_db, next(order), whole, there, then, arrives))

    def _steps(
        self, node: DeviceNode, at: Port, is_outside: bool
    ) -> Iterator[tuple[LossRange, DeviceNode, Port, bool]]:
        if not is_outside:
            for there, port, cable in self.graph.beyond(node.tag, at.name):
                line = NOTHING if cable is None else self.line_figures(cable, self.freq_hz)
                if isinstance(line, LossRange):
                    yield line, there, port, True
            return
        for port in node.ports:
            if port.name == at.name:
                continue
            if _is_stopped_by_filter(node, at, port, self.freq_hz):
                yield NOTHING, node, at, False
                continue
            step = coupling(node, at, port, self.freq_hz)
            if step is not None:
                yield step, node, port, False


def _is_stopped_by_filter(node: DeviceNode, one: Port, other: Port, freq_hz: float) -> bool:
    entry = node.entry
    return entry is not None and node.device.kind == "filter" and entry.passes(one.name, other.name, freq_hz) is False


def coupling(node: DeviceNode, one: Port, other: Port, freq_hz: float) -> LossRange | None:
    """The loss [dB] from one port of a device to another at a frequency [Hz], through it or past it; None if unknown.

    A gain counts as no loss: a way does not get better by going round.
    """
    found = device_figures(node, one, other, freq_hz)
    if isinstance(found, LossRange):
        return LossRange(*(max(figure, 0.0) for figure in found))
    isolation = node.entry.isolation(one.name, other.name, freq_hz) if node.entry is not None else None
    return None if isolation is None else LossRange.spread(*isolation)


def _hop_to(graph: SignalGraph, one: DeviceNode, other: DeviceNode, freq_hz: float | None) -> Hop | None:
    port, end = receiving_port(one), receiving_port(other)
    passes = always if freq_hz is None else from_station_to_station(freq_hz)
    if port is None:
        return None
    hops = spread(graph, one, port, passes)
    return next((hop for hop in hops if hop.device.tag == other.tag and hop.port == end and hop.before), None)


def _missing(
    graph: SignalGraph, one: DeviceNode, other: DeviceNode, line_figures: LineFigures, freq_hz: float
) -> Unknown | None:
    """The first figure that is missing on the way between two stations; None where no way is left open."""
    hop = _hop_to(graph, one, other, freq_hz)
    for step in hop.way if hop is not None else ():
        if step.cable is not None:
            line = line_figures(step.cable, freq_hz)
            if isinstance(line, Unknown):
                return line
        elif step.is_through and step.before is not None:
            here, port, then = step.device, step.before.port, step.port
            if coupling(here, port, then, freq_hz) is None:
                return no_figure(here, port, then, freq_hz)
    return None


def _parting(graph: SignalGraph, one: DeviceNode, other: DeviceNode, freq_hz: float) -> DeviceNode | None:
    """The part that passes one way only and so parts two stations of one coax; None where a filter does, or nothing."""
    hop = _hop_to(graph, one, other, None)
    passes = from_station_to_station(freq_hz)
    for step in hop.way if hop is not None else ():
        if step.is_through and step.before is not None and not passes(step.device, step.before.port, step.port):
            return None if step.device.device.kind == "filter" else step.device
    return None
