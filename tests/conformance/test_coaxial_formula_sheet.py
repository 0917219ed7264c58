"""The constants of a coaxial formula sheet and of its like, and what they are by derivation."""

from __future__ import annotations

from math import sqrt

import pytest
from accuracy import compare, named, rows

from coaxwright.physics import geometry, line_loss

FT = 0.3048
IN = 0.0254


def conductor_db_per_100_ft(outer_in: float, inner_in: float, impedance_ohm: float) -> float:
    """At 1 MHz, for a line whose velocity gives that impedance."""
    velocity_factor = impedance_ohm / geometry.characteristic_impedance_ohm(outer_in, inner_in, 1.0)
    line = line_loss.CrossSection(outer_in * IN, inner_in * IN, velocity_factor)
    return line_loss.conductor_loss_db_per_m(1e6, line) * 100 * FT


QUANTITIES = {
    "impedance_ohm": lambda ratio, er: geometry.characteristic_impedance_ohm(ratio, 1, 1 / sqrt(er)),
    "capacitance_pf_per_ft": lambda ratio, er: geometry.capacitance_pf_per_m(ratio, 1, 1 / sqrt(er)) * FT,
    "capacitance_of_impedance_pf_per_ft": lambda impedance_ohm, velocity: (
        geometry.capacitance_of_impedance_pf_per_m(impedance_ohm, velocity) * FT
    ),
    "inductance_uh_per_ft": lambda ratio: geometry.inductance_uh_per_m(ratio, 1) * FT,
    "delay_ns_per_ft": lambda er: geometry.delay_s_per_m(1 / sqrt(er)) * 1e9 * FT,
    "cutoff_ghz": lambda sum_in, er: geometry.cutoff_hz(sum_in * 0.8 * 25.4, sum_in * 0.2 * 25.4, 1 / sqrt(er)) / 1e9,
    "conductor_db_per_100_ft": conductor_db_per_100_ft,
    "dielectric_db_per_100_ft": lambda er, loss_tangent: (
        line_loss.dielectric_loss_db_per_m(1e6, 1 / sqrt(er), loss_tangent) * 100 * FT
    ),
}


@pytest.mark.parametrize("row", rows("coaxial_formula_sheet.csv"), ids=lambda row: f"{named(row)}-{row['expected']}")
def test_constants(row: dict[str, str]) -> None:
    compare("coaxial line", row, QUANTITIES)
