"""The published loss of a cable as a curve: k0 + k1 sqrt(f) + k2 f, fitted, and only within the table's range."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations, pairwise
from math import fsum, inf, isfinite, sqrt

from coaxwright.physics.attenuation import FrequencyOutsideTable, conductor_loss_at_temperature
from coaxwright.physics.comparison import at_least, at_most

HZ_PER_MHZ = 1e6


@dataclass(frozen=True, slots=True)
class LossCurve:
    """a(f) = k0 + k1 sqrt(f) + k2 f, f in MHz, in the unit of the table it stands for [dB/100 m, dB/100 ft ...].

    Raises ValueError where a coefficient is negative or not finite, or the range is none. A negative k2 hides what
    copper-clad steel does at the low end, so it is refused. Source: MIL-C-17 form, k1 and k2; k0 is the allowance that
    the drop-cable tables make at low frequencies.
    """

    constant: float
    """k0, in the table's unit."""
    per_root_mhz: float
    """k1, skin effect, per sqrt(MHz)."""
    per_mhz: float
    """k2, dielectric, per MHz."""
    lowest_hz: float
    highest_hz: float

    def __post_init__(self) -> None:
        if not all(isfinite(k) and k >= 0 for k in (self.constant, self.per_root_mhz, self.per_mhz)):
            raise ValueError("the coefficients of a loss are zero or more: a negative one hides the low end")
        if not 0 < self.lowest_hz <= self.highest_hz < inf:
            raise ValueError("a loss curve has a range, from a frequency above zero up")

    def loss(self, freq_hz: float) -> float:
        """Loss in the table's unit at a frequency [Hz]. Raises FrequencyOutsideTable outside the range."""
        if not (at_least(freq_hz, self.lowest_hz) and at_most(freq_hz, self.highest_hz)):
            raise FrequencyOutsideTable(freq_hz, self.lowest_hz, self.highest_hz)
        freq_mhz = freq_hz / HZ_PER_MHZ
        return self.constant + self.per_root_mhz * sqrt(freq_mhz) + self.per_mhz * freq_mhz

    def at_temperature(self, temperature_c: float, reference_c: float = 20.0) -> LossCurve:
        """The curve of the same cable at a temperature [°C]: only k1, the conductors' part, changes.

        k1(T) = k1 sqrt(1 + 0.00393 (T - T_ref))

        The dielectric's own change and the allowance k0 are left as they are. Source: conductor_loss_at_temperature.
        """
        warmed = conductor_loss_at_temperature(self.per_root_mhz, temperature_c, reference_c)
        return LossCurve(self.constant, warmed, self.per_mhz, self.lowest_hz, self.highest_hz)


def fit_loss(table_hz: Sequence[float], table_loss: Sequence[float], with_constant: bool = True) -> LossCurve:
    """The loss curve nearest to a table, by least squares of the relative error, no coefficient below zero.

    sum ((k0 + k1 sqrt(f) + k2 f) / a - 1)² least, k0, k1, k2 >= 0

    table_hz: rising [Hz]; table_loss: one above zero for each, in any unit. ``with_constant=False`` leaves k0 out: the
    drop-cable tables are 23 to 47 % above such a curve at 5 MHz, where all three terms are within 2.2 %.
    For tables of four points or more; between the points of a table ``loss_between`` follows it exactly.
    Raises ValueError where the table is shorter than the terms, not rising or not above zero.
    Source: MIL-C-17 form, from memory; every set of terms is tried, so the least is found exactly.
    """
    terms = (0, 1, 2) if with_constant else (1, 2)
    if len(table_hz) != len(table_loss) or len(table_hz) < len(terms):
        raise ValueError("a fit needs one loss for each frequency, and as many points as terms")
    if not table_hz[0] > 0 or any(high <= low for low, high in pairwise(table_hz)):
        raise ValueError("the frequencies of a table rise, from above zero")
    if not all(0 < loss < inf for loss in table_loss):
        raise ValueError("a loss is above zero")
    rows = [
        tuple(value / loss for value in (1.0, sqrt(freq / HZ_PER_MHZ), freq / HZ_PER_MHZ))
        for freq, loss in zip(table_hz, table_loss, strict=True)
    ]
    tried = (
        _least_squares(rows, chosen) for count in range(1, len(terms) + 1) for chosen in combinations(terms, count)
    )
    possible = [found for found in tried if found is not None and min(found) >= 0]
    best = min(possible, key=lambda found: _misfit(rows, found))
    return LossCurve(best[0], best[1], best[2], table_hz[0], table_hz[-1])


def _least_squares(rows: Sequence[tuple[float, ...]], chosen: Sequence[int]) -> tuple[float, float, float] | None:
    """The coefficients of the chosen terms, the others 0; None where the points do not tell the terms apart.

    Gram-Schmidt on the columns: the normal equations would square the spread of a table from 5 to 3000 MHz.
    """
    columns = [[row[term] for row in rows] for term in chosen]
    bases: list[list[float]] = []
    triangle: list[list[float]] = []
    for column in columns:
        length = sqrt(fsum(value * value for value in column))
        left, shares = list(column), []
        for basis in bases:
            share = fsum(a * b for a, b in zip(basis, left, strict=True))
            left = [value - share * along for value, along in zip(left, basis, strict=True)]
            shares.append(share)
        norm = sqrt(fsum(value * value for value in left))
        if norm <= 1e-9 * length:
            return None
        bases.append([value / norm for value in left])
        triangle.append([*shares, norm])
    answers = [0.0] * len(chosen)
    for index in reversed(range(len(chosen))):
        later = fsum(triangle[other][index] * answers[other] for other in range(index + 1, len(chosen)))
        answers[index] = (fsum(bases[index]) - later) / triangle[index][index]
    found = [0.0, 0.0, 0.0]
    for term, answer in zip(chosen, answers, strict=True):
        found[term] = answer
    return found[0], found[1], found[2]


def _misfit(rows: Sequence[tuple[float, ...]], found: Sequence[float]) -> float:
    return fsum((fsum(a * b for a, b in zip(row, found, strict=True)) - 1) ** 2 for row in rows)
