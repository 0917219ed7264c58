"""The constants of a coaxial formula sheet, and what they are by derivation."""

from __future__ import annotations

import pytest
from accuracy import compare, named, rows
from quantities import QUANTITIES


@pytest.mark.parametrize("row", rows("coaxial_formula_sheet.csv"), ids=named)
def test_published_figures(row: dict[str, str]) -> None:
    compare("coaxial line", row, QUANTITIES)
