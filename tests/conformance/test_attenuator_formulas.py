"""Formulas of a matched pad, seen; figures of 6 dB in 75 ohm recomputed."""

from __future__ import annotations

import pytest
from accuracy import compare, named, rows
from quantities import QUANTITIES


@pytest.mark.parametrize("row", rows("attenuator_formulas.csv"), ids=named)
def test_published_figures(row: dict[str, str]) -> None:
    compare("mismatch", row, QUANTITIES)
