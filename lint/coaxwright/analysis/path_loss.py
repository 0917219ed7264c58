"""The loss along every way of a signal, step by step and in sum, at each frequency of its grid."""

from __future__ import annotations

from collections.abc import Callable
from functools import cached_property

from coaxwright.analysis.loss_range import NOTHING, LossRange
from coaxwright.analysis.losses import device_figures
from coaxwright.frozen_value import frozen_value
from coaxwright.network import CableLink, Unknown
from coaxwright.network.signals import Arrival, Signal

LineFigures = Callable[[CableLink, float], LossRange | Unknown]
Loss = LossRange | Unknown | None
"""None where the frequency does not come this way."""


@frozen_value
class Step:
    """What lies between one port of a way and the next."""

    arrival: Arrival
    what: str
    """``C-104``, or ``SP1`` for the way through it."""
    is_cable: bool
    losses: tuple[Loss, ...]
    """At each frequency of the grid [dB]."""


class Losses:
    """The losses [dB] from where a signal begins (or, upstream, to where it is wanted) to every port it reaches."""

    def __init__(self, signal: Signal, line_figures: LineFigures, is_upstream: bool) -> None:
        self.signal = signal
        self._line_figures = line_figures
        self._is_upstream = is_upstream
        self._steps: dict[int, Step] = {}

    def to(self, arrival: Arrival) -> tuple[Loss, ...]:
        """The whole loss from the beginning, at each frequency of the grid."""
        return self._sums[id(arrival)]

    @cached_property
    def _sums(self) -> dict[int, tuple[Loss, ...]]:
        sums: dict[int, tuple[Loss, ...]] = {}
        for arrival in self.signal.arrivals:  # nearest first: what lies before is there already
            if arrival.before is None:
                bits = range(len(self.signal.grid_hz))
                sums[id(arrival)] = tuple(NOTHING if arrival.frequencies >> bit & 1 else None for bit in bits)
            else:
                before = sums[id(arrival.before)]
                own = self.step(arrival).losses
                sums[id(arrival)] = tuple(map(_sum, before, own))
        return sums

    def chain(self, arrival: Arrival) -> tuple[Step, ...]:
        """Every step from the beginning to a port."""
        return tuple(self.step(one) for one in arrival.way if one.before is not None)

    def step(self, arrival: Arrival) -> Step:
        """The last step to a port."""
        key = id(arrival)
        if key not in self._steps:
            self._steps[key] = self._step(arrival)
        return self._steps[key]

    def _step(self, arrival: Arrival) -> Step:
        assert arrival.before is not None
        grid = self.signal.grid_hz
        here = [freq_hz if arrival.frequencies >> bit & 1 else None for bit, freq_hz in enumerate(grid)]
        if arrival.cable is not None:
            cable, figures = arrival.cable, self._line_figures
            losses = tuple(None if freq_hz is None else figures(cable, freq_hz) for freq_hz in here)
            return Step(arrival, cable.tag, True, losses)
        if not arrival.is_through:  # screwed straight on
            return Step(arrival, arrival.device.tag, False, tuple(None if f is None else NOTHING for f in here))
        ports = (arrival.before.port, arrival.port)
        one, other = reversed(ports) if self._is_upstream else ports
        node = arrival.device
        losses = tuple(None if f is None else device_figures(node, one, other, f) for f in here)
        return Step(arrival, node.tag, False, losses)


def _sum(before: Loss, own: Loss) -> Loss:
    if before is None or own is None:
        return None
    if isinstance(before, Unknown):
        return before
    return own if isinstance(own, Unknown) else before.plus(own)
