"""A web page's graph of voltages and powers in 50 ohm."""

from __future__ import annotations

import pytest
from accuracy import compare, named, rows
from quantities import QUANTITIES


@pytest.mark.parametrize("row", rows("conversion_graph.csv"), ids=named)
def test_published_figures(row: dict[str, str]) -> None:
    compare("levels and units", row, QUANTITIES)
