"""Curves through the tables of loss: coefficients and largest residuals, fitted apart from the project."""

from __future__ import annotations

import pytest
from accuracy import near, rows

from coaxwright.physics.loss_fit import fit_loss

TABLES = {
    "scte_74": rows("scte_74_drop_loss.csv"),
    "handbook": rows("handbook_cable_loss.csv"),
}


@pytest.mark.parametrize(
    "row", rows("loss_fits.csv"), ids=lambda row: f"{row['cable_class']}-{row['with_constant']}-{row['lowest_mhz']}"
)
def test_fit(row: dict[str, str]) -> None:
    points = [
        (float(point["freq_mhz"]) * 1e6, float(point["loss_db_per_100_ft"]))
        for point in TABLES[row["table"]]
        if point["cable_class"] == row["cable_class"]
        and float(row["lowest_mhz"]) <= float(point["freq_mhz"]) <= float(row["highest_mhz"])
    ]
    curve = fit_loss([freq for freq, _ in points], [loss for _, loss in points], row["with_constant"] == "yes")
    residuals = {freq / 1e6: 100 * (loss / curve.loss(freq) - 1) for freq, loss in points}
    worst_mhz = max(residuals, key=lambda freq_mhz: abs(residuals[freq_mhz]))
    document = row["source"]
    expected = float(row["largest_residual_percent"])
    near("loss curves", f"{document}: largest residual", residuals[worst_mhz], expected, "% of the curve", 0.006)
    assert worst_mhz == float(row["at_mhz"])
    for computed, name, half_digit in (
        (curve.constant, "k0", 5.1e-5),
        (curve.per_root_mhz, "k1", 5.1e-6),
        (curve.per_mhz, "k2", 5.1e-7),
    ):
        near("loss curves", f"{document}: {name}", computed, float(row[name]), "dB/100 ft", half_digit)


def test_three_terms_follow_every_drop_cable_closely() -> None:
    largest = [abs(float(row["largest_residual_percent"])) for row in rows("loss_fits.csv") if row["k0"] != "0"]
    assert len(largest) == 4
    assert max(largest) <= 2.2
