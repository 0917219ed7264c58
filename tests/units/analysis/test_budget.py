"""What a demarcation point has to be: sums of decibels by hand."""

from __future__ import annotations

from coaxwright.analysis import LossRange
from coaxwright.analysis.budget import Bound, Budget, HeldLevel, budget

NEAR = LossRange(4, 4.5, 5, 5.5, 6)
FAR = LossRange(18, 19, 20, 21, 22)


def test_the_farthest_outlet_needs_the_least_and_the_nearest_takes_the_most() -> None:
    held = [HeldLevel("NEAR", 54e6, NEAR, -8, 10), HeldLevel("FAR", 54e6, FAR, -8, 10)]
    (found,) = budget(held, upstream=False)
    assert found == Budget(54e6, Bound(-8 + 21, "FAR"), Bound(10 + 4.5, "NEAR"))
    assert found.is_possible


def test_where_no_level_does_for_all_it_is_told() -> None:
    held = [HeldLevel("NEAR", 54e6, NEAR, 0, 8), HeldLevel("FAR", 54e6, FAR, 0, 8)]
    (found,) = budget(held, upstream=False)
    assert found == Budget(54e6, Bound(21, "FAR"), Bound(12.5, "NEAR"))
    assert not found.is_possible


def test_of_what_modems_can_send_the_greatest_loss_is_taken() -> None:
    held = [
        HeldLevel("NEAR", 42e6, NEAR, None, 51),
        HeldLevel("FAR", 42e6, FAR, None, 51),
        HeldLevel("FAR", 5e6, NEAR, None, 51),
    ]
    assert budget(held, upstream=True) == (
        Budget(5e6, None, Bound(51 - 5.5, "FAR")),
        Budget(42e6, None, Bound(51 - 21, "FAR")),
    )


def test_without_a_window_there_is_none() -> None:
    assert budget([HeldLevel("NEAR", 54e6, NEAR, None, None)], upstream=False) == ()
