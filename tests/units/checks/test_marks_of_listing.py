"""Which mark may go where: the order of the table of substitutions, as a trade guide of 2014 gives it.

NFPA 70, table 820.154(b) (2017) and 800.154 (from 2020 on): P over R over G over X. CATV types stand for no CM types,
and CL types withstand the same fire but are made for circuits of other kinds.
"""

from __future__ import annotations

import pytest

from coaxwright.findings import Finding
from coaxwright.reviewing import judge
from coaxwright.rules import shipped_registry
from coaxwright.source import read_text

AIR = ("CATVP", "CMP", "CL3P", "CL2P")
RISERS = ("CATVR", "CMR", "CL3R", "CL2R")
ROOMS = ("CATV", "CMG", "CM", "CL3", "CL2")
LIMITED = ("CATVX", "CMX", "CL3X", "CL2X")
ALL = (*AIR, *RISERS, *ROOMS, *LIMITED, "unlisted")

SITE = """\
coaxwright: 1
title: Bench (invented)
basis: {{rulesets: [us {edition}], occupancy: commercial}}
places:
  wall: {{exposure: outdoors}}
  roof: {{exposure: rooftop}}
  pit: {{exposure: wet}}
  garden: {{exposure: buried}}
  ceiling: {{exposure: plenum, return air: true}}
  shaft: {{exposure: riser}}
  den: {{}}
services: {{tv: {{kind: cable broadband, from: D, down: {{band: 54 MHz to 1002 MHz}}}}}}
devices: {{D: {{kind: coax drop, place: den}}, O: {{kind: outlet, place: den, serves: [tv]}}}}
cables: {{C: {{from: D, to: O, type: {type_}{listing}, route: [{route}]}}}}
"""


def told(rule: str, route: str, listing: str = "", type_: str = "series 6", edition: str = "2023") -> list[Finding]:
    mark = f", listing: {listing}" if listing else ""
    text = SITE.format(route=route, listing=mark, type_=type_, edition=edition)
    review = judge(read_text(text, "bench.coax.yaml"), shipped_registry())
    assert [str(problem) for problem in review.problems] == []
    assert review.crashes == ()
    return [finding for finding in review.unfolded if finding.rule == rule]


@pytest.mark.parametrize("edition", ["2017", "2023"])
@pytest.mark.parametrize("mark", ALL)
def test_where_the_air_moves(mark: str, edition: str) -> None:
    found = told("jacket.plenum", "ceiling: 9 m", mark, edition=edition)
    assert [str(one.outcome) for one in found] == ([] if mark in AIR else ["not met"])


@pytest.mark.parametrize("edition", ["2017", "2023"])
@pytest.mark.parametrize("mark", ALL)
def test_in_a_shaft(mark: str, edition: str) -> None:
    found = told("jacket.riser", "shaft: 9 m", mark, edition=edition)
    assert [str(one.outcome) for one in found] == ([] if mark in (*AIR, *RISERS) else ["not met"])


@pytest.mark.parametrize("mark", ALL)
def test_in_a_room_a_mark_for_other_circuits_is_left_to_a_person(mark: str) -> None:
    found = told("jacket.listed-indoors", "den: 9 m", mark)
    expected = ["needs a person"] if mark.startswith("CL") else ["not met"] if mark in (*LIMITED, "unlisted") else []
    assert [str(one.outcome) for one in found] == expected


@pytest.mark.parametrize("place", ["wall", "roof", "pit", "garden"])
def test_a_listed_jacket_is_offered_only_where_it_suits_the_weather_too(place: str) -> None:
    """An indoor plenum jacket resists neither sun nor water; common practice."""
    (finding,) = told("jacket.plenum", f"{place}: 2 m, ceiling: 9 m", type_="series 6 riser")
    assert finding.mend is None
    (indoors,) = told("jacket.plenum", "den: 2 m, ceiling: 9 m", type_="series 6 riser")
    assert indoors.mend is not None
    assert indoors.mend.text == "series 6 plenum"


def test_a_place_that_is_not_there_does_not_stop_the_offer() -> None:
    (finding,) = told("jacket.plenum", "dne: 2 m, ceiling: 9 m", type_="series 6 riser")
    assert finding.mend is not None


def test_a_finding_stands_at_the_mark_or_at_the_type_that_tells_it() -> None:
    (stated,) = told("jacket.plenum", "ceiling: 9 m", "CATV")
    (usual,) = told("jacket.plenum", "ceiling: 9 m")
    assert (stated.root, usual.root) == (("cables", "C", "listing"), ("cables", "C", "type"))
