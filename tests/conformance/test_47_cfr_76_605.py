"""47 CFR 76.605(a)(3), text of 2013: least visual signal level at the subscriber's terminal."""

from __future__ import annotations

import pytest
from accuracy import compare, named, rows

from coaxwright.physics.levels import dbmv_of_volts, us_minimum_level_mv

QUANTITIES = {
    "least_mv": us_minimum_level_mv,
    "dbmv_of_mv": lambda voltage_mv: dbmv_of_volts(voltage_mv * 1e-3),
}


@pytest.mark.parametrize("row", rows("cfr_47_76_605.csv"), ids=named)
def test_least_level(row: dict[str, str]) -> None:
    compare("levels and units", row, QUANTITIES)
