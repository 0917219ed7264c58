"""Copper-clad steel below its skin depth: an exact two-layer solution, computed apart from the project."""

from __future__ import annotations

from math import sqrt

import pytest
from accuracy import near, rows

from coaxwright.physics.line_loss import CrossSection, clad_center_ratio
from coaxwright.physics.skin_effect import COPPER, COPPER_OHM_M, Metal, layered_wire_impedance_ohm_per_m

STEEL = Metal(1 / 6e6, 100)
DIAMETER_M = 1.024e-3


@pytest.mark.parametrize("row", rows("clad_steel_ratio.csv"), ids=lambda row: f"{row['cladding_um']}-{row['freq_mhz']}")
def test_loss_over_that_of_copper(row: dict[str, str]) -> None:
    line = CrossSection(
        4.57e-3, DIAMETER_M, 1 / sqrt(1.43), 1.5e-4, STEEL, COPPER, float(row["cladding_um"]) * 1e-6, COPPER
    )
    ratio = clad_center_ratio(float(row["freq_mhz"]) * 1e6, line)
    near("copper-clad steel", row["source"], ratio, float(row["loss_ratio"]), "%", 5)


@pytest.mark.parametrize("row", rows("clad_steel_dc.csv"), ids=lambda row: row["cladding_um"])
def test_next_to_direct_current_it_is_the_two_metals_side_by_side(row: dict[str, str]) -> None:
    """At 0.01 Hz; the steel's 6e6 S/m is 10.3 % of copper."""
    cladding_m = float(row["cladding_um"]) * 1e-6
    resistance = layered_wire_impedance_ohm_per_m(0.01, DIAMETER_M, cladding_m, STEEL).real
    near("copper-clad steel", row["source"], resistance * 304.8, float(row["resistance_ohm_per_1000_ft"]), "%", 1)
    solid = layered_wire_impedance_ohm_per_m(0.01, DIAMETER_M, 0.0, COPPER).real
    assert solid == pytest.approx(COPPER_OHM_M / (3.14159265 / 4 * DIAMETER_M**2), rel=1e-6)
    near("copper-clad steel", row["source"], 100 * solid / resistance, float(row["iacs_percent"]), "%", 1)
