"""The levels as a table: one row for each service, direction, outlet and frequency, plain numbers."""

from __future__ import annotations

import csv
import io
from collections.abc import Callable

import pytest

from coaxwright.reports.levels import SiteLevels
from coaxwright.reports.levels.csv_form import COLUMNS, render

Levels = Callable[..., SiteLevels]


def rows(levels: SiteLevels) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(render(levels))))


def test_a_row_for_each_frequency_of_each_outlet(design: str, levels: Levels) -> None:
    found = levels(design)
    expected = [
        (service.tag, service.direction, row.tag, freq_hz)
        for service in found.services
        for row in service.outlets
        for freq_hz in service.grid_hz
    ]
    read = [(r["service"], r["direction"], r["outlet"], float(r["frequency_mhz"]) * 1e6) for r in rows(found)]
    assert read == expected
    assert tuple(render(found).splitlines()[0].split(",")) == COLUMNS


def test_figures_are_those_of_the_levels_and_rise(levels: Levels) -> None:
    names = ("low", "hot", "usual", "cold", "high")
    for row in rows(levels("house")):
        figures = [float(row[f"level_{name}_dbmv"]) for name in names]
        assert figures == sorted(figures) or row["direction"] == "up"
        assert row["unknown"] == ""
    down = next(row for row in rows(levels("house")) if row["outlet"] == "BED")
    # 12 dBmV, 100 ft and 4 ft of Series 6 (1.6 dB/100 ft), 90 ft of Series 59 (2.05 dB/100 ft): ANSI/SCTE 74, maximum
    assert float(down["loss_db"]) == pytest.approx(1.04 * 1.58 + 0.9 * 2.0 - 15 + 5.5, abs=0.15)
    assert float(down["level_usual_dbmv"]) == pytest.approx(12 - float(down["loss_db"]), abs=0.011)
    assert float(down["spare_db"]) == pytest.approx(15 - float(down["level_cold_dbmv"]), abs=0.011)


def test_what_is_not_known_is_an_empty_cell_with_its_cause(levels: Levels) -> None:
    found = {(row["direction"], row["outlet"]): row for row in rows(levels("gaps"))}
    assert found["down", "BED"]["level_usual_dbmv"] == found["down", "BED"]["loss_db"] == ""
    assert found["down", "BED"]["unknown"] == "C-2 has no length and no route"
    assert found["down", "DEN"]["loss_db"] != ""
    assert found["down", "LOST"]["unknown"] == "does not come to this outlet"


def test_a_table_with_a_supposition_cannot_be_taken_for_one_without(levels: Levels) -> None:
    assert {row["supposing"] for row in rows(levels("house", suppositions=("a in b", "c in d")))} == {"a in b; c in d"}
    assert {row["supposing"] for row in rows(levels("house"))} == {""}


def test_no_cell_is_a_minus_zero(levels: Levels) -> None:
    text = render(levels(
        "services:\n"
        "  net: {kind: cable broadband, from: D, down: {band: 54 to 1002 MHz, level: [-0.001 dBmV at 54 MHz]}}\n"
        "devices: {D: {kind: coax drop}, T: {kind: outlet, serves: [net]}}\n"
        "cables: {C: {from: D, to: T, type: series 6, length: 0 ft}}\n"
    ))  # fmt: skip
    assert ",54,0.00,0.00,0.00,0.00,0.00,0.00,-15.00,15.00,15.00,," in text
