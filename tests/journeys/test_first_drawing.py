"""Who has read no more than the front page draws a house in words of the trade, and is led to a clear review."""

from __future__ import annotations

import json
import re
from collections.abc import Mapping
from pathlib import Path

import pytest

DRAWN = """\
coaxwright: 1
title: Curlew Lane 8 (invented)
stage: permit
basis:
  rulesets: [NEC 2023]
  occupancy: house
buildings:
  house: {entry: garage wall}
places:
  garage wall: {building: house, exposure: outside}
  garage: {building: house}
  attic: {building: house, exposure: loft}
  bedroom: {building: house}
  roof: {building: house, exposure: roof}
services:
  cable: {kind: cable TV, from: NID}
  tv: {kind: antenna TV, from: ANT, channels: [{name: "24", frequency: 533 MHz, standard: ATSC}]}
devices:
  NID: {kind: demarc, place: garage wall}
  GB: {kind: grounding block, place: garage wall}
  GB2: {kind: earth block, place: garage wall}
  SP1: {kind: splitter, ways: 2, place: garage}
  MODEM: {kind: modem, place: garage, serves: [cable]}
  TV1: {kind: wall plate, place: bedroom, serves: [cable]}
  TV2: {kind: TV point, place: bedroom, serves: [tv]}
  ANT: {kind: aerial, place: roof, gain: 8 dBi, mast: {height: 5 ft}}
cables:
  C1: {from: NID, to: GB, type: RG6 outdoor, route: [garage wall: 6 ft]}
  C2: {from: GB, to: SP1, type: RG-6 quad, route: [attic: 24 ft, garage: 6 ft]}
  C3: {from: SP1, to: MODEM, type: series 6, length: 4 feet}
  C4: {from: SP1, to: TV1, type: RG 6, route: [attic: 30 ft, bedroom: 15 ft]}
  C5: {from: ANT, to: GB2, type: RG6 quad outdoor, route: [roof: 10 ft, garage wall: 12 ft]}
  C6: {from: GB2, to: TV2, type: RG11, route: [attic: 30 ft, bedroom: 15 ft]}
grounding:
  IBT: {kind: intersystem bonding termination, place: garage wall, electrode: service}
  B1: {from: GB, to: IBT, conductor: 14 ga Cu, length: 10 ft}
  B2: {from: ANT.mast, to: IBT, conductor: 10 AWG, length: 25 ft}
  B3: {from: GB2, to: IBT, conductor: "#10 copper", length: 4 ft}
"""


def put_right(text: str, changes: list[tuple[int, int, int, str]]) -> str:
    """The text with each part, by line and first and last column, written as it was said to be meant."""
    lines = text.split("\n")
    for line, begin, end, meant in sorted(changes, reverse=True):
        lines[line - 1] = f"{lines[line - 1][: begin - 1]}{meant}{lines[line - 1][end - 1 :]}"
    return "\n".join(lines)


def span(place: Mapping[str, int]) -> tuple[int, int, int]:
    return place["line"], place["column"], place["end column"]


@pytest.fixture
def drawing(tmp_path: Path) -> Path:
    return tmp_path / "own.coax.yaml"


def test_every_word_of_the_trade_leads_to_the_right_one(coax, drawing: Path) -> None:
    """Two rounds: what is not understood, then what the rules ask; whoever takes each suggestion has a clear review."""
    text = DRAWN
    for _ in range(3):
        drawing.write_text(text, encoding="utf-8")
        told = coax("review", drawing.name, "--as", "json", cwd=drawing.parent)
        (design,) = json.loads(told.stdout)["designs"]
        if not design["problems"]:
            break
        assert [one["what"] for one in design["problems"] if not one["nearest"]] == []
        text = put_right(text, [(*span(one), one["nearest"]) for one in design["problems"]])
    assert design["problems"] == []
    misread = [one for one in design["findings"] if one["rule"] == "plan.reference-known"]
    assert len(misread) == DRAWN.count("type: RG")
    meant = [re.fullmatch("write '(series .+)' if that is meant", one["remedy"]) for one in misread]
    changes = [(*span(one["place"]), words[1]) for one, words in zip(misread, meant, strict=True) if words]
    assert len(changes) == len(misread)
    text = put_right(text, changes)
    drawing.write_text(text, encoding="utf-8")
    clear = coax("review", drawing.name, cwd=drawing.parent)
    assert (clear.returncode, "CLEAR" in clear.stdout) == (0, True), clear.stdout
