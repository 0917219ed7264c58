"""Axes and labels of drawings."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import sqrt
from typing import TypeVar

from coaxwright.frozen_value import frozen_value

_USUAL_MHZ = (5, 10, 20, 42, 54, 85, 108, 204, 300, 400, 500, 600, 700, 862, 1002, 1218, 1500, 1794, 2150, 2350, 2700)
_APART = 60
"""Least distance of two labels of frequencies."""
T = TypeVar("T", bound=tuple[float, str, str])


@frozen_value
class Axis:
    """A straight scale from a value's range to places on the drawing."""

    low: float
    high: float
    start: float
    end: float

    def at(self, value: float) -> float:
        """Where a value stands; of a range without width, in its middle."""
        if self.high == self.low:
            return (self.start + self.end) / 2
        return self.start + (value - self.low) / (self.high - self.low) * (self.end - self.start)


def ticks_db(low_db: int, high_db: int) -> Iterator[int]:
    """Levels to mark: steps of 5, or of 10, 100 and so on where there would be many."""
    step = 5 if high_db - low_db <= 50 else 10
    while high_db - low_db > 20 * step:
        step *= 10
    first = -(-low_db // step) * step
    yield from range(first, high_db + 1, step)


def ticks_hz(lowest_hz: float, highest_hz: float, axis: Axis) -> list[float]:
    """Frequencies to mark: both ends, and usual ones between them where there is room."""
    marks = list(dict.fromkeys((lowest_hz, highest_hz)))
    for mhz in _USUAL_MHZ:
        freq_hz = mhz * 1e6
        near = min(abs(axis.at(sqrt(freq_hz)) - axis.at(sqrt(mark))) for mark in marks)
        if lowest_hz < freq_hz < highest_hz and near >= _APART:
            marks.append(freq_hz)
    return sorted(marks)


def spread_apart(labels: Sequence[T], apart: float, top: float, bottom: float) -> list[tuple[float, T]]:
    """Labels, sorted by where they want to stand, pushed apart so that none covers another."""
    places: list[float] = []
    for wanted, *_ in labels:
        places.append(max(wanted, places[-1] + apart) if places else max(wanted, top))
    overshoot = places[-1] - bottom if places else 0.0
    if overshoot > 0:
        places[-1] -= overshoot
        for index in range(len(places) - 2, -1, -1):
            places[index] = min(places[index], places[index + 1] - apart)
    return list(zip(places, labels, strict=True))
