"""Cables by their military type numbers: a handbook's table from memory, and figures found elsewhere.

Comparing the catalogue with the handbook's table is a check of the transcription only. The found figures are
independent of it. A type number alone does not fix the construction: a figure found for the number has to lie
among those of its constructions.
"""

from __future__ import annotations

import csv
from pathlib import Path

import pytest

from coaxwright.catalogue import AttenuationKind, CableClass, load_catalogue

DATA = Path(__file__).parent / "data"
M_PER_100_FT = 30.48
CLASSES = load_catalogue().every_class


def rows(name: str) -> list[dict[str, str]]:
    return list(csv.DictReader((DATA / name).read_text(encoding="utf-8").splitlines()))


def constructions(cable_type: str) -> list[CableClass]:
    """The class of that name, or every construction of a type number that names several."""
    if cable_type in ("58-type", "59-type"):
        return [entry for name, entry in CLASSES.items() if name.startswith(cable_type)]
    return [CLASSES[cable_type]]


@pytest.mark.parametrize(
    "row", rows("handbook_cable_loss.csv"), ids=lambda row: f"{row['cable_class']}-{row['freq_mhz']}"
)
def test_transcription_of_the_loss_table(row: dict[str, str]) -> None:
    attenuation = CLASSES[row["cable_class"]].attenuation
    assert attenuation.kind is AttenuationKind.NOMINAL
    loss = attenuation.loss_db_per_m(float(row["freq_mhz"]) * 1e6)
    assert loss.nominal_db_per_m * M_PER_100_FT == pytest.approx(float(row["loss_db_per_100_ft"]), rel=1e-12)


@pytest.mark.parametrize("row", rows("handbook_cable_geometry.csv"), ids=lambda row: row["cable_class"])
def test_transcription_of_dimensions(row: dict[str, str]) -> None:
    entry = CLASSES[row["cable_class"]]
    assert entry.impedance_ohm == float(row["impedance_ohm"])
    assert entry.velocity_factor == pytest.approx(float(row["velocity_percent"]) / 100)
    assert entry.capacitance_pf_per_m is not None
    assert entry.capacitance_pf_per_m * 0.3048 == pytest.approx(float(row["capacitance_pf_per_ft"]))
    assert entry.dielectric_diameter_m / 0.0254 == pytest.approx(float(row["dielectric_in"]))
    for shield in entry.shields.values():
        assert shield.outer_diameter_m == pytest.approx(float(row["outer_in"]) * 0.0254)


@pytest.mark.parametrize(
    "row",
    rows("handbook_cable_loss_found.csv"),
    ids=lambda row: f"{row['cable_type']}-{row['freq_mhz']}-{row['source'][:12]}",
)
def test_found_figures_lie_within_the_spread(row: dict[str, str]) -> None:
    losses = [
        entry.attenuation.loss_db_per_m(float(row["freq_mhz"]) * 1e6) for entry in constructions(row["cable_type"])
    ]
    assert losses
    found_db, half_a_digit_db = float(row["loss_db_per_100_ft"]), 0.05
    assert found_db >= min(loss.low_db_per_m for loss in losses) * M_PER_100_FT - half_a_digit_db
    assert found_db <= max(loss.high_db_per_m for loss in losses) * M_PER_100_FT + half_a_digit_db


def test_a_type_number_does_not_fix_the_loss() -> None:
    """At 1 GHz the constructions of the 58-type differ from 14.5 to 21.5 dB per 100 ft."""
    losses = [
        entry.attenuation.loss_db_per_m(1e9).nominal_db_per_m * M_PER_100_FT for entry in constructions("58-type")
    ]
    assert (min(losses), max(losses)) == pytest.approx((14.5, 21.5))
