"""Figures of a part over a grid of frequencies: one number for all, or one for each."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TypeAlias

Figure: TypeAlias = float | Sequence[float]


def each(figure: Figure, freqs_hz: Sequence[float]) -> Sequence[float]:
    """The figure at each frequency. Raises ValueError where there are neither one nor as many as frequencies."""
    if isinstance(figure, (int, float)):
        return [figure] * len(freqs_hz)
    if len(figure) != len(freqs_hz):
        raise ValueError("a figure is one number, or one for each frequency")
    return figure


def share_of_loss(loss_db: float) -> float:
    """Ratio of voltages [-] of a loss, return loss or isolation [dB], 0 for math.inf: 10^(-L/20).

    Raises ValueError where it is negative. Source: definition of the decibel.
    """
    if not loss_db >= 0:
        raise ValueError("losses, return losses and isolation are zero or more")
    return float(10 ** (-loss_db / 20))
