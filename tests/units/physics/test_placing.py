from __future__ import annotations

import pytest

from coaxwright.physics.placing import BandEnd, GainWindow, LineSection, amplifier_section_m, gain_window_db


def test_the_gain_that_keeps_an_outlet_within_its_window() -> None:
    window = gain_window_db(3, 10.5, 0, 10)
    assert window == GainWindow(7.5, 17.5)
    assert 3 + window.least_db - 10.5 == 0


def test_where_an_amplifier_may_stand() -> None:
    """20 dBmV at both ends, 0.05 and 0.2 dB/m, input from 5 to 15 dBmV: from 100 m; 15/0.2 = 75 m is nearer: none."""
    low, high = BandEnd(20, 0.05), BandEnd(20, 0.2)
    assert amplifier_section_m(low, high, 5, 15) is None
    assert amplifier_section_m(low, high, 5, 18) == LineSection(pytest.approx(40), pytest.approx(75))


def test_a_weak_signal_may_be_amplified_at_once() -> None:
    assert amplifier_section_m(BandEnd(8, 0.05), BandEnd(8, 0.2), 5, 15) == LineSection(0, pytest.approx(15))


def test_a_signal_too_weak_from_the_start() -> None:
    assert amplifier_section_m(BandEnd(4, 0.05), BandEnd(4, 0.2), 5, 15) is None


def test_refusals() -> None:
    with pytest.raises(ValueError, match="lower end of the window"):
        gain_window_db(0, 0, 10, 0)
    with pytest.raises(ValueError, match="loss of a cable"):
        amplifier_section_m(BandEnd(8, 0), BandEnd(8, 0.2), 5, 15)
    with pytest.raises(ValueError, match="lower input level"):
        amplifier_section_m(BandEnd(8, 0.1), BandEnd(8, 0.2), 15, 5)
