"""Velocity of Propagation, Communications Technology, March 2010: the speed of light in feet, and delays."""

from __future__ import annotations

import pytest
from accuracy import compare, named, rows
from quantities import QUANTITIES


@pytest.mark.parametrize("row", rows("velocity_article.csv"), ids=named)
def test_published_figures(row: dict[str, str]) -> None:
    compare("coaxial line", row, QUANTITIES)
