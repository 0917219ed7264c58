"""University electromagnetics textbook, problem 2.18: outer radius and velocity of a 50 ohm line in polyethylene."""

from __future__ import annotations

import pytest
from accuracy import compare, named, rows
from quantities import QUANTITIES


@pytest.mark.parametrize("row", rows("electromagnetics_textbook.csv"), ids=named)
def test_published_figures(row: dict[str, str]) -> None:
    compare("coaxial line", row, QUANTITIES)
