"""A web page's table of standing-wave ratio and return loss; its row of 1.8 is wrong and left out."""

from __future__ import annotations

import pytest
from accuracy import compare, named, rows
from quantities import QUANTITIES

from coaxwright.physics import mismatch


@pytest.mark.parametrize("row", rows("vswr_table_page.csv"), ids=named)
def test_published_figures(row: dict[str, str]) -> None:
    compare("mismatch", row, QUANTITIES)


def test_a_row_that_is_wrong() -> None:
    """The table prints VSWR 1.8 as 10.2 dB and 31.5 %; the formula gives 10.88 dB and 28.6 % (of voltage)."""
    reflection = mismatch.reflection_of_vswr(1.8)
    assert mismatch.return_loss_db(reflection) == pytest.approx(10.88, abs=0.005)
    assert reflection == pytest.approx(0.286, abs=0.0005)


def test_return_loss_is_not_the_standing_wave_ratio_in_decibels() -> None:
    """Another page states return loss as 20 log VSWR: 3.5 dB for 1.5, which is 14 dB."""
    assert mismatch.return_loss_db(mismatch.reflection_of_vswr(1.5)) == pytest.approx(13.979, abs=0.001)
