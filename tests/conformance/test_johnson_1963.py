"""Johnson, Transmission Lines and Networks, 1963, page 58: skin depth."""

from __future__ import annotations

import pytest
from accuracy import compare, named, rows
from quantities import QUANTITIES


@pytest.mark.parametrize("row", rows("johnson_1963.csv"), ids=named)
def test_published_figures(row: dict[str, str]) -> None:
    compare("skin effect", row, QUANTITIES)
