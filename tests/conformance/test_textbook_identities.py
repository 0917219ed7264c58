"""Figures every textbook prints. From memory, so they are a check against slips and no proof."""

from __future__ import annotations

import pytest
from accuracy import compare, named, rows
from quantities import QUANTITIES


@pytest.mark.parametrize("row", rows("textbook_identities.csv"), ids=named)
def test_identities(row: dict[str, str]) -> None:
    compare("textbook, from memory", row, QUANTITIES)
