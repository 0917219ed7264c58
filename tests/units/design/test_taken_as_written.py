"""Tags and texts that look like numbers are kept as their author wrote them."""

from __future__ import annotations

import pytest

from coaxwright.design import NotUnderstood, understand
from coaxwright.source import read_text

TEXT = """\
coaxwright: 1
title: 1984
sheet: 012
revision: 1.10
job: 1e3
basis: {rulesets: [us 2023]}
buildings: {007: {entry: [0x1F, 1e3]}}
places: {012: {building: 007}}
services: {0o14: {kind: cable broadband, from: 101}}
devices:
  101: {kind: outlet, place: 012, serves: [0o14, 1_0], note: 5}
  1.10: {kind: terminator, on: 1.10}
cables:
  1e3: {from: 1e3, to: 0o14, type: 6, route: [012: 3 ft, 1.0: {length: 2 m, note: +1}]}
bonding:
  9: {from: 1.10, to: 2.0, conductor: 10 AWG copper}
"""


def test_as_written() -> None:
    design = understand(read_text(TEXT, "x"))
    assert (design.title, design.sheet, design.revision, design.job) == ("1984", "012", "1.10", "1e3")
    assert design.buildings["007"].entry == ["0x1F", "1e3"]
    assert design.places["012"].building == "007"
    assert design.services["0o14"].from_ == "101"
    assert list(design.devices) == ["101", "1.10"]
    assert (design.devices["101"].place, design.devices["101"].note) == ("012", "5")
    assert design.devices["101"].serves == ["0o14", "1_0"]
    assert design.devices["1.10"].on == "1.10"
    cable = design.cables["1e3"]
    assert (cable.from_, cable.to, cable.type) == ("1e3", "0o14", "6")
    assert cable.route is not None
    assert [place for leg in cable.route for place in leg] == ["012", "1.0"]
    assert (design.bonding["9"].from_, design.bonding["9"].to) == ("1.10", "2.0")


@pytest.mark.parametrize("sheet", [".nan", ".inf", "1e999", "-0", "0x0", "12:30:45", "2027-06-30", "no", "9" * 60])
def test_any_spelling_of_a_sheet(sheet: str) -> None:
    text = f"coaxwright: 1\ntitle: x\nsheet: {sheet}\nbasis: {{rulesets: [us 2023]}}\n"
    assert understand(read_text(text, "x")).sheet == sheet


def test_what_is_restored_is_held_to_the_rules_for_texts() -> None:
    text = "coaxwright: 1\ntitle: x\nbasis: {rulesets: [us 2023]}\nplaces: {p: {building: .5}}\n"
    with pytest.raises(NotUnderstood, match=r"x:4:24: '\.5' cannot be a tag"):
        understand(read_text(text, "x"))
