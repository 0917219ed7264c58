"""Losses of ideal splitters and couplers, derived from conservation of power apart from the project."""

from __future__ import annotations

import pytest
from accuracy import compare, named, rows
from quantities import QUANTITIES


@pytest.mark.parametrize("row", rows("ideal_dividing.csv"), ids=named)
def test_published_figures(row: dict[str, str]) -> None:
    compare("splitters and taps", row, QUANTITIES)
