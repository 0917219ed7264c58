"""A posting with figures on an amateur-radio tower mailing list, 1998: reflected power and mismatch loss."""

from __future__ import annotations

import pytest
from accuracy import compare, named, rows
from quantities import QUANTITIES


@pytest.mark.parametrize("row", rows("tower_reflector_posting.csv"), ids=named)
def test_published_figures(row: dict[str, str]) -> None:
    compare("mismatch", row, QUANTITIES)
