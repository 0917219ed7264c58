"""The sums of a recipe, by whichever kernel pays."""

from __future__ import annotations

from collections.abc import Sequence
from importlib.util import find_spec
from typing import Any

from coaxwright.analysis.batch_loss import lists
from coaxwright.analysis.batch_loss.recipe import Recipe, recipe_of
from coaxwright.frozen_value import frozen_value
from coaxwright.network.signals import Arrival, Signal

ARRAYS_PAY_FROM = 2_000_000
"""Figures (ports times frequencies) from which importing the array library pays. Source: measured, tests/benchmarks."""


@frozen_value
class UsualLosses:
    """The usual loss [dB] to every port that a signal reaches, at every frequency of its grid."""

    signal: Signal
    recipe: Recipe
    rows: Sequence[Any]

    def at(self, index: int) -> tuple[float | None, ...]:
        """The losses to one arrival; None where the frequency does not come or a figure is not known."""
        bits = self.known(index)
        return tuple(float(loss) if bits >> bit & 1 else None for bit, loss in enumerate(self.rows[index]))

    def known(self, index: int) -> int:
        """The frequencies that come to an arrival and at which the whole way to it is known, as a set of bits."""
        bits = self.signal.arrivals[index].frequencies
        while index >= 0:
            bits &= self.recipe.known[self.recipe.curve[index]]
            index = self.recipe.before[index]
            bits &= self.signal.arrivals[index].frequencies if index >= 0 else bits
        return bits

    def index_of(self, arrival: Arrival) -> int:
        """Where an arrival stands."""
        return next(index for index, one in enumerate(self.signal.arrivals) if one is arrival)


def usual_losses(signal: Signal, is_upstream: bool = False, *, arrays: bool | None = None) -> UsualLosses:
    """The usual losses of a signal.

    ``arrays``: whether to use the array kernel; left out, it is used where it pays and its library is installed.
    Raises ImportError where it is asked for and the extra ``arrays`` is not installed.
    """
    recipe = recipe_of(signal, is_upstream)
    if arrays is None:
        arrays = len(recipe.before) * len(signal.grid_hz) >= ARRAYS_PAY_FROM and find_spec("numpy") is not None
    if arrays:
        from coaxwright.analysis.batch_loss import arrays as kernel

        rows = kernel.sums(recipe)
    else:
        rows = lists.sums(recipe)
    return UsualLosses(signal, recipe, rows)
