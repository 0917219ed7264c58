"""A 50 ohm line joined to a 75 ohm one, derived apart from the project."""

from __future__ import annotations

import pytest
from accuracy import compare, named, rows
from quantities import QUANTITIES


@pytest.mark.parametrize("row", rows("direct_junction.csv"), ids=named)
def test_published_figures(row: dict[str, str]) -> None:
    compare("mismatch", row, QUANTITIES)
