"""A home-wiring article: the gain that an amplifier needs ahead of an eight-way splitter."""

from __future__ import annotations

import pytest
from accuracy import compare, named, rows

from coaxwright.physics.placing import gain_window_db

QUANTITIES = {
    "least_gain_db": lambda antenna_dbmv, splitter_db, least_dbmv, most_dbmv: (
        gain_window_db(antenna_dbmv, splitter_db, least_dbmv, most_dbmv).least_db
    ),
    "most_gain_db": lambda antenna_dbmv, splitter_db, least_dbmv, most_dbmv: (
        gain_window_db(antenna_dbmv, splitter_db, least_dbmv, most_dbmv).most_db
    ),
}


@pytest.mark.parametrize("row", rows("home_wiring_article.csv"), ids=named)
def test_gain_window(row: dict[str, str]) -> None:
    compare("amplifiers", row, QUANTITIES)
