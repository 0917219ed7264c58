"""Resistance of a wire: the exact solution by scipy's Bessel functions, and the short forms of it."""

from __future__ import annotations

from cmath import rect
from math import pi, radians, sqrt

import pytest
from accuracy import near, note
from scipy import special

from coaxwright.physics import skin_effect
from coaxwright.physics.bessel import scaled_i, scaled_k

SIZES = [10**exponent for exponent in (-6, -4, -2, -1, -0.5, 0, 0.25, 0.3, 0.302, 0.5, 0.75, 1, 1.25, 1.3, 1.302, 2, 4)]


@pytest.mark.parametrize("size", SIZES)
def test_bessel_functions_against_scipy(size: float) -> None:
    z = rect(size, radians(45))
    turn = rect(1, -z.imag)  # scipy scales I by the real part alone
    computed = (*scaled_i(z), *scaled_k(z))
    expected = (special.ive(0, z) * turn, special.ive(1, z) * turn, special.kve(0, z), special.kve(1, z))
    for one, other in zip(computed, expected, strict=True):
        deviation_percent = 100 * abs(one - complex(other)) / abs(complex(other))
        note("skin effect", "Bessel functions of scipy.special", deviation_percent, "%", 1e-9)


@pytest.mark.parametrize("freq_mhz", [0.01, 0.1, 1, 1.8, 10, 100, 1000])
@pytest.mark.parametrize("diameter_mm", [0.1, 0.511, 1.024, 2.053])
def test_wire_resistance_against_scipy(freq_mhz: float, diameter_mm: float) -> None:
    """R = Re[k rho/(2 pi r) J0(kr)/J1(kr)], k = sqrt(-j omega mu/rho), as far as J itself does not overflow."""
    rho, radius_m = skin_effect.COPPER_OHM_M, diameter_mm * 0.5e-3
    k = (1 - 1j) * sqrt(pi * freq_mhz * 1e6 * 4e-7 * pi / rho)
    expected = (k * rho / (2 * pi * radius_m) * special.jve(0, k * radius_m) / special.jve(1, k * radius_m)).real
    computed = skin_effect.wire_impedance_ohm_per_m(freq_mhz * 1e6, diameter_mm * 1e-3).real
    near("skin effect", "resistance of a wire by scipy.special", computed, float(expected), "%", 1e-6)


@pytest.mark.parametrize(
    ("depths", "short_percent", "better_percent"), [(100, -1, 0.1), (20, -5, 0.1), (8, -12, 0.6), (4, None, 5.5)]
)
def test_short_forms(depths: float, short_percent: float | None, better_percent: float) -> None:
    """Derived apart: rho/(pi d delta) is 1, 5 and 12 % low; rho/(pi (d - delta) delta) within 0.1, 0.6 and 5.5 %."""
    freq_hz = 1e6
    depth_m = skin_effect.skin_depth_m(freq_hz)
    exact = skin_effect.wire_impedance_ohm_per_m(freq_hz, depths * depth_m).real
    better = skin_effect.wire_resistance_short_form_ohm_per_m(freq_hz, depths * depth_m)
    assert 100 * abs(better / exact - 1) <= better_percent + 0.05
    if short_percent is not None:
        short = skin_effect.COPPER_OHM_M / (pi * depths * depth_m * depth_m)
        assert 100 * (short / exact - 1) == pytest.approx(short_percent, abs=0.6)
