"""ASTM B258: diameters and cross-sections of American wire gauge sizes; resistance by NBS Handbook 100."""

from __future__ import annotations

from math import pi

import pytest
from accuracy import near, rows

from coaxwright.physics.conductors import awg_area_mm2, awg_diameter_mm, wire_resistance_ohm_per_m

ROWS = rows("astm_b258.csv")


@pytest.mark.parametrize("row", ROWS, ids=lambda row: f"{row['gauge']}-{row['confidence']}")
def test_diameter_is_the_published_one_to_a_tenth_of_a_mil(row: dict[str, str]) -> None:
    diameter_in = awg_diameter_mm(int(row["gauge"])) / 25.4
    near("wire", "ASTM B258: diameter", diameter_in, float(row["diameter_in"]), "in", 0.000051)


@pytest.mark.parametrize("row", [row for row in ROWS if row["area_mm2"]], ids=lambda row: row["gauge"])
def test_area(row: dict[str, str]) -> None:
    # The table squares the rounded diameter: 0.1 mil of 8 mil is 1.3 % for the thinnest size.
    near("wire", "ASTM B258: cross-section", awg_area_mm2(int(row["gauge"])), float(row["area_mm2"]), "%", 1.3)


@pytest.mark.parametrize("row", ROWS, ids=lambda row: f"{row['gauge']}-{row['confidence']}")
def test_resistance_of_the_rounded_diameter(row: dict[str, str]) -> None:
    area_mm2 = pi / 4 * (float(row["diameter_in"]) * 25.4) ** 2
    resistance_ohm_per_1000_ft = wire_resistance_ohm_per_m(area_mm2) * 304.8
    # Half a digit of the printed figure; the found table prints 14 AWG as 2.53, which is 0.3 % more.
    expected = float(row["resistance_ohm_per_1000_ft"])
    near("wire", "NBS Handbook 100: resistance", resistance_ohm_per_1000_ft, expected, "%", 0.4)
