"""Loss in the form of MIL-C-17, k1 sqrt(f) + k2 f, from an example with its coefficients."""

from __future__ import annotations

import pytest
from accuracy import compare, named, rows
from quantities import QUANTITIES


@pytest.mark.parametrize("row", rows("mil_c_17_form.csv"), ids=named)
def test_published_figures(row: dict[str, str]) -> None:
    compare("loss of cable", row, QUANTITIES)
