"""The parts of the levels page behind the tables: what keeps outlets apart, and where adding decibels is not enough."""

from __future__ import annotations

import json

import pytest

from coaxwright.analysis import Analysis
from coaxwright.design import understand
from coaxwright.network import build_network
from coaxwright.reports.levels import site_levels
from coaxwright.reports.levels.json_form import render as as_json
from coaxwright.reports.levels.text import render as as_text
from coaxwright.rules import combine, shipped_registry
from coaxwright.source import read_text

HOUSE = """
coaxwright: 1
title: Redshank Cottage (invented)
basis: {rulesets: [trade 1]}
services:
  net: {kind: cable broadband, from: DROP, down: {band: 54 to 1002 MHz, level: [10 dBmV at 54 MHz]}}
devices:
  DROP: {kind: coax drop}
  SP:   {kind: splitter, ways: 2}
  TV:   {kind: outlet, serves: [net]}
  DEN:  {kind: outlet, serves: [net]}
cables:
  C-1: {from: DROP, to: SP, type: series 6, length: 50 ft}
  C-2: {from: SP, to: TV, type: series 6, length: 40 ft}
  C-3: {from: SP, to: DEN, type: series 6, length: 60 ft}
"""
IN_HOME = """
coaxwright: 1
title: Redshank Cottage (invented)
basis: {rulesets: [trade 1]}
services: {rooms: {kind: in-home data, from: GW}}
devices:
  SP:  {kind: splitter, ways: 2, variant: in-home data}
  GW:  {kind: in-home data adapter}
  BOX: {kind: in-home data adapter}
cables:
  C-1: {from: SP, to: GW, type: series 6, length: 50 ft}
  C-2: {from: SP, to: BOX, type: series 6, length: 50 ft}
"""


def pages(text: str, outlet: str | None = None) -> tuple[str, dict[str, object]]:
    design = understand(read_text(text, "redshank.coax.yaml"))
    rules = combine(["trade 1"], shipped_registry())
    levels = site_levels(
        "redshank.coax.yaml", Analysis(build_network(design)), rules.rulesets, rules.rules, outlet=outlet
    )
    (service,) = json.loads(as_json(levels))["services"]
    return " ".join(as_text(levels, 100).split()), service


def test_nothing_is_said_where_decibels_are_enough() -> None:
    page, service = pages(HOUSE)
    assert "is not enough" not in page.replace("where that is not enough", "")
    assert service["solved"] == {"doubts": [], "mismatches": [], "departures": [], "not_solved": ""}


def test_a_cable_of_another_impedance_is_told_with_its_swing() -> None:
    page, service = pages(HOUSE.replace("to: SP, type: series 6", "to: SP, type: 10 mm 50 ohm low-loss"))
    # 50 and 75 ohm: r = 0.2, return loss 13.98 dB, 4 % of the power. Source: textbook
    assert "C-1 is a cable of 50 Ω at DROP (75 Ω) and SP (75 Ω): 14 dB of return loss; between its ends" in page
    solved = service["solved"]
    assert isinstance(solved, dict)
    (mismatch,) = solved["mismatches"]
    assert [end["return_loss_db"] for end in mismatch["ends"]] == [pytest.approx(13.979, abs=1e-3)] * 2
    assert [end["reflected_share"] for end in mismatch["ends"]] == [pytest.approx(0.04)] * 2
    assert {one["outlet"] for one in solved["departures"]} == {"TV", "DEN"}


def test_an_open_port_may_add_or_take_away() -> None:
    page, _ = pages(HOUSE.replace("  DEN:  {kind: outlet, serves: [net]}\n", "").replace("  C-3:", "  # C-3:"))
    # 25 dB of isolation: 20 log(1 +- 10^-1.25), at most 0.5 dB. Source: textbook sum of two ways
    assert "open: SP.out-2 solved wave by wave, levels lie beside their sums by -0.5 to +0.5 dB at TV" in page


def test_a_poor_end_is_told_as_it_was_measured() -> None:
    page, _ = pages(
        HOUSE.replace("TV:   {kind: outlet, ", "TV:   {kind: outlet, readings: [{return loss: 6 dB at 500 MHz}], ")
    )
    assert "TV was measured with 6 dB of return loss" in page
    assert "-1.3 dB at TV" in page  # mismatch loss of 6 dB: 1.26 dB. Source: textbook


def test_a_network_that_is_not_solved_says_why() -> None:
    page, service = pages(HOUSE.replace("series 6, length: 60 ft", "10 mm 50 ohm low-loss"))
    assert "The network is not solved: C-3 has no length and no route." in page
    assert isinstance(service["solved"], dict)
    assert service["solved"]["not_solved"] == "C-3 has no length and no route"


def test_two_outlets_are_kept_apart_by_the_splitter_and_their_cables() -> None:
    page, service = pages(HOUSE)
    ((pair),) = service["between"]  # type: ignore[misc]
    assert (pair["one"], pair["other"]) == ("DEN", "TV")
    # 100 ft of series 6 at 1002 MHz, 6.55 dB (ANSI/SCTE 74), and 25 dB of isolation of the catalogue's splitter
    assert pair["loss_db"]["nominal"] == pytest.approx(6.55 + 25, abs=0.05)
    assert "outlet-to-outlet isolation, least first, at 1002 MHz" in page


def test_in_home_data_is_told_from_station_to_station() -> None:
    page, service = pages(IN_HOME)
    assert "ROOMS, FROM STATION TO STATION in-home data lost between two stations, most first, at 1675 MHz" in page
    assert "BOX and GW" in page
    assert service["outlets"] == []


def test_one_outlet_asked_for_is_the_only_one_told_of() -> None:
    page, service = pages(HOUSE.replace("to: SP, type: series 6", "to: SP, type: 10 mm 50 ohm low-loss"), "TV")
    assert "DEN" not in page
    assert service["between"] == []
