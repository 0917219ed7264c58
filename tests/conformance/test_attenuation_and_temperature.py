"""Technical tip: coaxial attenuation and temperature, with a worked example."""

from __future__ import annotations

import pytest
from accuracy import near

from coaxwright.physics.attenuation import loss_at_temperature


def test_worked_example() -> None:
    """11.0 dB at 68 °F is 11.4 dB at 100 °F (found; 11.387 by the tip's own 0.0011 per °F)."""
    loss_db = loss_at_temperature(11.0, (100 - 32) / 1.8)
    near("temperature", "technical tip on attenuation and temperature", loss_db, 11.387, "dB", 0.0005)
    assert round(loss_db, 1) == 11.4


@pytest.mark.parametrize(("temperature_c", "expected_db"), [(40, 10.4), (-30, 9.0)])
def test_two_parts_in_a_thousand_per_kelvin(temperature_c: float, expected_db: float) -> None:
    """Cable note: 0.2 % per K above 300 MHz (found, figures recomputed)."""
    near("temperature", "cable note, 0.2 % per K", loss_at_temperature(10.0, temperature_c), expected_db, "dB", 0.02)
