"""The manual page of a coaxial calculator: 59.9585 ln(D/d)/sqrt(er)."""

from __future__ import annotations

import pytest
from accuracy import compare, named, rows
from quantities import QUANTITIES


@pytest.mark.parametrize("row", rows("coaxial_calculator_manual.csv"), ids=named)
def test_published_figures(row: dict[str, str]) -> None:
    compare("coaxial line", row, QUANTITIES)
