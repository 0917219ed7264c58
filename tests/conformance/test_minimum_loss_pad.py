"""A handbook's table of minimum-loss pads."""

from __future__ import annotations

import pytest
from accuracy import near, rows

from coaxwright.physics.mismatch import minimum_loss_pad

ROWS = rows("minimum_loss_pad.csv")


@pytest.mark.parametrize("row", ROWS, ids=lambda row: f"{row['higher_ohm']}-{row['lower_ohm']}")
def test_published_pads(row: dict[str, str]) -> None:
    pad = minimum_loss_pad(float(row["higher_ohm"]), float(row["lower_ohm"]))
    near("mismatch", row["source"], pad.series_ohm, float(row["series_ohm"]), "%", 0.3)
    near("mismatch", row["source"], pad.shunt_ohm, float(row["shunt_ohm"]), "%", 0.3)
    near("mismatch", row["source"], pad.loss_db, float(row["loss_db"]), "dB", 0.1)
