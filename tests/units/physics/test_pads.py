from __future__ import annotations

import pytest

from coaxwright.physics.pads import ResistiveSplitter, pi_pad, resistive_splitter


def test_a_pi_pad_is_matched_and_loses_what_it_should() -> None:
    """By the resistors themselves: what a source of 75 ohm sees, and the voltage that comes out."""
    pad = pi_pad(10, 75)
    out = 1 / (1 / pad.shunt_ohm + 1 / 75)
    seen = 1 / (1 / pad.shunt_ohm + 1 / (pad.series_ohm + out))
    assert seen == pytest.approx(75)
    assert out / (pad.series_ohm + out) == pytest.approx(10**-0.5)


def test_a_star_is_matched() -> None:
    star = resistive_splitter(3, 75)
    assert star.arm_ohm + (star.arm_ohm + 75) / 3 == pytest.approx(75)
    assert star.loss_db == pytest.approx(9.542, abs=0.001)


def test_a_star_to_one_output_is_a_joint() -> None:
    assert resistive_splitter(1, 75) == ResistiveSplitter(0, 0)


@pytest.mark.parametrize(("loss_db", "impedance_ohm"), [(0, 75), (-3, 75), (6, 0)])
def test_pads_that_cannot_be(loss_db: float, impedance_ohm: float) -> None:
    with pytest.raises(ValueError, match="above zero"):
        pi_pad(loss_db, impedance_ohm)


@pytest.mark.parametrize(("outputs", "impedance_ohm"), [(0, 75), (2, -1)])
def test_stars_that_cannot_be(outputs: int, impedance_ohm: float) -> None:
    with pytest.raises(ValueError, match="at least one output"):
        resistive_splitter(outputs, impedance_ohm)
