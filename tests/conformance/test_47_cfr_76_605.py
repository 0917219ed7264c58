"""47 CFR 76.605(a)(3), text of 2013: least visual signal level at the subscriber's terminal."""

from __future__ import annotations

import pytest
from accuracy import compare, named, rows
from quantities import QUANTITIES


@pytest.mark.parametrize("row", rows("cfr_47_76_605.csv"), ids=named)
def test_published_figures(row: dict[str, str]) -> None:
    compare("levels and units", row, QUANTITIES)
