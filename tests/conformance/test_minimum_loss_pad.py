"""A handbook's table of minimum-loss pads."""

from __future__ import annotations

import csv
from pathlib import Path

import pytest

from coaxwright.physics.mismatch import minimum_loss_pad

ROWS = list(
    csv.DictReader((Path(__file__).parent / "data" / "minimum_loss_pad.csv").read_text(encoding="utf-8").splitlines())
)


@pytest.mark.parametrize("row", ROWS, ids=lambda row: f"{row['higher_ohm']}-{row['lower_ohm']}")
def test_published_pads(row: dict[str, str]) -> None:
    pad = minimum_loss_pad(float(row["higher_ohm"]), float(row["lower_ohm"]))
    assert pad.series_ohm == pytest.approx(float(row["series_ohm"]), rel=0.003)
    assert pad.shunt_ohm == pytest.approx(float(row["shunt_ohm"]), rel=0.003)
    assert pad.loss_db == pytest.approx(float(row["loss_db"]), abs=0.1)
