"""A technical tip on attenuation and temperature: 11.0 dB at 68 °F is 11.4 dB at 100 °F."""

from __future__ import annotations

import pytest
from accuracy import compare, named, rows
from quantities import QUANTITIES


@pytest.mark.parametrize("row", rows("temperature_tip.csv"), ids=named)
def test_published_figures(row: dict[str, str]) -> None:
    compare("temperature", row, QUANTITIES)
