from __future__ import annotations

from math import inf, pi

import pytest

from coaxwright.physics import skin_effect
from coaxwright.physics.bessel import scaled_i, scaled_k
from coaxwright.physics.skin_effect import COPPER, COPPER_OHM_M, Metal

STEEL = Metal(1 / 6e6, 100)


def test_the_depth_goes_with_the_root() -> None:
    assert skin_effect.skin_depth_m(1e6) / skin_effect.skin_depth_m(100e6) == pytest.approx(10)


def test_surface_resistance_is_that_of_one_depth() -> None:
    depth_m = skin_effect.skin_depth_m(5e6)
    assert skin_effect.surface_resistance_ohm(5e6) == pytest.approx(COPPER_OHM_M / depth_m)


def test_a_slow_current_fills_the_wire() -> None:
    area_m2 = pi / 4 * 0.001**2
    assert skin_effect.wire_impedance_ohm_per_m(0.01, 0.001).real == pytest.approx(COPPER_OHM_M / area_m2, rel=1e-6)


def test_a_slow_current_has_the_internal_inductance_of_the_textbook() -> None:
    """mu0 / (8 pi) = 50 nH/m."""
    reactance = skin_effect.wire_impedance_ohm_per_m(1.0, 0.001).imag
    assert reactance / (2 * pi) == pytest.approx(50e-9, rel=1e-4)


@pytest.mark.parametrize("freq_hz", [1e3, 1e5, 1e6, 1e7, 1e9, 3e9])
def test_a_cladding_of_the_same_metal_changes_nothing(freq_hz: float) -> None:
    plain = skin_effect.wire_impedance_ohm_per_m(freq_hz, 0.001)
    for cladding_m in (1e-6, 50e-6, 0.4e-3):
        clad = skin_effect.layered_wire_impedance_ohm_per_m(freq_hz, 0.001, cladding_m, COPPER, COPPER)
        assert clad == pytest.approx(plain, rel=1e-9)


def test_a_thick_cladding_hides_its_core() -> None:
    clad = skin_effect.layered_wire_impedance_ohm_per_m(1e9, 0.001, 50e-6, STEEL)
    assert clad == pytest.approx(skin_effect.wire_impedance_ohm_per_m(1e9, 0.001), rel=1e-6)


def test_a_wide_tube_is_nearly_flat() -> None:
    impedance = skin_effect.tube_impedance_ohm_per_m(1e9, 0.05)
    assert impedance.real == pytest.approx(skin_effect.surface_resistance_ohm(1e9) / (pi * 0.05), rel=1e-3)


@pytest.mark.parametrize("freq_hz", [0, -1, inf, float("nan")])
def test_frequencies_that_cannot_be(freq_hz: float) -> None:
    for function in (skin_effect.wire_impedance_ohm_per_m, skin_effect.tube_impedance_ohm_per_m):
        with pytest.raises(ValueError, match="frequency is above zero"):
            function(freq_hz, 0.001)


@pytest.mark.parametrize(("diameter_m", "cladding_m"), [(0, 0), (-1, 0), (inf, 0), (0.001, 0.0005), (0.001, -1e-6)])
def test_wires_that_cannot_be(diameter_m: float, cladding_m: float) -> None:
    with pytest.raises(ValueError, match="cladding is thinner"):
        skin_effect.layered_wire_impedance_ohm_per_m(1e6, diameter_m, cladding_m, STEEL)


def test_other_refusals() -> None:
    with pytest.raises(ValueError, match="resistivity and permeability"):
        Metal(0)
    with pytest.raises(ValueError, match="a tube has a diameter"):
        skin_effect.tube_impedance_ohm_per_m(1e6, 0)
    with pytest.raises(ValueError, match="4 skin depths"):
        skin_effect.wire_resistance_short_form_ohm_per_m(1e3, 0.001)
    for function in (scaled_i, scaled_k):
        with pytest.raises(ValueError, match="right of zero"):
            function(-1 + 1j)
