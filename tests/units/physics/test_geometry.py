from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import optimize, special

from coaxwright.physics import geometry

ratios = st.floats(min_value=1.1, max_value=20)
velocities = st.floats(min_value=0.3, max_value=1.0)


@given(ratios, velocities)
def test_capacitance_from_diameters_is_that_from_impedance(ratio: float, velocity_factor: float) -> None:
    impedance_ohm = geometry.characteristic_impedance_ohm(ratio, 1, velocity_factor)
    from_diameters = geometry.capacitance_pf_per_m(ratio, 1, velocity_factor)
    from_impedance = geometry.capacitance_of_impedance_pf_per_m(impedance_ohm, velocity_factor)
    assert from_diameters == pytest.approx(from_impedance, rel=1e-5)


def test_permittivity_of_foam() -> None:
    """Derived: 85 % of the speed of light is er 1.384."""
    assert geometry.permittivity(0.85) == pytest.approx(1.384, abs=0.0005)


@pytest.mark.parametrize("velocity_factor", [0, -0.5, 1.01, 85, float("nan")])
def test_impossible_velocities_are_refused(velocity_factor: float) -> None:
    for ask in (geometry.permittivity, geometry.velocity_m_per_s, geometry.delay_s_per_m):
        with pytest.raises(ValueError, match="velocity factor"):
            ask(velocity_factor)


@pytest.mark.parametrize(("outer_mm", "inner_mm"), [(1, 1), (1, 2), (1, 0), (0, 0)])
def test_impossible_diameters_are_refused(outer_mm: float, inner_mm: float) -> None:
    for ask in (geometry.characteristic_impedance_ohm, geometry.capacitance_pf_per_m):
        with pytest.raises(ValueError, match="outside the center"):
            ask(outer_mm, inner_mm, 0.85)


def test_an_impedance_is_above_zero() -> None:
    with pytest.raises(ValueError, match="above zero"):
        geometry.capacitance_of_impedance_pf_per_m(0, 0.85)


@given(ratios, velocities)
def test_inductance_and_capacitance_make_the_impedance_and_the_velocity(ratio: float, velocity_factor: float) -> None:
    inductance_h = geometry.inductance_uh_per_m(ratio, 1) * 1e-6
    capacitance_f = geometry.capacitance_pf_per_m(ratio, 1, velocity_factor) * 1e-12
    impedance_ohm = geometry.characteristic_impedance_ohm(ratio, 1, velocity_factor)
    assert geometry.impedance_of_constants_ohm(inductance_h, capacitance_f) == pytest.approx(impedance_ohm, rel=1e-5)
    assert geometry.velocity_of_constants_m_per_s(inductance_h, capacitance_f) == pytest.approx(
        geometry.velocity_m_per_s(velocity_factor), rel=1e-5
    )


@pytest.mark.parametrize("ratio", [2, 3.5, 4.5, 6.4, 10])
def test_cutoff_against_the_exact_root(ratio: float) -> None:
    """First root of J1'(ka) Y1'(kb) - J1'(kb) Y1'(ka), by scipy."""
    inner_m, outer_m = 0.5e-3, 0.5e-3 * ratio

    def boundary(k: float) -> float:
        return float(
            special.jvp(1, k * inner_m) * special.yvp(1, k * outer_m)
            - special.jvp(1, k * outer_m) * special.yvp(1, k * inner_m)
        )

    guess = 2 / (inner_m + outer_m)
    root = optimize.brentq(boundary, 0.7 * guess, 1.4 * guess)
    expected_hz = root * geometry.SPEED_OF_LIGHT_M_PER_S / (2 * 3.141592653589793)
    assert geometry.cutoff_hz(ratio, 1, 1.0) == pytest.approx(expected_hz, rel=0.03)


def test_constants_that_cannot_be() -> None:
    for function in (geometry.impedance_of_constants_ohm, geometry.velocity_of_constants_m_per_s):
        with pytest.raises(ValueError, match="above zero"):
            function(0, 1e-12)
    with pytest.raises(ValueError, match="outside the center"):
        geometry.inductance_uh_per_m(1, 1)
    with pytest.raises(ValueError, match="outside the center"):
        geometry.cutoff_hz(1, 2, 0.85)
