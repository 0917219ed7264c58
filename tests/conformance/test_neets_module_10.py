"""US Navy NEETS Module 10: impedance and velocity of a line from its constants."""

from __future__ import annotations

import pytest
from accuracy import compare, named, rows

from coaxwright.physics import geometry

QUANTITIES = {
    "impedance_ohm": geometry.impedance_of_constants_ohm,
    "velocity_ft_per_s": lambda inductance_h, capacitance_f, section_ft: (
        section_ft * geometry.velocity_of_constants_m_per_s(inductance_h, capacitance_f)
    ),
}


@pytest.mark.parametrize("row", rows("neets_module_10.csv"), ids=named)
def test_line_section(row: dict[str, str]) -> None:
    """The section's constants count as one length, so the speed is in sections per second."""
    compare("coaxial line", row, QUANTITIES)
