"""Levels of a design whose demarcation point nobody knows yet, and of frequencies for which no figure says anything."""

from __future__ import annotations

import csv
import json
import re
from pathlib import Path

import pytest

from coaxwright.computing import levels
from coaxwright.reports.levels import csv_form, json_form, svg
from coaxwright.reports.levels.text import render

SITE = """coaxwright: 1
title: Siskin Lodge (invented)
basis: {rulesets: [trade 1]}
services:
  net:
    kind: cable broadband
    from: DROP
    down: {band: 54 MHz to 1002 MHz}
    up: {band: 5 MHz to 42 MHz}
    at outlets: {level: -8 to 10 dBmV}
devices:
  DROP: {kind: coax drop}
  SP: {kind: splitter, ways: 2, loss: 4 dB}
  A: {kind: cable modem, serves: [net], output level: 20 to 50 dBmV}
  B: {kind: outlet, serves: [net]}
cables:
  C-1: {from: DROP, to: SP.in, type: series 6, length: 0 m}
  C-2: {from: SP.out-1, to: A, type: series 6, length: 0 m}
  C-3: {from: SP.out-2, to: B, type: series 6, length: 100 ft}
"""
# Series 6, maximum attenuation at 68 °F, dB per 100 ft. Source: ANSI/SCTE 74, table of maximum attenuation.
AT_1000_MHZ = 6.55


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return tmp_path / "siskin.coax.yaml"


def test_what_has_to_come_in_is_the_window_and_the_loss(path: Path) -> None:
    path.write_text(SITE.replace("1002 MHz", "1000 MHz"), encoding="utf-8")
    site = levels(path)
    down, up = json.loads(json_form.render(site))["services"]
    low, high = down["budget"]
    assert (low["frequency_hz"], high["frequency_hz"]) == (54e6, 1e9)
    assert high["least"] == {"level_dbmv": pytest.approx(-8 + 4 + AT_1000_MHZ, abs=0.01), "outlet": "B"}
    assert high["most"] == {"level_dbmv": pytest.approx(10 + 4), "outlet": "A"}
    assert [one["most"] for one in up["budget"]] == [{"level_dbmv": pytest.approx(50 - 4), "outlet": "A"}] * 2
    words = " ".join(render(site, 80).split())
    assert "dBmV, which B needs, to 14.0 dBmV, which A takes" in words
    assert "46.0 dBmV, from A" in words


def test_where_no_level_does_the_page_says_whom_it_cannot_serve(path: Path) -> None:
    path.write_text(SITE.replace("-8 to 10 dBmV", "0 to 3 dBmV"), encoding="utf-8")
    assert "no level does: B needs 10.6 dBmV, and A takes 7.0 dBmV at most" in " ".join(
        render(levels(path), 80).split()
    )


def test_an_outlet_whose_loss_is_not_known_is_named_as_not_counted(path: Path) -> None:
    path.write_text(SITE.replace("length: 100 ft", "note: not measured"), encoding="utf-8")
    words = " ".join(render(levels(path), 80).split())
    assert "-4.0 dBmV, which A needs" in words
    assert "without B, where the loss is not known" in words


def test_a_stated_hand_off_needs_no_budget(path: Path) -> None:
    path.write_text(SITE.replace("1002 MHz}", "1002 MHz, level: [3 dBmV at 54 MHz]}"), encoding="utf-8")
    down, _ = json.loads(json_form.render(levels(path)))["services"]
    assert down["budget"] == []
    assert "what has to come in" not in render(levels(path), 80)


def test_what_no_figure_tells_is_not_told_as_missing(path: Path) -> None:
    """A splitter of the catalogue is known up to some frequency; what it does above is nobody's to say."""
    path.write_text(SITE.replace("54 MHz to 1002 MHz", "54 MHz to 6 GHz"), encoding="utf-8")
    site = levels(path)
    page = render(site, 80)
    assert "no figure says what SP does at 6 GHz" in page
    assert "nothing of it comes" not in page
    down, _ = json.loads(json_form.render(site))["services"]
    assert down["no_figure"] == [{"frequency_hz": 6e9, "devices": ["SP"]}]
    rows = csv.DictReader(csv_form.render(site).splitlines())
    cells = {(row["outlet"], row["frequency_mhz"]): row["unknown"] for row in rows}
    assert cells["B", "6000"] == "no figure says what SP does"


def test_a_window_in_another_unit_is_told_in_that_of_the_levels(path: Path) -> None:
    text = SITE.replace("-8 to 10 dBmV", "52 to 70 dBµV").replace("1002 MHz}", "1002 MHz, level: [3 dBmV at 54 MHz]}")
    path.write_text(text, encoding="utf-8")
    assert "52 to 70 dBµV, that is -8.0 to 10.0 dBmV" in " ".join(render(levels(path), 80).split())


def test_a_class_that_a_rule_holds_short_is_told_as_such(path: Path) -> None:
    path.write_text(SITE.replace("1002 MHz}", "1002 MHz, level: [12 dBmV at 54 MHz]}"), encoding="utf-8")
    words = " ".join(render(levels(path), 80).split())
    assert (
        "series 59 may be no longer than that for this service, whatever the level (cable.class-suits-service)" in words
    )


LOOPED = """coaxwright: 1
title: Siskin Lodge 2 (invented)
basis: {rulesets: [trade 1]}
services:
  tv:
    kind: terrestrial TV
    from: ANT
    down: {band: 174 MHz to 608 MHz, level: [6 dBmV at 174 MHz]}
    channels: [{name: "24", frequency: 533 MHz, standard: 8VSB}]
devices:
  ANT: {kind: antenna}
  SP: {kind: splitter, ways: 2}
  CO: {kind: splitter, ways: 2}
  B: {kind: outlet, serves: [tv]}
cables:
  C-1: {from: ANT, to: SP.in, type: series 6, length: 30 m}
  L-1: {from: SP.out-1, to: CO.out-1, type: series 6, length: 3 m}
  L-2: {from: SP.out-2, to: CO.out-2, type: series 6, length: 13 m}
  C-3: {from: CO.in, to: B, type: series 6, length: 9 m}
"""


def test_a_drawing_of_sums_says_where_they_are_not_enough(path: Path) -> None:
    path.write_text(LOOPED, encoding="utf-8")
    assert "L-2 brings some of it a second way; only the first is added" in render(levels(path), 80)
    assert "Adding decibels is not enough here: levels lie up to " in svg.render(levels(path, between=5))
    path.write_text(LOOPED.replace("  L-2:", "  # L-2:"), encoding="utf-8")
    opened = svg.render(levels(path, between=5))
    assert "Adding decibels is not enough here" in opened  # two ports are open now


def test_the_window_of_one_channel_is_named_and_wide_enough_to_be_seen(path: Path) -> None:
    """8VSB, -83 to -8 dBm: ATSC A/74; other frequencies of the band state no standard, and have none."""
    path.write_text(LOOPED, encoding="utf-8")
    assert "-83 dBm to -8 dBm, that is -34.2 to 40.8 dBmV, at 533 MHz" in " ".join(render(levels(path), 80).split())
    (width,) = re.findall(
        r'class="window" x="[0-9.]+" y="[0-9.]+" width="([0-9.]+)"', svg.render(levels(path, between=23))
    )
    assert float(width) >= 28
