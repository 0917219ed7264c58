from __future__ import annotations

from math import pi

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coaxwright.physics.conductors import (
    awg_area_mm2,
    ccs_max_resistance_ohm_per_m,
    resistance_at_temperature,
    wire_resistance_ohm_per_m,
)


def test_resistance_goes_with_area_and_conductivity() -> None:
    assert wire_resistance_ohm_per_m(1.0) == pytest.approx(0.017241)
    assert wire_resistance_ohm_per_m(2.0, 0.5) == pytest.approx(0.017241)


def test_clad_steel_is_nearly_five_times_copper() -> None:
    ratio = wire_resistance_ohm_per_m(awg_area_mm2(18), 0.21) / wire_resistance_ohm_per_m(awg_area_mm2(18))
    assert ratio == pytest.approx(1 / 0.21)


def test_temperature() -> None:
    assert resistance_at_temperature(10.0, 20) == 10.0
    assert resistance_at_temperature(10.0, 75) == pytest.approx(12.16, abs=0.005)


def test_greatest_resistance_is_that_of_the_thinnest_wire() -> None:
    assert ccs_max_resistance_ohm_per_m(1.0, 0.1) == pytest.approx(wire_resistance_ohm_per_m(pi / 4 * 0.81, 0.21))


@pytest.mark.parametrize(("area_mm2", "conductivity"), [(0, 1), (-1, 1), (1, 0)])
def test_impossible_wires_are_refused(area_mm2: float, conductivity: float) -> None:
    with pytest.raises(ValueError, match="above zero"):
        wire_resistance_ohm_per_m(area_mm2, conductivity)


def test_a_tolerance_as_large_as_the_wire_is_refused() -> None:
    with pytest.raises(ValueError, match="tolerance"):
        ccs_max_resistance_ohm_per_m(0.5, 0.5)


@given(st.integers(min_value=-3, max_value=39))
def test_three_gauges_halve_the_area_and_a_thinner_wire_resists_more(gauge: int) -> None:
    assert wire_resistance_ohm_per_m(awg_area_mm2(gauge + 1)) > wire_resistance_ohm_per_m(awg_area_mm2(gauge))
    assert awg_area_mm2(gauge) / awg_area_mm2(gauge + 3) == pytest.approx(2, rel=0.006)
