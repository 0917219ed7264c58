from __future__ import annotations

from math import inf, nan

import pytest

from coaxwright.physics import levels


def test_the_same_power_is_another_voltage_in_another_impedance() -> None:
    """10 log(75/50) = 1.76 dB; identity."""
    assert levels.dbmv_of_dbm(0, 75) - levels.dbmv_of_dbm(0, 50) == pytest.approx(1.7609, abs=0.0001)


def test_there_and_back() -> None:
    assert levels.dbm_of_dbmv(levels.dbmv_of_dbm(-3.5, 75), 75) == pytest.approx(-3.5)
    assert levels.dbmv_of_dbuv(levels.dbuv_of_dbmv(12.5)) == pytest.approx(12.5)
    assert levels.dbmv_of_volts(levels.volts_of_dbmv(-17.25)) == pytest.approx(-17.25)


def test_unlike_signals_add_their_powers_and_like_ones_their_voltages() -> None:
    assert levels.sum_of_powers_db([10, 10]) == pytest.approx(13.0103, abs=0.0001)
    assert levels.sum_of_voltages_db([10, 10]) == pytest.approx(16.0206, abs=0.0001)


def test_no_signal_adds_nothing() -> None:
    assert levels.sum_of_powers_db([7.0, -inf]) == 7.0
    assert levels.sum_of_powers_db([-inf, -inf]) == -inf


def test_levels_beyond_any_power_still_add() -> None:
    assert levels.sum_of_powers_db([5000, 5000]) == pytest.approx(5003.0103, abs=0.0001)


def test_equal_carriers_are_a_sum() -> None:
    assert levels.total_of_equal_carriers_db(10, 7) == pytest.approx(levels.sum_of_powers_db([10] * 7))


def test_a_channel_read_in_a_narrow_filter() -> None:
    """6 MHz of 300 kHz: 13.01 dB; identity."""
    assert levels.bandwidth_correction_db(6e6, 300e3) == pytest.approx(13.0103, abs=0.0001)
    assert levels.bandwidth_correction_db(300e3, 6e6) == pytest.approx(-13.0103, abs=0.0001)


@pytest.mark.parametrize("impedance_ohm", [0, -75, inf, nan])
def test_impedances_that_cannot_be(impedance_ohm: float) -> None:
    for function in (levels.dbmv_of_dbm, levels.dbm_of_dbmv):
        with pytest.raises(ValueError, match="impedance is above zero"):
            function(0, impedance_ohm)
    with pytest.raises(ValueError, match="impedance is above zero"):
        levels.us_minimum_level_mv(impedance_ohm)


@pytest.mark.parametrize("voltage_v", [0, -1, nan])
def test_voltages_without_a_level(voltage_v: float) -> None:
    with pytest.raises(ValueError, match="voltage is above zero"):
        levels.dbmv_of_volts(voltage_v)


@pytest.mark.parametrize("values", [[], [1.0, nan], [nan, 1.0], [inf]])
def test_sums_that_cannot_be(values: list[float]) -> None:
    with pytest.raises(ValueError, match="level"):
        levels.sum_of_powers_db(values)


@pytest.mark.parametrize("level", [1e9, inf, nan])
def test_levels_that_no_number_holds(level: float) -> None:
    with pytest.raises(ValueError, match="a level is a number"):
        levels.volts_of_dbmv(level)


def test_other_refusals() -> None:
    with pytest.raises(ValueError, match="at least one carrier"):
        levels.total_of_equal_carriers_db(0, 0)
    with pytest.raises(ValueError, match="bandwidth is above zero"):
        levels.bandwidth_correction_db(0, 1)
