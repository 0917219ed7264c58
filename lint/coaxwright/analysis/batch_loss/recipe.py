"""What a walk's losses are made of: each step a curve over the grid, times a length for a cable.

A site of ten thousand devices has a few dozen different curves, so each is computed once.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import partial

from coaxwright.analysis.loss_range import LossRange
from coaxwright.analysis.losses import ROOM_C, device_figures, line_figures
from coaxwright.catalogue import CableType, Port
from coaxwright.frozen_value import frozen_value
from coaxwright.network import CableLink, Unknown
from coaxwright.network.signals import Arrival, Signal
from coaxwright.physics.attenuation import FrequencyOutsideTable

Curve = tuple[float, ...]
"""A loss [dB], or of a cable a loss per length [dB/m], at each frequency of the grid; 0 where ``known`` says no."""


@frozen_value
class Recipe:
    """For each arrival of a walk: the arrival before it, the curve of its last step, and what that is multiplied by."""

    before: tuple[int, ...]
    """Index of the arrival before; -1 where the signal begins."""
    curve: tuple[int, ...]
    scale: tuple[float, ...]
    """The length [m] of a cable; 1 for a device."""
    curves: tuple[Curve, ...]
    known: tuple[int, ...]
    """For each curve, the frequencies at which its figure is known: bit n for the n-th."""


def recipe_of(signal: Signal, is_upstream: bool = False) -> Recipe:
    """The recipe of a signal; usual figures at 20 °C, or in place, as the plain sums have them."""
    grid = signal.grid_hz
    whole = (1 << len(grid)) - 1
    nothing: Curve = (0.0,) * len(grid)
    curves: list[Curve] = [nothing]
    known: list[int] = [whole]
    index_of: dict[object, int] = {}
    place = {id(arrival): index for index, arrival in enumerate(signal.arrivals)}
    before: list[int] = []
    curve: list[int] = []
    scale: list[float] = []

    def new_curve(key: object, figure: Callable[[float], float | None]) -> int:
        values = [figure(freq_hz) for freq_hz in grid]
        index_of[key] = len(curves)
        curves.append(tuple(0.0 if value is None else value for value in values))
        known.append(sum(1 << bit for bit, value in enumerate(values) if value is not None))
        return index_of[key]

    for arrival in signal.arrivals:
        before.append(-1 if arrival.before is None else place[id(arrival.before)])
        if arrival.before is None or (arrival.cable is None and not arrival.is_through):
            curve.append(0)
            scale.append(1.0)
        elif arrival.cable is not None:
            key, length_m = _key_of_cable(arrival.cable)
            index = index_of.get(key)
            curve.append(new_curve(key, _loss_of_cable(arrival.cable)) if index is None else index)
            scale.append(length_m)
        else:
            key = _key_of_device(arrival, is_upstream)
            index = index_of.get(key)
            curve.append(new_curve(key, _loss_of_device(arrival, is_upstream)) if index is None else index)
            scale.append(1.0)
    return Recipe(tuple(before), tuple(curve), tuple(scale), tuple(curves), tuple(known))


def _key_of_cable(link: CableLink) -> tuple[object, float]:
    """What cables of one curve have in common, and how many times the curve it is: its length [m], or 1."""
    if link.cable.measured_loss or (link.segments and _is_never_at_room_temperature(link)):
        return link.tag, 1.0
    if not isinstance(link.type, CableType) or isinstance(link.length, Unknown):
        return "unknown", 0.0
    return link.type.cable_class.name, link.length.length_m


def _loss_of_cable(link: CableLink) -> Callable[[float], float | None]:
    """The curve of a cable, for its key."""
    if link.cable.measured_loss or _is_never_at_room_temperature(link):
        return partial(_own_loss_db, link)
    if not isinstance(link.type, CableType) or isinstance(link.length, Unknown):
        return lambda freq_hz: None
    attenuation = link.type.cable_class.attenuation

    def per_meter(freq_hz: float) -> float | None:
        try:
            return attenuation.loss_db_per_m(freq_hz, ROOM_C).nominal_db_per_m
        except FrequencyOutsideTable:
            return None

    return per_meter


def _is_never_at_room_temperature(link: CableLink) -> bool:
    ranges = (segment.place.place.temperature for segment in link.segments if segment.place is not None)
    return any(one is not None and not one.coldest_c <= ROOM_C <= one.hottest_c for one in ranges)


def _own_loss_db(link: CableLink, freq_hz: float) -> float | None:
    """The loss of a cable that is like no other of its class."""
    found = line_figures(link, freq_hz)
    return found.nominal if isinstance(found, LossRange) else None


def _key_of_device(arrival: Arrival, is_upstream: bool) -> object:
    """What ways through devices of one curve have in common."""
    node, (one, other) = arrival.device, _ports(arrival, is_upstream)
    device = node.device
    return (id(node.entry), device.kind, one.group, other.group, one.name, other.name, device.gain, device.loss)


def _loss_of_device(arrival: Arrival, is_upstream: bool) -> Callable[[float], float | None]:
    node, (one, other) = arrival.device, _ports(arrival, is_upstream)

    def loss_db(freq_hz: float) -> float | None:
        found = device_figures(node, one, other, freq_hz)
        return found.nominal if isinstance(found, LossRange) else None

    return loss_db


def _ports(arrival: Arrival, is_upstream: bool) -> tuple[Port, Port]:
    assert arrival.before is not None
    return (arrival.port, arrival.before.port) if is_upstream else (arrival.before.port, arrival.port)
