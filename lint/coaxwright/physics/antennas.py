"""What an antenna makes of a field."""

from __future__ import annotations

from math import log10

FIELD_TO_75_OHM_DB = 31.5
"""Of V[dBuV] = E[dBuV/m] + G[dBi] - 20 log f[MHz] + 31.5 in 75 ohm. Source: effective aperture, derived."""


def terminal_level_dbmv(field_dbuv_per_m: float, gain_dbi: float, freq_hz: float) -> float:
    """Level [dBmV] at the terminals of a matched 75 ohm antenna.

    V[dBuV] = E + G - 20 log f[MHz] + 31.5; dBmV = dBuV - 60

    field: E [dBuV/m], in the antenna's polarization; gain: G over an isotropic radiator [dBi]; freq_hz: f [Hz].
    Raises ValueError where the frequency is not above zero. Free field: no mast, no neighbor, no ground.
    Source: P[dBm] = E + G - 20 log f - 77.2, textbook, with 0 dBm in 75 ohm = 108.75 dBuV.
    """
    if not freq_hz > 0:
        raise ValueError("a frequency is above zero")
    return field_dbuv_per_m + gain_dbi - 20 * log10(freq_hz / 1e6) + FIELD_TO_75_OHM_DB - 60
