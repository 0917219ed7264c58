"""A two-way splitter measured from 5 to 590 MHz in 50 ohm, and what that is in 75 ohm (test data CC BY 3.0).

The 75 ohm columns were made from the measurement with its phases; the sizes alone do not lead back to 50 ohm exactly.
"""

from __future__ import annotations

from math import log10

import pytest
from accuracy import near, rows

from coaxwright.physics.dividers import divider
from coaxwright.physics.dividing import ideal_split_db
from coaxwright.physics.matrices import Matrix
from coaxwright.physics.scatterers import renormalized
from coaxwright.physics.scattering import is_passive

ROWS = rows("splitter_2way_measured.csv")
SIZES = {
    "loss_db_75_ohm": (1, 0),
    "isolation_db_75_ohm": (2, 1),
    "return_loss_in_db_75_ohm": (0, 0),
    "return_loss_out_db_75_ohm": (1, 1),
}


def matrix_of(row: dict[str, str]) -> Matrix:
    loss_db = float(row["loss_db_75_ohm"])
    return divider(
        [float(row["freq_mhz"]) * 1e6],
        [loss_db, loss_db],
        float(row["return_loss_in_db_75_ohm"]),
        float(row["return_loss_out_db_75_ohm"]),
        float(row["isolation_db_75_ohm"]),
    )[0]


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row["freq_mhz"])
def test_matrix_has_the_sizes_of_the_measurement_and_is_passive(row: dict[str, str]) -> None:
    matrix = matrix_of(row)
    assert is_passive(matrix)
    assert float(row["loss_db_75_ohm"]) > ideal_split_db(2)
    for name, (to, source) in SIZES.items():
        computed_db = -20 * log10(abs(matrix[to][source]))
        near("splitters and taps", f"{row['source']}: sizes kept", computed_db, float(row[name]), "dB", 1e-9)


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row["freq_mhz"])
def test_loss_in_50_ohm_without_knowing_the_phases(row: dict[str, str]) -> None:
    """What ignorance of the phases costs where a 75 ohm splitter stands in a 50 ohm system: up to 1.7 dB."""
    in_50_ohm = renormalized(matrix_of(row), [75.0] * 3, 50.0)
    computed_db = -20 * log10(abs(in_50_ohm[1][0]))
    expected_db = float(row["loss_db_50_ohm"])
    near("splitters and taps", f"{row['source']}: loss in 50 ohm, phases unknown", computed_db, expected_db, "dB", 1.7)
