"""Sizes of wire as an author orders them: ``coaxwright.design.wire_sizes``."""

from __future__ import annotations

from coaxwright.design.quantities import Conductor
from coaxwright.design.wire_sizes import in_mm2, sizes_sold


def test_the_sizes_that_are_sold() -> None:
    """Nominal cross-sections of IEC 60228, and the gauges of bonding wire; both from memory."""
    assert [size.area_mm2 for size in sizes_sold(True)] == [0.5, 0.75, 1, 1.5, 2.5, 4, 6, 10, 16, 25, 35, 50, 70, 95]
    gauges = ["17", "14", "12", "10", "8", "6", "4", "2", "1/0", "2/0", "3/0", "4/0"]
    assert [size.text for size in sizes_sold(False)] == [f"{gauge} AWG" for gauge in gauges]


def test_the_cross_section_of_a_gauge_is_told_behind_it() -> None:
    assert in_mm2(Conductor.parse("10 AWG copper")) == " (5.3 mm²)"
    assert in_mm2(Conductor.parse("4 mm² copper")) == ""
