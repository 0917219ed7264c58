from __future__ import annotations

import pytest

from coaxwright.physics import tilt


def test_tilt_is_the_difference() -> None:
    assert tilt.tilt_db(3.25, 12.5) == 9.25


def test_the_card_and_the_root() -> None:
    """54 to 450 MHz: factor 0.65 by the root, 0.667 by the card's ratio of 0.333; found."""
    assert tilt.tilt_of_loss_db(1, tilt.loss_ratio(54e6, 450e6)) == pytest.approx(0.65, abs=0.005)
    assert tilt.tilt_of_loss_db(1, 0.333) == pytest.approx(0.667)


def test_an_equalizer_evens_out_the_cable_it_is_named_after() -> None:
    for freq_hz in (54e6, 200e6, 700e6, 1e9):
        cable_db = 18 * (freq_hz / 1e9) ** 0.5
        assert cable_db + tilt.equalizer_loss_db(18, freq_hz, 1e9) == pytest.approx(18)


def test_value_and_tilt_are_each_others_inverse() -> None:
    assert tilt.tilt_of_loss_db(tilt.equalizer_value_db(7.5, 0.3), 0.3) == pytest.approx(7.5)


def test_the_slope_lies_between_its_ends_and_follows_a_cable() -> None:
    low_hz, high_hz = 54e6, 1e9
    assert tilt.sloped_gain_db(30, 8, high_hz, low_hz, high_hz) == 30
    assert tilt.sloped_gain_db(30, 8, low_hz, low_hz, high_hz) == pytest.approx(22)
    loss_db = 8 / (1 - tilt.loss_ratio(low_hz, high_hz))
    for freq_hz in (100e6, 500e6):
        flat_db = tilt.sloped_gain_db(30, 8, freq_hz, low_hz, high_hz) - loss_db * (freq_hz / high_hz) ** 0.5
        assert flat_db == pytest.approx(30 - loss_db)


def test_refusals() -> None:
    with pytest.raises(ValueError, match="lower frequency first"):
        tilt.loss_ratio(1e9, 54e6)
    for ratio in (-0.1, 1.0, float("nan")):
        with pytest.raises(ValueError, match="below 1"):
            tilt.equalizer_value_db(10, ratio)
    with pytest.raises(ValueError, match="zero or more"):
        tilt.tilt_of_loss_db(-1, 0.3)
    with pytest.raises(ValueError, match="within the amplifier's band"):
        tilt.sloped_gain_db(30, 8, 40e6, 54e6, 1e9)
