from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

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
        with pytest.raises(ValueError, match="outside the centre"):
            ask(outer_mm, inner_mm, 0.85)


def test_an_impedance_is_above_zero() -> None:
    with pytest.raises(ValueError, match="above zero"):
        geometry.capacitance_of_impedance_pf_per_m(0, 0.85)
