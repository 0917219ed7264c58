"""A loss or level with what it can be: at the coldest and hottest, and with the spread of the published figures."""

from __future__ import annotations

from typing import NamedTuple


class LossRange(NamedTuple):
    """One figure [dB, dBmV]: usual, at the coldest and the hottest, and the lowest and highest that it can be.

    ``cold`` and ``hot`` are of the usual figures; ``low`` and ``high`` add what the published figures leave open. Of a
    loss ``cold`` is the lesser one, of a level the greater.
    """

    low: float
    cold: float
    nominal: float
    hot: float
    high: float

    @classmethod
    def exactly(cls, value: float) -> LossRange:
        """A figure without spread."""
        return cls(value, value, value, value, value)

    @classmethod
    def spread(cls, low: float, nominal: float, high: float) -> LossRange:
        """A figure that no temperature changes."""
        return cls(low, nominal, nominal, nominal, high)

    def plus(self, other: LossRange) -> LossRange:
        """Two losses in a row; the extremes add, as if all were at its worst at once."""
        return LossRange(
            self.low + other.low,
            self.cold + other.cold,
            self.nominal + other.nominal,
            self.hot + other.hot,
            self.high + other.high,
        )

    def less(self, loss: LossRange) -> LossRange:
        """A level behind a loss."""
        return LossRange(
            self.low - loss.high,
            self.cold - loss.cold,
            self.nominal - loss.nominal,
            self.hot - loss.hot,
            self.high - loss.low,
        )


NOTHING = LossRange.exactly(0.0)
