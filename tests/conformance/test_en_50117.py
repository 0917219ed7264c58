"""EN 50117: screening classes of coaxial cable, as tabulated on a web page (second hand)."""

from __future__ import annotations

import csv
from itertools import pairwise
from pathlib import Path

import pytest

from coaxwright.catalogue import load_catalogue

ROWS = list(csv.DictReader((Path(__file__).parent / "data" / "en_50117.csv").read_text(encoding="utf-8").splitlines()))
CLASSES = load_catalogue().screening_classes


@pytest.mark.parametrize("row", ROWS, ids=lambda row: f"{row['class']}-{row['from_mhz']}")
def test_limits(row: dict[str, str]) -> None:
    freq_hz = (float(row["from_mhz"]) + float(row["to_mhz"])) / 2 * 1e6
    screening = CLASSES[row["class"]]
    if row["figure"].startswith("transfer impedance"):
        impedance = screening.transfer_impedance_ohm_per_m(freq_hz)
        assert impedance == pytest.approx(float(row["limit"]) / 1000)
        assert screening.attenuation_db(freq_hz) is None
    else:
        assert screening.attenuation_db(freq_hz) == (float(row["limit"]) if row["limit"] else None)
        assert screening.transfer_impedance_ohm_per_m(freq_hz) is None


@pytest.mark.parametrize("name", CLASSES)
def test_where_bands_meet_the_lower_one_holds(name: str) -> None:
    screening = CLASSES[name]
    assert screening.attenuation_db(1e9) == screening.attenuation_db(0.9e9)
    assert screening.attenuation_db(4e6) is None
    assert screening.attenuation_db(3.1e9) is None


@pytest.mark.parametrize("freq_hz", [20e6, 500e6])
def test_the_best_class_comes_first(freq_hz: float) -> None:
    for better, worse in pairwise(CLASSES.values()):
        if freq_hz < 30e6:
            better_ohm, worse_ohm = (one.transfer_impedance_ohm_per_m(freq_hz) for one in (better, worse))
            assert better_ohm is not None
            assert worse_ohm is not None
            assert better_ohm < worse_ohm
        else:
            better_db, worse_db = better.attenuation_db(freq_hz), worse.attenuation_db(freq_hz)
            assert better_db is not None
            assert worse_db is not None
            assert better_db >= worse_db


def test_no_shield_claims_a_class_without_a_source() -> None:
    for entry in load_catalogue().every_class.values():
        for shield in entry.shields.values():
            if shield.screening_class is not None:
                assert shield.screening_class in CLASSES
                assert "screening class" in entry.sources
