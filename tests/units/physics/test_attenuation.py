from __future__ import annotations

from math import sqrt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coaxwright.physics.attenuation import (
    LOW_FREQUENCY_COEFFICIENT_PER_K,
    FrequencyOutsideTable,
    conductor_loss_at_temperature,
    loss_at_temperature,
    loss_between,
    loss_scaled,
)

TABLE_HZ = (5e6, 55e6, 1000e6)
TABLE_DB = (0.58, 1.6, 6.55)


@pytest.mark.parametrize(("freq_hz", "loss_db"), list(zip(TABLE_HZ, TABLE_DB, strict=True)))
def test_points_of_the_table_come_back_as_they_are(freq_hz: float, loss_db: float) -> None:
    assert loss_between(freq_hz, TABLE_HZ, TABLE_DB) == loss_db


def test_between_points_the_loss_is_straight_in_the_root_of_frequency() -> None:
    halfway_hz = ((sqrt(55e6) + sqrt(1000e6)) / 2) ** 2
    assert loss_between(halfway_hz, TABLE_HZ, TABLE_DB) == pytest.approx((1.6 + 6.55) / 2)


@pytest.mark.parametrize("freq_hz", [5e6 * (1 - 1e-12), 1000e6 * (1 + 1e-12)])
def test_rounding_does_not_push_a_frequency_off_the_table(freq_hz: float) -> None:
    assert loss_between(freq_hz, TABLE_HZ, TABLE_DB) in TABLE_DB


@pytest.mark.parametrize("freq_hz", [0.0, 4.9e6, 1002e6, float("nan"), float("inf")])
def test_outside_the_table_nothing_is_said(freq_hz: float) -> None:
    with pytest.raises(FrequencyOutsideTable, match="5 to 1000 MHz") as caught:
        loss_between(freq_hz, TABLE_HZ, TABLE_DB)
    assert (caught.value.lowest_hz, caught.value.highest_hz) == (5e6, 1000e6)


def test_a_table_of_one_point_knows_that_point() -> None:
    assert loss_between(5e6, [5e6], [0.58]) == 0.58


@pytest.mark.parametrize(("table_hz", "table_db"), [([], []), ([5e6], []), ([5e6], [1.0, 2.0])])
def test_a_lame_table_is_refused(table_hz: list[float], table_db: list[float]) -> None:
    with pytest.raises(ValueError, match="one loss for each frequency"):
        loss_between(5e6, table_hz, table_db)


@given(st.floats(min_value=5e6, max_value=1e9), st.floats(min_value=5e6, max_value=1e9))
def test_loss_rises_with_frequency_and_stays_within_the_table(one_hz: float, other_hz: float) -> None:
    low_db, high_db = sorted(loss_between(freq_hz, TABLE_HZ, TABLE_DB) for freq_hz in (one_hz, other_hz))
    assert TABLE_DB[0] <= low_db <= high_db <= TABLE_DB[-1]
    if one_hz < other_hz:
        assert loss_between(one_hz, TABLE_HZ, TABLE_DB) <= loss_between(other_hz, TABLE_HZ, TABLE_DB)


@given(st.floats(min_value=0.01, max_value=2), st.floats(min_value=5e6, max_value=1e9))
def test_pure_skin_effect_is_followed_exactly(k1: float, freq_hz: float) -> None:
    table_db = [k1 * sqrt(table_hz / 1e6) for table_hz in TABLE_HZ]
    assert loss_between(freq_hz, TABLE_HZ, table_db) == pytest.approx(k1 * sqrt(freq_hz / 1e6))


def test_warmer_is_more_loss() -> None:
    assert loss_at_temperature(10, 20) == 10
    assert loss_at_temperature(10, 20, reference_c=25) < 10 < loss_at_temperature(10, 55)


def test_the_rule_of_the_root() -> None:
    assert loss_scaled(2.5, 100e6, 400e6) == pytest.approx(5.0)
    assert loss_scaled(loss_scaled(2.5, 54e6, 1e9), 1e9, 54e6) == pytest.approx(2.5)


@pytest.mark.parametrize(("from_hz", "to_hz"), [(0, 1e6), (1e6, -1), (1e6, float("inf"))])
def test_the_rule_of_the_root_asks_for_frequencies(from_hz: float, to_hz: float) -> None:
    with pytest.raises(ValueError, match="above zero"):
        loss_scaled(1.0, from_hz, to_hz)


def test_the_laws_of_temperature_differ_by_a_quarter_at_low_frequencies() -> None:
    """0.2 and 0.15 % per K, from memory; the root of copper's 0.393 % per K is near the upper one."""
    high, low = loss_at_temperature(10, 50), loss_at_temperature(10, 50, 20, LOW_FREQUENCY_COEFFICIENT_PER_K)
    assert (low - 10) / (high - 10) == pytest.approx(0.75, abs=0.02)
    assert conductor_loss_at_temperature(10, 50) == pytest.approx(high, rel=0.005)
    assert conductor_loss_at_temperature(10, 20) == 10


def test_no_law_of_temperature_down_to_no_resistance() -> None:
    with pytest.raises(ValueError, match="does not reach"):
        conductor_loss_at_temperature(10, -250)
