from __future__ import annotations

from math import inf

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coaxwright.physics import mismatch

reflections = st.floats(min_value=0, max_value=0.99)


def test_the_ends_of_the_scale() -> None:
    assert mismatch.reflection_coefficient(75, 75) == 0
    assert mismatch.reflection_coefficient(inf, 75) == 1
    assert mismatch.reflection_coefficient(0, 75) == -1
    assert (mismatch.return_loss_db(0), mismatch.vswr(0), mismatch.mismatch_loss_db(0)) == (inf, 1, 0)
    assert (mismatch.return_loss_db(-1), mismatch.vswr(-1), mismatch.mismatch_loss_db(-1)) == (0, inf, inf)
    assert mismatch.reflection_of_vswr(inf) == 1
    assert mismatch.reflection_of_return_loss(inf) == 0


def test_no_minus_zero_is_printed() -> None:
    assert f"{mismatch.return_loss_db(1)} {mismatch.mismatch_loss_db(0)}" == "0.0 0.0"


@given(reflections)
def test_vswr_and_back(reflection: float) -> None:
    assert mismatch.reflection_of_vswr(mismatch.vswr(reflection)) == pytest.approx(reflection, abs=1e-9)


@given(st.floats(min_value=0.01, max_value=60))
def test_return_loss_and_back(return_loss_db: float) -> None:
    reflection = mismatch.reflection_of_return_loss(return_loss_db)
    assert mismatch.return_loss_db(reflection) == pytest.approx(return_loss_db)


@given(st.floats(min_value=1, max_value=1000), st.floats(min_value=1, max_value=1000))
def test_a_junction_reflects_alike_from_both_sides(one_ohm: float, other_ohm: float) -> None:
    one_way = mismatch.reflection_coefficient(one_ohm, other_ohm)
    assert mismatch.reflection_coefficient(other_ohm, one_ohm) == pytest.approx(-one_way)
    assert mismatch.vswr(one_way) == pytest.approx(max(one_ohm / other_ohm, other_ohm / one_ohm))


def test_a_long_line_hides_a_poor_load() -> None:
    """Textbook identity: 6 dB behind 4 dB of cable looks like 14 dB."""
    assert mismatch.return_loss_through_line_db(6, 4) == 14


def test_ripple_of_two_known_reflections() -> None:
    """From memory, identity: VSWR 2.0 and 1.5 make -0.5993 and +0.5606 dB."""
    low_db, high_db = mismatch.ripple_limits_db(1 / 3, 0.2)
    assert low_db == pytest.approx(-0.5993, abs=0.001)
    assert high_db == pytest.approx(0.5606, abs=0.001)
    deepest_db, highest_db = mismatch.ripple_limits_db(1, -1)
    assert deepest_db == -inf
    assert highest_db == pytest.approx(6.0206, abs=0.001)


def test_the_wave_passes_the_line_twice() -> None:
    """Derived: 3.01 dB one way halves the echo's voltage, which leaves 20 log 0.5 and 20 log 1.5."""
    low_db, high_db = mismatch.ripple_limits_db(1, 1, line_loss_db=3.0103)
    assert low_db == pytest.approx(-6.0206, abs=0.001)
    assert high_db == pytest.approx(3.5218, abs=0.001)


@given(reflections, reflections, st.floats(min_value=0, max_value=40))
def test_loss_between_two_reflections_quiets_the_ripple(one: float, other: float, line_loss_db: float) -> None:
    low_db, high_db = mismatch.ripple_limits_db(one, other, line_loss_db)
    bare_low_db, bare_high_db = mismatch.ripple_limits_db(one, other)
    assert bare_low_db <= low_db <= 0 <= high_db <= bare_high_db


def test_period_of_the_ripple() -> None:
    """Textbook: a stub of 3 m at 82 % has its first notch at 20.486 MHz; the period is twice that."""
    assert mismatch.ripple_period_hz(3.0, 0.82) == pytest.approx(2 * 20.486e6, rel=0.0005)


def test_pad_between_75_and_50_ohm() -> None:
    """Handbook value, from memory: 43.3 and 86.6 ohm, 5.719 dB."""
    pad = mismatch.minimum_loss_pad(75, 50)
    assert pad.series_ohm == pytest.approx(43.30, abs=0.005)
    assert pad.shunt_ohm == pytest.approx(86.60, abs=0.005)
    assert pad.loss_db == pytest.approx(5.719, abs=0.001)


@given(st.floats(min_value=1, max_value=1000), st.floats(min_value=1.001, max_value=50))
def test_a_pad_matches_both_ways(lower_ohm: float, ratio: float) -> None:
    higher_ohm = lower_ohm * ratio
    pad = mismatch.minimum_loss_pad(higher_ohm, lower_ohm)
    seen_from_higher = pad.series_ohm + 1 / (1 / pad.shunt_ohm + 1 / lower_ohm)
    seen_from_lower = 1 / (1 / pad.shunt_ohm + 1 / (pad.series_ohm + higher_ohm))
    assert seen_from_higher == pytest.approx(higher_ohm)
    assert seen_from_lower == pytest.approx(lower_ohm)


def test_equal_impedances_need_no_pad() -> None:
    assert mismatch.minimum_loss_pad(75, 75) == mismatch.MinimumLossPad(0.0, inf, 0.0)


def test_impossible_figures_are_refused() -> None:
    for ask in (mismatch.return_loss_db, mismatch.vswr, mismatch.mismatch_loss_db, mismatch.reflected_power_share):
        with pytest.raises(ValueError, match="between -1 and 1"):
            ask(1.5)
    with pytest.raises(ValueError, match="at least 1"):
        mismatch.reflection_of_vswr(0.9)
    with pytest.raises(ValueError, match="zero or more"):
        mismatch.reflection_of_return_loss(-1)
    with pytest.raises(ValueError, match="above zero"):
        mismatch.reflection_coefficient(75, 0)
    with pytest.raises(ValueError, match="zero or more"):
        mismatch.ripple_limits_db(0.1, 0.1, -1)
    with pytest.raises(ValueError, match="above zero"):
        mismatch.ripple_period_hz(0, 0.85)
    with pytest.raises(ValueError, match="higher impedance first"):
        mismatch.minimum_loss_pad(50, 75)


@given(reflections, st.floats(min_value=0, max_value=200))
def test_a_poor_load_adds_to_the_loss_of_a_line(reflection: float, line_loss_db: float) -> None:
    total_db = mismatch.total_line_loss_db(line_loss_db, reflection)
    assert line_loss_db - 1e-9 <= total_db <= line_loss_db + mismatch.mismatch_loss_db(reflection) + 1e-9


def test_the_ends_of_the_total_loss() -> None:
    assert mismatch.total_line_loss_db(3, 0) == 3
    assert mismatch.total_line_loss_db(0, 0.5) == 0
    assert mismatch.total_line_loss_db(3, -1) == inf
    assert mismatch.total_line_loss_db(1e6, 0.5) == pytest.approx(1e6 + mismatch.mismatch_loss_db(0.5))
    with pytest.raises(ValueError, match="zero or more"):
        mismatch.total_line_loss_db(-1, 0)
