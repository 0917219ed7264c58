"""The attenuation of a cable: between the points of its table, and at other temperatures."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Sequence
from math import inf, sqrt

from coaxwright.physics.comparison import at_least, at_most
from coaxwright.physics.conductors import COPPER_COEFFICIENT_PER_K

LOSS_COEFFICIENT_PER_K = 0.00198
"""0.11 % per °F. Source: technical tip on coaxial attenuation and temperature, found; holds above about 300 MHz."""
LOW_FREQUENCY_COEFFICIENT_PER_K = 0.0015
"""0.15 %/K, below about 300 MHz. Source: IEC practice, from memory."""


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


def loss_scaled(loss: float, from_hz: float, to_hz: float) -> float:
    """Loss at another frequency by the trade's rule, in the unit of ``loss``: a sqrt(f2 / f1).

    from_hz, to_hz: f1 and f2 [Hz]. A rule of thumb for where there is no table: it leaves out the dielectric, and with
    k2/k1 = 0.0015 is 3.5 % low from 54 to 1000 MHz and 3.2 % low from 1 to 3 GHz; copper-clad steel adds more at the
    low end. Raises ValueError where a frequency is not above zero. Source: trade rule (skin effect goes with sqrt(f)).
    """
    if not (0 < from_hz < inf and 0 < to_hz < inf):
        raise ValueError("a frequency is above zero")
    return loss * sqrt(to_hz / from_hz)


def loss_at_temperature(
    loss: float,
    temperature_c: float,
    reference_c: float = 20.0,
    coefficient_per_k: float = LOSS_COEFFICIENT_PER_K,
) -> float:
    """Loss of a cable at a temperature, in the unit of ``loss`` [dB or dB/m].

    a(T) = a_ref * (1 + 0.00198 * (T - T_ref))

    temperature, reference: of the cable and of its table [°C]; coefficient [1/K].
    For copper above about 300 MHz; below, LOW_FREQUENCY_COEFFICIENT_PER_K is nearer, so the change is overstated by a
    quarter. Where the conductors' part of the loss is known, conductor_loss_at_temperature on that part is better.
    Source: technical tip on coaxial attenuation and temperature (0.0011 per °F), found.
    """
    return loss * (1 + coefficient_per_k * (temperature_c - reference_c))


def conductor_loss_at_temperature(loss: float, temperature_c: float, reference_c: float = 20.0) -> float:
    """The conductors' part of a loss at a temperature, in its unit; the dielectric's part is not to be given.

    a(T) = a_ref * sqrt(1 + 0.00393 * (T - T_ref))

    temperature, reference [°C]. Where the skin effect rules, loss goes with the root of the resistivity.
    Raises ValueError where the law leaves no resistance. Source: IEC practice, from memory; copper's 0.00393 per K.
    """
    warmed = 1 + COPPER_COEFFICIENT_PER_K * (temperature_c - reference_c)
    if not warmed > 0:
        raise ValueError("the law of temperature does not reach so far down")
    return loss * sqrt(warmed)
