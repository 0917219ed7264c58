"""A home-wiring article: the gain that an amplifier needs ahead of an eight-way splitter."""

from __future__ import annotations

import pytest
from accuracy import compare, named, rows
from quantities import QUANTITIES


@pytest.mark.parametrize("row", rows("home_wiring_article.csv"), ids=named)
def test_published_figures(row: dict[str, str]) -> None:
    compare("amplifiers", row, QUANTITIES)
