from __future__ import annotations

from math import inf

import pytest

from coaxwright.physics import inserts
from coaxwright.physics.geometry import velocity_m_per_s


def test_the_peak_is_at_odd_quarter_waves() -> None:
    length_m, quarter_hz = 0.04, velocity_m_per_s(0.66) / 4 / 0.04
    peak_db = inserts.insert_peak_loss_db(50, 75)
    for odd in (1, 3, 5):
        assert inserts.insert_loss_db(50, 75, length_m, 0.66, odd * quarter_hz) == pytest.approx(peak_db)
    assert inserts.insert_loss_db(50, 75, length_m, 0.66, 2 * quarter_hz) == pytest.approx(0, abs=1e-9)


def test_the_peak_in_the_form_of_the_textbook() -> None:
    """20 log((n + 1/n)/2), n = 1.5 either way round."""
    assert inserts.insert_peak_loss_db(75, 50) == pytest.approx(0.6953, abs=0.0001)
    assert inserts.insert_peak_loss_db(50, 75) == pytest.approx(0.6953, abs=0.0001)


def test_a_short_piece_does_next_to_nothing() -> None:
    wave_m = velocity_m_per_s(0.66) / 1e9
    assert inserts.insert_loss_db(50, 75, wave_m / 20, 0.66, 1e9) < 0.08


def test_alike_pieces_do_nothing() -> None:
    assert inserts.insert_peak_loss_db(75, 75) == 0
    assert inserts.insert_least_return_loss_db(75, 75) == inf
    assert inserts.bare_joint_loss_db(2) == 0
    assert inserts.bare_joint_return_loss_db(2) == inf


def test_a_bare_joint_keeps_its_power() -> None:
    for lines in (3, 4, 7):
        passed = (lines - 1) * 10 ** (-inserts.bare_joint_loss_db(lines) / 10)
        assert passed + 10 ** (-inserts.bare_joint_return_loss_db(lines) / 10) == pytest.approx(1)


def test_the_notch_of_an_open_stub() -> None:
    """3 m of 0.65 sqrt(f) + 0.001 f dB/100 m: 34 dB at 20.5 MHz; derived apart from the project."""
    assert inserts.stub_notch_hz(3, 0.82) == pytest.approx(20.486e6, rel=1e-4)
    assert inserts.stub_notch_hz(3, 0.82, 2) == pytest.approx(5 * inserts.stub_notch_hz(3, 0.82))
    loss_db = 0.03 * (0.65 * 20.486**0.5 + 0.001 * 20.486)
    assert inserts.stub_notch_depth_db(loss_db) == pytest.approx(34, abs=0.1)
    assert inserts.stub_notch_depth_db(0) == inf
    assert inserts.stub_notch_depth_db(1e9) == pytest.approx(inserts.bare_joint_loss_db(3))


def test_refusals() -> None:
    with pytest.raises(ValueError, match="impedance is above zero"):
        inserts.insert_peak_loss_db(0, 75)
    with pytest.raises(ValueError, match="length and a frequency"):
        inserts.insert_loss_db(50, 75, 0, 0.66, 1e9)
    with pytest.raises(ValueError, match="at least two lines"):
        inserts.bare_joint_loss_db(1)
    with pytest.raises(ValueError, match="order of a notch"):
        inserts.stub_notch_hz(3, 0.82, -1)
    with pytest.raises(ValueError, match="zero or more"):
        inserts.stub_notch_depth_db(-1)
