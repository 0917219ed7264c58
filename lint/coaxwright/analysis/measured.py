"""The loss of a cable that was measured: its class's curve, drawn through the points."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from math import sqrt

from coaxwright.analysis.loss_range import LossRange

Points = Sequence[tuple[float, float]]
"""Frequency [Hz], rising, and a figure at it."""


def as_measured(table: LossRange, ratios: Points, freq_hz: float) -> LossRange:
    """The figures [dB] of a table at a frequency [Hz], for a cable of which losses were measured.

    ratios: measured over usual loss [-], by frequency. Between the points the ratio goes straight on the root of the
    frequency; there the spread of the class falls away, and the temperature remains. Beyond the points the nearest
    ratio is kept, and the class's spread with it: nothing was measured there.
    """
    if not ratios:
        return table
    between = _on_root(ratios, freq_hz)
    if between is not None:
        cold, hot = table.cold * between, table.hot * between
        return LossRange(cold, cold, table.nominal * between, hot, hot)
    ratio = ratios[0][1] if freq_hz < ratios[0][0] else ratios[-1][1]
    scaled = [figure * ratio for figure in table]
    low, high = min(table.low, scaled[0]), max(table.high, scaled[4])
    return LossRange(low, scaled[1], scaled[2], scaled[3], high)


def measured_between(points: Points, freq_hz: float) -> float | None:
    """The loss [dB] between measured points, straight on the root of the frequency; None beyond them.

    For a cable of which only that is known. points: loss [dB] by frequency.
    """
    return _on_root(points, freq_hz)


def _on_root(points: Points, freq_hz: float) -> float | None:
    for at_hz, figure in points:
        if at_hz == freq_hz:
            return figure
    for (low_hz, low), (high_hz, high) in pairwise(points):
        if low_hz < freq_hz < high_hz:
            share = (sqrt(freq_hz) - sqrt(low_hz)) / (sqrt(high_hz) - sqrt(low_hz))
            return low + share * (high - low)
    return None
