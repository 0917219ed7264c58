"""A mailing list's worked conversion of 50 µV in 50 ohm."""

from __future__ import annotations

import pytest
from accuracy import compare, named, rows
from quantities import QUANTITIES

from coaxwright.physics import levels


@pytest.mark.parametrize("row", rows("conversion_posting.csv"), ids=named)
def test_published_figures(row: dict[str, str]) -> None:
    compare("levels and units", row, QUANTITIES)


def test_a_page_that_is_wrong() -> None:
    """One page quotes -44 dBm as 55 mV in 75 ohm; it is 1.73 mV."""
    assert levels.volts_of_dbmv(levels.dbmv_of_dbm(-44, 75)) * 1e3 == pytest.approx(1.73, abs=0.005)
