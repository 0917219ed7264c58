"""A mobile home: its block may stand at the service equipment, 30 ft (9.0 m) off; else it is a small dwelling.

NFPA 70, 820.93 and 800.106 (820.106 in 2017), from memory.
"""

from __future__ import annotations

import pytest

from coaxwright.findings import Finding
from coaxwright.reviewing import judge
from coaxwright.rules import shipped_registry
from coaxwright.source import read_text

RULE = "protection.entry-distance"
SITE = """\
coaxwright: 1
title: Bench (invented)
basis: {{rulesets: [us {edition}], occupancy: {use}}}
buildings: {{home: {{entry: skirt}}}}
places:
  pole: {{building: home, exposure: outdoors}}
  skirt: {{building: home, exposure: outdoors}}
  room: {{building: home}}
devices:
  D: {{kind: coax drop, place: pole}}
  G: {{kind: ground block, place: pole}}
  O: {{kind: outlet, place: room}}
cables:
  C-1: {{from: D, to: G, type: series 6 outdoor, route: [pole: 1 ft]}}
  C-2: {{from: {ends}, type: series 6 outdoor, {way}}}
bonding:
  IBT: {{kind: intersystem bonding termination, place: pole, electrode: service}}
  B-1: {{from: G, to: IBT, conductor: 10 AWG copper, length: {bond}}}
"""


def told(
    way: str, use: str = "mobile home", ends: str = "G, to: O", edition: str = "2023", bond: str = "2 ft"
) -> list[Finding]:
    text = SITE.format(way=way, use=use, ends=ends, edition=edition, bond=bond)
    review = judge(read_text(text, "bench.coax.yaml"), shipped_registry())
    assert [str(problem) for problem in review.problems] == []
    assert review.crashes == ()
    return list(review.unfolded)


@pytest.mark.parametrize("edition", ["2017", "2020", "2023"])
@pytest.mark.parametrize(
    ("way", "outcomes"),
    [
        ("route: [pole: 10 ft, skirt: 20 ft, room: 50 ft]", []),
        ("route: [pole: 10 ft, skirt: 20.1 ft, room: 1 ft]", ["needs a person"]),
        ("length: 30 ft", []),
        ("length: 30.1 ft", ["cannot be judged"]),
        ("route: [pole: 10 ft, skrit: 40 ft, room: 1 ft]", ["cannot be judged"]),
    ],
)
def test_how_far_the_block_may_stand(way: str, outcomes: list[str], edition: str) -> None:
    found = [finding for finding in told(way, edition=edition) if finding.rule == RULE]
    assert [str(finding.outcome) for finding in found] == outcomes


def test_it_counts_from_the_wall_whichever_way_the_cable_is_drawn() -> None:
    found = [one for one in told("route: [room: 50 ft, skirt: 31 ft]", ends="O, to: G") if one.rule == RULE]
    assert "31 ft of C-2" in found[0].found
    assert [one for one in told("route: [room: 50 ft, skirt: 29 ft]", ends="O, to: G") if one.rule == RULE] == []


def test_no_other_dwelling_is_asked() -> None:
    far = "route: [pole: 10 ft, skirt: 90 ft, room: 1 ft]"
    assert [one for one in told(far, use="one-family dwelling") if one.rule == RULE] == []


@pytest.mark.parametrize(("bond", "count"), [("20 ft", 0), ("20.1 ft", 1)])
def test_its_shield_bond_is_a_dwellings(bond: str, count: int) -> None:
    found = [
        one for one in told("route: [skirt: 2 ft, room: 9 ft]", bond=bond) if one.rule == "bonding.conductor-length"
    ]
    assert len(found) == count
