"""Coaxial attenuation formulas: the conductors' loss of a Series 6 cross-section, smooth copper."""

from __future__ import annotations

import pytest
from accuracy import compare, named, rows
from quantities import QUANTITIES


@pytest.mark.parametrize("row", rows("coaxial_attenuation_formulas.csv"), ids=named)
def test_published_figures(row: dict[str, str]) -> None:
    compare("coaxial line", row, QUANTITIES)
