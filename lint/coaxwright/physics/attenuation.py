"""The attenuation of a cable: between the points of its table, and at other temperatures."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Sequence
from math import sqrt

from coaxwright.physics.comparison import at_least, at_most

LOSS_COEFFICIENT_PER_K = 0.00198
"""0.11 % per °F. Source: technical tip on coaxial attenuation and temperature, found; holds above about 300 MHz."""


class FrequencyOutsideTable(ValueError):
    """A frequency below or above every point of an attenuation table: the loss there is not known."""

    def __init__(self, freq_hz: float, lowest_hz: float, highest_hz: float) -> None:
        self.freq_hz = freq_hz
        self.lowest_hz = lowest_hz
        self.highest_hz = highest_hz
        super().__init__(
            f"{freq_hz / 1e6:g} MHz is outside the attenuation table, {lowest_hz / 1e6:g} to {highest_hz / 1e6:g} MHz"
        )


def loss_between(freq_hz: float, table_hz: Sequence[float], table_loss: Sequence[float]) -> float:
    """Loss at a frequency, in the table's own unit [dB/m, dB/100 ft ...], on a straight line in sqrt(frequency).

    a(f) = a1 + (a2 - a1) * (sqrt(f) - sqrt(f1)) / (sqrt(f2) - sqrt(f1))

    freq_hz [Hz]; table_hz: the table's frequencies, rising [Hz]; table_loss: one loss for each.
    Between the points of a drop-cable table it follows the published curve, low-frequency allowance included,
    which a k1 sqrt(f) + k2 f fit misses by 23 to 47 % at 5 MHz. Never extrapolates.
    Raises FrequencyOutsideTable outside the table, ValueError where the table is empty or of two lengths.
    Source: MIL-C-17 form of the loss of a coaxial cable (skin effect goes with sqrt(f)), from memory.
    """
    if not table_hz or len(table_hz) != len(table_loss):
        raise ValueError("a table has one loss for each frequency, and at least one")
    if not (at_least(freq_hz, table_hz[0]) and at_most(freq_hz, table_hz[-1])):
        raise FrequencyOutsideTable(freq_hz, table_hz[0], table_hz[-1])
    above = bisect_left(table_hz, freq_hz)
    if above == len(table_hz):  # equal to the last point within the tolerance
        return table_loss[-1]
    if above == 0 or table_hz[above] == freq_hz:
        return table_loss[above]
    below = above - 1
    root_below = sqrt(table_hz[below])
    share = (sqrt(freq_hz) - root_below) / (sqrt(table_hz[above]) - root_below)
    return table_loss[below] + share * (table_loss[above] - table_loss[below])


def loss_at_temperature(loss: float, temperature_c: float, reference_c: float = 20.0) -> float:
    """Loss of a cable at a temperature, in the unit of ``loss`` [dB or dB/m].

    a(T) = a_ref * (1 + 0.00198 * (T - T_ref))

    temperature, reference: of the cable and of its table [°C].
    For copper above about 300 MHz; below, 0.15 %/K is nearer, so the change is overstated by a quarter.
    Source: technical tip on coaxial attenuation and temperature (0.0011 per °F), found.
    """
    return loss * (1 + LOSS_COEFFICIENT_PER_K * (temperature_c - reference_c))
