"""Every file of published values is read by one test file, and names where each of its rows is from."""

from __future__ import annotations

import csv
from pathlib import Path

import pytest

HERE = Path(__file__).parent
DATA = sorted(path.name for path in (HERE / "data").glob("*.csv"))
TESTS = {path.name: path.read_text(encoding="utf-8") for path in HERE.glob("test_*.py") if path != Path(__file__)}
SHARED = {
    "handbook_cable_loss.csv": {"test_handbook_cables.py", "test_loss_fits.py"},
    "scte_74_drop_loss.csv": {"test_scte_74.py", "test_loss_fits.py", "test_trade_limits.py"},
    "nfpa_70.csv": {"test_nfpa_70.py", "test_trade_limits.py"},
}
"""Tables of loss, read once as such and once to fit a curve to; and documents that limits of the trade rest on too."""
CONFIDENCE = ("found", "derived", "from memory", "memory")


@pytest.mark.parametrize("name", DATA)
def test_a_file_of_values_is_read_by_one_test(name: str) -> None:
    readers = {test for test, text in TESTS.items() if f'"{name}"' in text}
    assert readers == SHARED.get(name, readers)
    assert len(readers) == len(SHARED.get(name, {name}))


@pytest.mark.parametrize("name", DATA)
def test_every_row_says_where_it_is_from(name: str) -> None:
    for row in csv.DictReader((HERE / "data" / name).read_text(encoding="utf-8").splitlines()):
        assert row["confidence"].startswith(CONFIDENCE), row
        stands_in = row["source"] if "source" in row else f"{row['edition']}, {row['clause']}"
        assert len(stands_in) > 8, row
