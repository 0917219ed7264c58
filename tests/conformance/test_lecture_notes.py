"""University lecture notes: powers are added, not decibels."""

from __future__ import annotations

import pytest
from accuracy import compare, named, rows
from quantities import QUANTITIES


@pytest.mark.parametrize("row", rows("lecture_notes.csv"), ids=named)
def test_published_figures(row: dict[str, str]) -> None:
    compare("levels and units", row, QUANTITIES)
