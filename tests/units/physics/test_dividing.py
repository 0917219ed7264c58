from __future__ import annotations

import pytest

from coaxwright.physics.dividing import ideal_split_db, ideal_through_db, least_loss_db


@pytest.mark.parametrize(("ways", "loss_db"), [(1, 0), (2, 3.010), (4, 6.021), (6, 7.782), (16, 12.041)])
def test_ideal_split(ways: int, loss_db: float) -> None:
    """10 log(ways); derived."""
    assert ideal_split_db(ways) == pytest.approx(loss_db, abs=0.0005)


@pytest.mark.parametrize(
    ("tap_db", "through_db"), [(6, 1.256), (9, 0.584), (12, 0.283), (20, 0.044), (24, 0.017), (30, 0.004)]
)
def test_ideal_coupler(tap_db: float, through_db: float) -> None:
    """-10 log(1 - 10^(-tap/10)); derived."""
    assert ideal_through_db(tap_db) == pytest.approx(through_db, abs=0.0005)


def test_a_tap_that_takes_half_is_a_splitter() -> None:
    assert ideal_through_db(ideal_split_db(2)) == pytest.approx(ideal_split_db(2))
    assert ideal_through_db(ideal_split_db(4), outputs=3) == pytest.approx(ideal_split_db(4))


def test_more_outputs_leave_less() -> None:
    losses = [ideal_through_db(12, outputs) for outputs in (1, 2, 4, 8)]
    assert losses == sorted(losses)


@pytest.mark.parametrize(("tap_db", "outputs"), [(0, 1), (3, 2), (6, 4), (12, 16), (12, 0)])
def test_taps_that_cannot_be(tap_db: float, outputs: int) -> None:
    with pytest.raises(ValueError, match="no tap is made so"):
        ideal_through_db(tap_db, outputs)


@pytest.mark.parametrize("ways", [0, -2])
def test_splitters_that_cannot_be(ways: int) -> None:
    with pytest.raises(ValueError, match="at least one output"):
        ideal_split_db(ways)


def test_what_is_left_is_shared() -> None:
    assert least_loss_db(4) == pytest.approx(ideal_split_db(4))
    assert least_loss_db(1, 10**-0.8) == pytest.approx(0.75, abs=0.005)  # 8 dB aside, textbook
    assert least_loss_db(1) == 0


@pytest.mark.parametrize(("ways", "taken"), [(0, 0.0), (2, 1.0), (2, -0.1)])
def test_shares_that_cannot_be(ways: int, taken: float) -> None:
    with pytest.raises(ValueError, match="something is left"):
        least_loss_db(ways, taken)
