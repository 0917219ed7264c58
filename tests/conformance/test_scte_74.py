"""ANSI/SCTE 74: drop cable, maximum attenuation and dimensions.

The table itself is from memory of trade data that print it, so comparing the catalogue with it is a check of the
transcription only. The published typical figures are independent of it and are the real check.
"""

from __future__ import annotations

import csv
from math import sqrt
from pathlib import Path

import pytest
from accuracy import near

from coaxwright.catalogue import AttenuationKind, CableClass, load_catalogue
from coaxwright.physics.attenuation import FrequencyOutsideTable
from coaxwright.physics.geometry import capacitance_of_impedance_pf_per_m, characteristic_impedance_ohm

DATA = Path(__file__).parent / "data"
M_PER_100_FT = 30.48


def rows(name: str) -> list[dict[str, str]]:
    return list(csv.DictReader((DATA / name).read_text(encoding="utf-8").splitlines()))


def named(row: dict[str, str]) -> str:
    return f"{row['cable_class']}-{row['freq_mhz']}"


def cable_class(row: dict[str, str]) -> CableClass:
    return load_catalogue().every_class[row["cable_class"]]


@pytest.mark.parametrize("row", rows("scte_74_drop_loss.csv"), ids=named)
def test_transcription_of_the_maximum_table(row: dict[str, str]) -> None:
    attenuation = cable_class(row).attenuation
    assert attenuation.kind is AttenuationKind.MAXIMUM
    loss = attenuation.loss_db_per_m(float(row["freq_mhz"]) * 1e6)
    assert loss.nominal_db_per_m * M_PER_100_FT == pytest.approx(float(row["loss_db_per_100_ft"]), rel=1e-12)


@pytest.mark.parametrize("name", ["series 59", "series 6", "series 7", "series 11"])
def test_the_catalogue_has_no_other_published_points(name: str) -> None:
    expected = [float(row["freq_mhz"]) * 1e6 for row in rows("scte_74_drop_loss.csv") if row["cable_class"] == name]
    assert list(load_catalogue().every_class[name].attenuation.published.points[0]) == expected


@pytest.mark.parametrize("row", rows("scte_74_drop_loss_beyond.csv"), ids=named)
def test_derived_points_beyond_the_table(row: dict[str, str]) -> None:
    attenuation = cable_class(row).attenuation
    freq_hz = float(row["freq_mhz"]) * 1e6
    loss = attenuation.loss_db_per_m(freq_hz)
    assert freq_hz > attenuation.highest_published_hz
    assert loss.nominal_db_per_m * M_PER_100_FT == pytest.approx(float(row["loss_db_per_100_ft"]), rel=1e-12)


@pytest.mark.parametrize("row", rows("scte_74_drop_loss_found.csv"), ids=named)
def test_found_typical_figures_lie_within_the_spread(row: dict[str, str]) -> None:
    loss = cable_class(row).attenuation.loss_db_per_m(float(row["freq_mhz"]) * 1e6)
    half_a_digit_db = 0.05
    found_db = float(row["loss_db_per_100_ft"])
    nominal_db = loss.nominal_db_per_m * M_PER_100_FT
    near("loss of cable", "ANSI/SCTE 74 maximum beside typical figures found elsewhere", nominal_db, found_db, "%", 15)
    assert loss.low_db_per_m * M_PER_100_FT - half_a_digit_db <= found_db
    assert found_db <= loss.high_db_per_m * M_PER_100_FT + half_a_digit_db


@pytest.mark.parametrize(
    ("name", "k0", "k1", "k2"),
    # Three-term fits in dB/100 ft and MHz, derived by least squares, within 2.12 % of every point.
    [
        ("series 59", 0.3468, 0.22768, 0.000534),
        ("series 6", 0.1424, 0.19513, 0.000254),
        ("series 7", 0.1416, 0.14538, 0.000578),
        ("series 11", 0.1341, 0.10786, 0.000757),
    ],
)
@pytest.mark.parametrize("freq_mhz", [7, 12, 20, 30, 42, 65, 120, 150, 230, 533, 650, 800, 950])
def test_interpolation_follows_the_fit_between_points(
    name: str, k0: float, k1: float, k2: float, freq_mhz: float
) -> None:
    loss = load_catalogue().every_class[name].attenuation.loss_db_per_m(freq_mhz * 1e6)
    fitted_db = k0 + k1 * sqrt(freq_mhz) + k2 * freq_mhz
    computed_db = loss.nominal_db_per_m * M_PER_100_FT
    near("loss of cable", "three-term fits of ANSI/SCTE 74, between the points", computed_db, fitted_db, "%", 2.5)


@pytest.mark.parametrize("freq_mhz", [0, 1.544, 4.9, 3001])
def test_nothing_is_extrapolated(freq_mhz: float) -> None:
    with pytest.raises(FrequencyOutsideTable):
        load_catalogue().every_class["series 6"].attenuation.loss_db_per_m(freq_mhz * 1e6)


@pytest.mark.parametrize("row", rows("scte_74_drop_geometry.csv"), ids=lambda row: row["cable_class"])
def test_transcription_of_dimensions_and_derived_resistances(row: dict[str, str]) -> None:
    entry = cable_class(row)
    assert entry.center_diameter_m / 0.0254 == pytest.approx(float(row["center_in"]))
    assert entry.dielectric_diameter_m / 0.0254 == pytest.approx(float(row["dielectric_in"]))
    copper, clad = entry.centers["copper"], entry.centers["copper-clad steel"]
    assert copper.resistance_ohm_per_m is not None
    assert clad.resistance_ohm_per_m is not None
    assert copper.resistance_ohm_per_m * 304.8 == pytest.approx(float(row["center_copper_ohm_per_1000_ft"]))
    assert clad.resistance_ohm_per_m * 304.8 == pytest.approx(float(row["center_clad_ohm_per_1000_ft"]))


@pytest.mark.parametrize("row", rows("scte_74_drop_geometry.csv"), ids=lambda row: row["cable_class"])
def test_derived_impedance_and_capacitance(row: dict[str, str]) -> None:
    center_mm, dielectric_mm = float(row["center_in"]) * 25.4, float(row["dielectric_in"]) * 25.4
    impedance_ohm = characteristic_impedance_ohm(dielectric_mm, center_mm, 0.85)
    assert impedance_ohm == pytest.approx(float(row["z0_at_85_percent_ohm"]), abs=0.05)
    capacitance = capacitance_of_impedance_pf_per_m(75, 0.85) * 0.3048
    assert capacitance == pytest.approx(float(row["capacitance_pf_per_ft"]), abs=0.06)
