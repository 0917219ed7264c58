"""A cable note: 0.2 % per K above 300 MHz, results recomputed."""

from __future__ import annotations

import pytest
from accuracy import compare, named, rows
from quantities import QUANTITIES


@pytest.mark.parametrize("row", rows("temperature_cable_note.csv"), ids=named)
def test_published_figures(row: dict[str, str]) -> None:
    compare("temperature", row, QUANTITIES)
