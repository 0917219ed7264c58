"""An article on selecting coaxial lightning protectors: pairs of return loss and standing-wave ratio."""

from __future__ import annotations

import pytest
from accuracy import compare, named, rows
from quantities import QUANTITIES


@pytest.mark.parametrize("row", rows("lightning_protector_article.csv"), ids=named)
def test_published_figures(row: dict[str, str]) -> None:
    compare("mismatch", row, QUANTITIES)
