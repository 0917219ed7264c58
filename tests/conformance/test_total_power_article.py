"""A cable-engineering magazine's article on total power: levels, voltages and powers in 75 ohm."""

from __future__ import annotations

import pytest
from accuracy import compare, named, rows
from quantities import QUANTITIES


@pytest.mark.parametrize("row", rows("total_power_article.csv"), ids=named)
def test_published_figures(row: dict[str, str]) -> None:
    compare("levels and units", row, QUANTITIES)
