"""A reactor-instrument handbook, section 5.2.4: the loss of a 75 ohm cable of the 1950s, about 3 dB per 100 ft.

Its dimensions are from memory, its loss tangent is the upper one of polyethylene. Smooth copper gives 2.6 dB; the braid
and the clad-steel center make the rest, so the smooth figure has to be the lower one.
"""

from __future__ import annotations

import pytest
from accuracy import near, rows

from coaxwright.physics.line_loss import CrossSection, exact_wave


@pytest.mark.parametrize("row", rows("reactor_handbook.csv"), ids=lambda row: row["freq_mhz"])
def test_loss_of_a_line(row: dict[str, str]) -> None:
    section = CrossSection(
        float(row["outer_mm"]) * 1e-3, float(row["inner_mm"]) * 1e-3, float(row["velocity"]), float(row["loss_tangent"])
    )
    computed_db = exact_wave(float(row["freq_mhz"]) * 1e6, section).loss_db_per_m * 30.48
    published_db = float(row["loss_db_per_100_ft"])
    assert computed_db < published_db
    near("loss from geometry", row["source"], computed_db, published_db, "dB/100 ft", float(row["allowed_db"]))
