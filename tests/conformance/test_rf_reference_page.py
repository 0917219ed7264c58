"""A radio-frequency reference page: two mismatches of VSWR 2.0 and 1.5, alone and together."""

from __future__ import annotations

import pytest
from accuracy import compare, named, rows
from quantities import QUANTITIES


@pytest.mark.parametrize("row", rows("rf_reference_page.csv"), ids=named)
def test_published_figures(row: dict[str, str]) -> None:
    compare("mismatch", row, QUANTITIES)
