"""How far the levels that the solved network gives depart from the sum of decibels."""

from __future__ import annotations

from collections.abc import Callable
from math import log10, sqrt

from coaxwright.analysis.loss_range import LossRange
from coaxwright.analysis.losses import line_figures
from coaxwright.analysis.merge_paths import losses_together
from coaxwright.analysis.path_loss import Losses
from coaxwright.analysis.reflections.model_warnings import (
    Mismatch,
    ModelWarning,
    doubts,
    is_fed_back,
    mismatches,
    second_ways,
)
from coaxwright.analysis.reflections.parts import NotSolved
from coaxwright.analysis.reflections.scattering_network import Reached, Start, reached, scattering, together
from coaxwright.frozen_value import frozen_value
from coaxwright.network import DeviceNode, Direction, Network, Unknown
from coaxwright.physics.scattering import Resonance, solved

LossesOf = Callable[[tuple[float, ...]], Losses]
_WORK_S = 0.12
"""Time that the grid is chosen for, on an ordinary machine."""
_FEWEST, _MOST = 25, 401
"""Frequencies solved at."""


@frozen_value
class ModelError:
    """At one outlet: the solved level less the summed one [dB], over the band."""

    device: DeviceNode
    least_db: float
    least_at_hz: float
    most_db: float
    most_at_hz: float
    points: tuple[tuple[float, float], ...]
    """Frequency [Hz] and departure [dB]."""


@frozen_value
class SolvedService:
    """What is doubtful in the network of a service, and what solving it gives."""

    doubts: tuple[ModelWarning, ...]
    mismatches: tuple[Mismatch, ...]
    departures: tuple[ModelError, ...]
    """Of each outlet that the service reaches; none where nothing is doubtful, or the network is not solved."""
    not_solved: Unknown | None
    """Why it is not, where something is doubtful; None of one that is."""


def solve_service(network: Network, service: str, direction: Direction, losses_of: LossesOf) -> SolvedService | None:
    """The doubts in the network of a service in one direction; None where it comes in nowhere or states no band.

    ``losses_of`` gives the summed losses for a grid of frequencies.
    """
    node = network.services[service]
    grid_hz = node.grid_hz(direction)
    signal = network.signal(service, direction)
    starts = [arrival for arrival in signal.arrivals if arrival.before is None]
    if not grid_hz or not starts:
        return None
    start = (starts[0].device, starts[0].port)
    try:
        hanging = together(reached(network, (one.device, one.port)) for one in starts)
    except NotSolved as error:
        return SolvedService((), (), (), error.why)
    again = list(second_ways(network, service, hanging.cables, grid_hz))
    found = (*doubts(network, hanging.devices, hanging.cables), *(doubt for doubt, _ in again))
    unlike = tuple(mismatches(network, hanging.cables, grid_hz[0]))
    if not found:
        return SolvedService((), (), (), None)
    try:
        if len(starts) > 1:
            values = {"service": service, "ports": len(starts)}
            raise NotSolved(Unknown("begins at several ports", ("services", service), values))
        if fed_back := next((doubt for doubt, loop in again if is_fed_back(network, loop)), None):
            raise NotSolved(Unknown("fed back", fed_back.path, {"cable": fed_back.tag}))
        dense_hz = _known(_grid(grid_hz[0], grid_hz[-1], len(hanging.devices) + len(hanging.cables)), hanging)
        departures = _departures(network, service, losses_of(dense_hz), start, direction)
    except NotSolved as error:
        return SolvedService(found, unlike, (), error.why)
    except Resonance:
        return SolvedService(found, unlike, (), Unknown("resonance", ("services", service)))
    return SolvedService(found, unlike, departures, None)


def _departures(
    network: Network, service: str, losses: Losses, start: Start, direction: Direction
) -> tuple[ModelError, ...]:
    at = network.outlets_of(service) if direction == "down" else network.answering(service)
    come = [(device, network.arrivals_at(losses.signal, device)) for device in at]
    reached_by = [(device, ways) for device, ways in come if ways and all(one.before is not None for one in ways)]
    freqs_hz = losses.signal.grid_hz
    ends = [(device, ways[0].port) for device, ways in reached_by]
    matrices = solved(scattering(network, start, ends, freqs_hz))
    made = []
    for number, (device, ways) in enumerate(reached_by, 1):
        points = tuple(
            (freq_hz, 20 * log10(size) + loss.nominal)
            for freq_hz, loss, matrix in zip(freqs_hz, losses_together(losses, ways), matrices, strict=True)
            if isinstance(loss, LossRange)
            and (size := abs(matrix[number][0] if direction == "down" else matrix[0][number]))
        )
        if points:
            least, most = min(points, key=_value), max(points, key=_value)
            made.append(ModelError(device, least[1], least[0], most[1], most[0], points))
    return tuple(made)


def _known(freqs_hz: tuple[float, ...], hanging: Reached) -> tuple[float, ...]:
    """The frequencies at which the loss of every cable is known. Raises NotSolved where there is none."""
    missing: list[Unknown] = []
    kept = list(freqs_hz)
    for cable in hanging.cables:
        losses = [(freq_hz, line_figures(cable, freq_hz)) for freq_hz in kept]
        missing += [loss for _, loss in losses if isinstance(loss, Unknown)][:1]
        kept = [freq_hz for freq_hz, loss in losses if isinstance(loss, LossRange)]
    if not kept:
        raise NotSolved(missing[0])
    return tuple(kept)


def _value(point: tuple[float, float]) -> float:
    return point[1]


def _grid(low_hz: float, high_hz: float, parts: int) -> tuple[float, ...]:
    """Frequencies from edge to edge, even on the root scale: as many as the size of the network leaves time for."""
    each_s = 2e-5 * parts + 3e-7 * parts**2
    number = max(_FEWEST, min(_MOST, int(_WORK_S / each_s)))
    if low_hz == high_hz:
        return (low_hz,)
    low, high = sqrt(low_hz), sqrt(high_hz)
    inner = ((low + (high - low) * step / (number - 1)) ** 2 for step in range(1, number - 1))
    return (low_hz, *inner, high_hz)
