"""ASTM B869-04: copper-clad steel wire for cable-television drop cable, Table 1."""

from __future__ import annotations

from math import pi

import pytest
from accuracy import near, rows

from coaxwright.catalogue import load_catalogue
from coaxwright.physics.conductors import ccs_max_resistance_ohm_per_m, wire_resistance_ohm_per_m

ROWS = rows("astm_b869.csv")
CLASS_OF_GAUGE = {"14": "series 11", "16": "series 7", "18": "series 6", "20": "series 59"}


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row["gauge"])
def test_maximum_resistance(row: dict[str, str]) -> None:
    resistance = ccs_max_resistance_ohm_per_m(float(row["diameter_in"]) * 25.4, float(row["tolerance_in"]) * 25.4)
    expected = float(row["max_ohm_per_1000_ft"])
    near("wire", "ASTM B869-04: greatest resistance", resistance * 304.8, expected, "%", 0.02)


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row["gauge"])
def test_nominal_resistance_is_below_the_maximum(row: dict[str, str]) -> None:
    area_mm2 = pi / 4 * (float(row["diameter_in"]) * 25.4) ** 2
    nominal = wire_resistance_ohm_per_m(area_mm2, 0.21) * 304.8
    near("wire", "ASTM B869-04: nominal resistance", nominal, float(row["nominal_ohm_per_1000_ft"]), "%", 0.02)
    assert nominal < float(row["max_ohm_per_1000_ft"])


@pytest.mark.parametrize("row", [row for row in ROWS if row["gauge"] in CLASS_OF_GAUGE], ids=lambda row: row["gauge"])
def test_catalogue_centers_are_between_nominal_and_maximum(row: dict[str, str]) -> None:
    center = load_catalogue().every_class[CLASS_OF_GAUGE[row["gauge"]]].centers["copper-clad steel"]
    assert center.resistance_ohm_per_m is not None
    resistance = center.resistance_ohm_per_m * 304.8
    assert float(row["nominal_ohm_per_1000_ft"]) * 0.999 <= resistance <= float(row["max_ohm_per_1000_ft"])
