"""Losses of ideal splitters and couplers, derived from conservation of power apart from the project."""

from __future__ import annotations

import pytest
from accuracy import compare, named, rows

from coaxwright.physics.dividing import ideal_split_db, ideal_through_db

QUANTITIES = {"split_db": lambda ways: ideal_split_db(int(ways)), "through_db": lambda tap_db: ideal_through_db(tap_db)}


@pytest.mark.parametrize("row", rows("ideal_dividing.csv"), ids=named)
def test_ideal_losses(row: dict[str, str]) -> None:
    compare("splitters and taps", row, QUANTITIES)
