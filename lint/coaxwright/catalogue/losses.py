"""The attenuation of a cable class, and the losses of a device: always low, nominal, high."""

from __future__ import annotations

from dataclasses import field
from enum import StrEnum
from functools import lru_cache
from itertools import pairwise
from typing import NamedTuple

from coaxwright.catalogue.errors import CatalogueError
from coaxwright.design.quantities import Frequency, LossPerLength, QuantityError
from coaxwright.frozen_value import frozen_value
from coaxwright.physics.attenuation import FrequencyOutsideTable, loss_at_temperature, loss_between
from coaxwright.physics.comparison import at_least, at_most

_MOST_KEPT = 5_000
"""Figures kept of one class or device: more than any grid, so that a long run cannot grow without end."""


class LossPerMeter(NamedTuple):
    """The loss of a cable per length, in the bounds that published figures leave open."""

    low_db_per_m: float
    nominal_db_per_m: float
    high_db_per_m: float


class SpreadDb(NamedTuple):
    """A loss, gain or noise figure in the bounds that published figures leave open."""

    low_db: float
    nominal_db: float
    high_db: float


class AttenuationKind(StrEnum):
    """What the published table gives: what no cable of the class may exceed, or what one has."""

    MAXIMUM = "maximum"
    NOMINAL = "nominal"
    TYPICAL = "typical"


@frozen_value
class LossTable:
    """Points as written, frequency and loss, read when first asked for; the spread around them as shares of 1."""

    where: str
    texts: tuple[tuple[str, str], ...]
    low_share: float
    high_share: float

    @property
    def points(self) -> tuple[tuple[float, ...], tuple[float, ...]]:
        """Frequencies [Hz], rising, and losses [dB/m]; both of the table's length.

        Raises CatalogueError where a text is no quantity or a frequency does not rise.
        """
        return _read_points(self.where, self.texts)


@lru_cache(maxsize=256)
def _read_points(where: str, texts: tuple[tuple[str, str], ...]) -> tuple[tuple[float, ...], tuple[float, ...]]:
    try:
        table_hz = tuple(Frequency.parse(freq).freq_hz for freq, _ in texts)
        table_loss = tuple(LossPerLength.parse(loss).loss_db_per_m for _, loss in texts)
    except QuantityError as error:
        raise CatalogueError(where, str(error)) from error
    if not texts or any(first >= second for first, second in pairwise(table_hz)):
        raise CatalogueError(where, "an attenuation table has points with rising frequencies")
    return table_hz, table_loss


@frozen_value
class Attenuation:
    """The published attenuation of a class, and points beyond the published ones where a sound fit gives them."""

    kind: AttenuationKind
    temperature_c: float
    """Of the cable when the table holds [°C]."""
    published: LossTable
    beyond: LossTable | None = None
    """Derived points above the published ones, with a wider spread; they are never called published."""
    _known: dict[float, LossPerMeter] = field(default_factory=dict, compare=False, repr=False)
    """Losses asked for before, at the temperature of the table: designs ask for the same few frequencies."""

    @property
    def lowest_hz(self) -> float:
        return self.published.points[0][0]

    @property
    def highest_hz(self) -> float:
        return (self.beyond or self.published).points[0][-1]

    @property
    def highest_published_hz(self) -> float:
        return self.published.points[0][-1]

    def loss_db_per_m(self, freq_hz: float, temperature_c: float | None = None) -> LossPerMeter:
        """Low, nominal and high loss [dB/m] at a frequency.

        nominal is the table's figure, low and high stand off it by the published spread.

        freq_hz [Hz]; temperature_c: of the cable [°C], left out for the temperature of the table.
        Raises FrequencyOutsideTable below or above all points; nothing is extrapolated.
        Source: the entry's own, and those of physics.attenuation.
        """
        known = self._known.get(freq_hz)
        if known is None:
            table, table_hz, table_loss = self._table_at(freq_hz)
            nominal = loss_between(freq_hz, table_hz, table_loss)
            known = LossPerMeter(nominal * (1 + table.low_share), nominal, nominal * (1 + table.high_share))
            if len(self._known) < _MOST_KEPT:
                self._known[freq_hz] = known
        if temperature_c is None or temperature_c == self.temperature_c:
            return known
        factor = loss_at_temperature(1.0, temperature_c, self.temperature_c)
        return LossPerMeter(*(loss * factor for loss in known))

    def _table_at(self, freq_hz: float) -> tuple[LossTable, tuple[float, ...], tuple[float, ...]]:
        published_hz, published_loss = self.published.points
        if not (at_least(freq_hz, self.lowest_hz) and at_most(freq_hz, self.highest_hz)):
            raise FrequencyOutsideTable(freq_hz, self.lowest_hz, self.highest_hz)
        if self.beyond is None or at_most(freq_hz, published_hz[-1]):
            return self.published, published_hz, published_loss
        # From the last published point on, so that the two tables join without a step.
        beyond_hz, beyond_loss = self.beyond.points
        return self.beyond, (published_hz[-1], *beyond_hz), (published_loss[-1], *beyond_loss)
