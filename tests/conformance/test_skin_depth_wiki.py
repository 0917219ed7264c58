"""A public wiki's table of skin depths."""

from __future__ import annotations

import pytest
from accuracy import compare, named, rows
from quantities import QUANTITIES


@pytest.mark.parametrize("row", rows("skin_depth_wiki.csv"), ids=named)
def test_published_figures(row: dict[str, str]) -> None:
    compare("skin effect", row, QUANTITIES)
