"""An amateur engineering blog on the resistance of a wire at 1.8 MHz."""

from __future__ import annotations

import pytest
from accuracy import compare, named, rows
from quantities import QUANTITIES

from coaxwright.physics import skin_effect


@pytest.mark.parametrize("row", rows("wire_resistance_blog.csv"), ids=named)
def test_published_figures(row: dict[str, str]) -> None:
    compare("skin effect", row, QUANTITIES)


def test_a_page_that_is_wrong() -> None:
    """Another page prints 0.0349 ohm/m for 1.6 mm of copper at 1.8 MHz; the exact solution is 0.0718."""
    assert skin_effect.wire_impedance_ohm_per_m(1.8e6, 1.6e-3).real == pytest.approx(0.0718, rel=0.005)
