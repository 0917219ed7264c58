"""50 ohm low-loss cable: a county emergency service's page of found figures, and the derived table."""

from __future__ import annotations

import csv
from pathlib import Path

import pytest
from accuracy import near

from coaxwright.catalogue import load_catalogue

ROWS = list(
    csv.DictReader((Path(__file__).parent / "data" / "low_loss_50_ohm.csv").read_text(encoding="utf-8").splitlines())
)


@pytest.mark.parametrize("row", ROWS, ids=lambda row: f"{row['cable_class']}-{row['confidence']}-{row['freq_mhz']}")
def test_attenuation(row: dict[str, str]) -> None:
    loss = load_catalogue().every_class[row["cable_class"]].attenuation.loss_db_per_m(float(row["freq_mhz"]) * 1e6)
    low_db, nominal_db, high_db = (figure * 30.48 for figure in loss)
    published_db = float(row["loss_db_per_100_ft"])
    if row["confidence"] == "derived":
        assert nominal_db == pytest.approx(published_db, rel=1e-12)
    else:
        half_a_digit_db = 0.05
        document = "50 ohm low-loss cable, page of a county emergency service"
        near("loss of cable", document, nominal_db, published_db, "dB/100 ft", half_a_digit_db + 0.001)
        assert low_db - half_a_digit_db <= published_db <= high_db + half_a_digit_db
