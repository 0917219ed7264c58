"""Levels and their units: voltage, power, sums of powers, and the width they were measured in.

dBmV and dBµV are voltages across a stated impedance; dBm is a power. The same power is another dBmV in 50 ohm than in
75 ohm (1.76 dB), so every function that goes from one kind to the other asks for the impedance.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import fsum, inf, isfinite, log10, sqrt

DBUV_OF_ZERO_DBMV = 60.0  # 1 mV is 1000 µV, by definition
US_MINIMUM_MV2_PER_OHM = 0.0133
"""Of the least visual signal level sqrt(0.0133 Z) mV. Source: 47 CFR 76.605(a)(3), texts of 2013 to 2021."""


def dbmv_of_volts(voltage_v: float) -> float:
    """Level [dBmV] of a voltage [V], root mean square: 20 log(V / 1 mV).

    Raises ValueError where the voltage is not above zero. Source: definition.
    """
    return 20 * log10(_above_zero(voltage_v, "a voltage") / 1e-3)


def volts_of_dbmv(level_dbmv: float) -> float:
    """Voltage [V], root mean square, of a level [dBmV]: 1 mV * 10^(L/20).

    Raises ValueError beyond what a number can hold. Source: definition.
    """
    return 1e-3 * _ratio(level_dbmv, 20)


def dbuv_of_dbmv(level_dbmv: float) -> float:
    """The same voltage [dBµV]: dBmV + 60, in any impedance. Source: definition."""
    return level_dbmv + DBUV_OF_ZERO_DBMV


def dbmv_of_dbuv(level_dbuv: float) -> float:
    """The same voltage [dBmV]: dBµV - 60, in any impedance. Source: definition."""
    return level_dbuv - DBUV_OF_ZERO_DBMV


def dbmv_of_dbm(level_dbm: float, impedance_ohm: float) -> float:
    """Level [dBmV] across an impedance [ohm] that takes the power ``level_dbm`` [dBm].

    dBmV = dBm + 10 log R + 30; +48.75 in 75 ohm, +46.99 in 50 ohm

    Raises ValueError where the impedance is not above zero and finite. Using the constant of the other impedance costs
    1.76 dB. Source: identity, from P = V²/R.
    """
    return level_dbm + _dbmv_of_zero_dbm(impedance_ohm)


def dbm_of_dbmv(level_dbmv: float, impedance_ohm: float) -> float:
    """Power [dBm] that a level [dBmV] gives to an impedance [ohm]: dBmV - 10 log R - 30.

    Raises ValueError as dbmv_of_dbm does. Source: identity, from P = V²/R.
    """
    return level_dbmv - _dbmv_of_zero_dbm(impedance_ohm)


def watts_of_dbm(level_dbm: float) -> float:
    """Power [W] of a level [dBm]: 1 mW * 10^(L/10).

    Raises ValueError beyond what a number can hold. Source: definition.
    """
    return 1e-3 * _ratio(level_dbm, 10)


def sum_of_powers_db(levels: Sequence[float]) -> float:
    """Level of unlike signals together, in the unit of ``levels`` [dBmV in one impedance, dBm ...].

    10 log sum 10^(L/10)

    levels: one or more; -inf stands for no signal. For signals that keep no step with each other: carriers of
    different channels, noise. Raises ValueError where there is no level, or one is not a number or endless.
    Source: identity, powers add.
    """
    return _sum(levels, 10)


def sum_of_voltages_db(levels: Sequence[float]) -> float:
    """Level of the same signal arriving by several ways in step, in the unit of ``levels``: the most it can be.

    20 log sum 10^(L/20)

    levels: one or more; -inf stands for no signal. Raises ValueError as sum_of_powers_db does.
    Source: identity, voltages add.
    """
    return _sum(levels, 20)


def total_of_equal_carriers_db(level: float, carriers: int) -> float:
    """Level of ``carriers`` signals of one level together, in the unit of ``level``: L + 10 log N.

    An analog picture carrier is stated as the power at the peak of its envelope, a digital channel as the mean power
    in its whole width: do not count them as equal. Raises ValueError below one carrier. Source: identity.
    """
    if carriers < 1:
        raise ValueError("there is at least one carrier")
    return level + 10 * log10(carriers)


def bandwidth_correction_db(signal_hz: float, measured_hz: float) -> float:
    """What to add [dB] to a noise-like level read in one bandwidth to have it in another: 10 log(signal / measured).

    signal_hz: width of the channel or of the noise wanted [Hz]; measured_hz: width of the instrument's filter [Hz].
    For noise and for digital channels, which are alike in every hertz; a plain carrier needs none. The height of a
    digital channel on a spectrum display is not its level. Raises ValueError where a width is not above zero.
    Source: identity.
    """
    return 10 * log10(_above_zero(signal_hz, "a bandwidth") / _above_zero(measured_hz, "a bandwidth"))


def us_minimum_level_mv(impedance_ohm: float) -> float:
    """Least visual signal level [mV] at a subscriber's terminal in the United States: sqrt(0.0133 Z).

    impedance_ohm: internal impedance Z of the terminal [ohm]; 1 mV in 75 ohm, 2 mV in 300 ohm. At the end of a drop of
    30 m from the tap 1.41 mV (+3 dBmV) in 75 ohm is asked. For analog-type channels only; digital systems are sent
    to a table of ANSI/SCTE 40. Raises ValueError where the impedance is not above zero.
    Source: 47 CFR 76.605(a)(3), texts of 2013 to 2021.
    """
    return sqrt(US_MINIMUM_MV2_PER_OHM * _above_zero(impedance_ohm, "an impedance"))


def _dbmv_of_zero_dbm(impedance_ohm: float) -> float:
    return 10 * log10(_above_zero(impedance_ohm, "an impedance")) + 30


def _above_zero(value: float, what: str) -> float:
    if not 0 < value < inf:
        raise ValueError(f"{what} is above zero and finite")
    return value


def _ratio(level_db: float, per_decade: float) -> float:
    try:
        ratio = float(10 ** (level_db / per_decade))
    except OverflowError:
        ratio = inf
    if not isfinite(ratio):
        raise ValueError("a level is a number, and no larger than can be")
    return ratio


def _sum(levels: Sequence[float], per_decade: float) -> float:
    if not levels:
        raise ValueError("a sum of levels needs at least one level")
    highest = max(levels)
    if any(level != level or level == inf for level in levels):
        raise ValueError("a level is a number, and not endless")
    if highest == -inf:
        return -inf
    # Relative to the highest, so that no level is too large for its power.
    return highest + per_decade * log10(fsum(10 ** ((level - highest) / per_decade) for level in levels))
