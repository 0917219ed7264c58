"""The inductance of a bonding conductor: what a surge meets on its way to the electrode."""

from __future__ import annotations

from math import asinh, hypot, log, pi, sqrt


def straight_wire_inductance_uh(length_m: float, area_mm2: float) -> float:
    """Inductance [µH] of a straight round wire alone in the air, at the steep front of a surge.

    L = 0.2 (l (asinh(l/r) - hypot(1, r/l)) + r), with r = sqrt(area / pi)

    The current flows in the skin, so there is no field within the wire. Bends and coils only add to it; the way back of
    the current, through the earth, is not counted.
    length [m]; area of metal [mm²]. Raises ValueError where either is not above zero.
    Source: E. B. Rosa, The self and mutual inductances of linear conductors, Bulletin of the Bureau of Standards 4
    (1908), equation 9 less the field within the wire; from memory, and computed again in the tests.
    """
    if length_m <= 0 or area_mm2 <= 0:
        raise ValueError("length and cross-section are above zero")
    radius_m = sqrt(area_mm2 / pi) * 1e-3
    ratio = length_m / radius_m
    return 0.2 * (length_m * (asinh(ratio) - hypot(1, 1 / ratio)) + radius_m)


def surge_voltage_kv(inductance_uh: float, rise_ka_per_us: float = 1.0) -> float:
    """Voltage [kV] along an inductance [µH] while a current rises [kA/µs]: u = L di/dt. Source: Faraday's law."""
    return inductance_uh * rise_ka_per_us


def free_space_loss_db(distance_m: float, freq_hz: float) -> float:
    """Loss [dB] between two isotropic antennas in free space: 20 log10(4 pi d f / c).

    distance [m], frequency [Hz]. Raises ValueError where either is not above zero. Holds beyond a wavelength or so.
    Source: H. T. Friis, A note on a simple transmission formula (1946).
    """
    if distance_m <= 0 or freq_hz <= 0:
        raise ValueError("distance and frequency are above zero")
    return 20 * log(4 * pi * distance_m * freq_hz / 299_792_458.0, 10)
