"""Loss in the form of MIL-C-17, k1 sqrt(f) + k2 f, from an example with its coefficients."""

from __future__ import annotations

import pytest
from accuracy import compare, named, rows

from coaxwright.physics.loss_fit import LossCurve

QUANTITIES = {"loss": lambda k1, k2, freq_mhz: LossCurve(0, k1, k2, 1e6, 1e9).loss(freq_mhz * 1e6)}


@pytest.mark.parametrize("row", rows("mil_c_17_form.csv"), ids=named)
def test_example(row: dict[str, str]) -> None:
    compare("loss of cable", row, QUANTITIES)
