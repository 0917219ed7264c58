"""Worked cases of the code's rules on bonding, each with the outcome that the clause itself gives.

NFPA 70, 820.100 (2017) and 800.100 (2020, 2023): a shield bond of a dwelling of at most 20 ft (6.0 m), as training
material on the 2005 and 2020 editions prints it; where it is longer, an electrode of its own, joined with 6 AWG copper.
810.15 and 810.21(H): a mast bonded with 10 AWG copper, 8 AWG aluminum, 17 AWG copper-clad steel or bronze, as the
table of a forum prints it, without a limit of length. 250.52(B), from memory: a gas pipe is no electrode.
"""

from __future__ import annotations

import pytest

from coaxwright.findings import Outcome
from coaxwright.reviewing import judge
from coaxwright.rules import shipped_registry
from coaxwright.source import read_text

SITE = """\
coaxwright: 1
title: Bench (invented)
basis: {{rulesets: [us {edition}], occupancy: {occupancy}}}
places: {{roof: {{exposure: rooftop}}, wall: {{exposure: outdoors}}, far wall: {{exposure: outdoors}}}}
devices:
  DROP: {{kind: coax drop, place: far wall, owner: operator}}
  GB1: {{kind: ground block, place: far wall}}
  ANT: {{kind: antenna, place: roof, mast: {{}}}}
cables:
  C-1: {{from: DROP, to: GB1, type: series 6 outdoor, route: [far wall: 6 ft]}}
bonding:
  IBT: {{kind: intersystem bonding termination, place: wall, electrode: service}}
  GAS: {{kind: gas pipe, place: wall}}
  ROD: {{kind: ground rod, place: far wall, length: 8 ft}}
"""
MAST = "M-1: {from: ANT.mast, to: IBT, conductor: 10 AWG copper, length: 60 ft}"
BLOCK = "B-1: {from: GB1, to: IBT, conductor: 14 AWG copper, length: 9 ft}"
ROD = "B-1: {from: GB1, to: ROD, conductor: 14 AWG copper, length: 5 ft}"
DWELLING = "one-family dwelling"

CASES = {
    "a bond of 20 ft": ((BLOCK.replace("9 ft", "20 ft"), MAST), set()),
    "a bond of 21 ft": ((BLOCK.replace("9 ft", "21 ft"), MAST), {"bonding.conductor-length"}),
    "a bond of 6.0 m": ((BLOCK.replace("9 ft", "6.0 m"), MAST), set()),
    "a bond of 6.1 m": ((BLOCK.replace("9 ft", "6.1 m"), MAST), {"bonding.conductor-length"}),
    "a bond of 16 AWG": ((BLOCK.replace("14 AWG", "16 AWG"), MAST), {"bonding.conductor-size"}),
    "no bond": ((MAST,), {"bonding.conductor-present"}),
    "a bond to the gas pipe": ((BLOCK.replace("IBT", "GAS"), MAST), {"bonding.electrode-accepted"}),
    "a rod of its own, joined with 6 AWG over any distance": (
        (ROD, "B-2: {from: ROD, to: IBT, conductor: 6 AWG copper, length: 70 ft}", MAST),
        set(),
    ),
    "a rod of its own, joined with 8 AWG": (
        (ROD, "B-2: {from: ROD, to: IBT, conductor: 8 AWG copper, length: 70 ft}", MAST),
        {"bonding.electrode-shared"},
    ),
    "a rod of its own, not joined": ((ROD, MAST), {"bonding.electrode-shared"}),
    "a rod of its own, 21 ft away and joined": (
        (ROD.replace("5 ft", "21 ft"), "B-2: {from: ROD, to: IBT, conductor: 6 AWG copper, length: 70 ft}", MAST),
        {"bonding.conductor-length"},
    ),
    "a mast with 12 AWG copper": ((BLOCK, MAST.replace("10 AWG", "12 AWG")), {"bonding.conductor-size"}),
    "a mast with 8 AWG aluminum": ((BLOCK, MAST.replace("10 AWG copper", "8 AWG aluminum")), set()),
    "a mast with 10 AWG aluminum": (
        (BLOCK, MAST.replace("copper", "aluminum")),
        {"bonding.conductor-size"},
    ),
    "a mast with 17 AWG copper-clad steel": ((BLOCK, MAST.replace("10 AWG copper", "17 AWG copper-clad steel")), set()),
    "a mast with no bond": ((BLOCK,), {"bonding.conductor-present"}),
}


def told(edition: str, bonds: tuple[str, ...], occupancy: str = DWELLING) -> set[str]:
    """The rules of bonding that are not met, each once: one owner for one defect."""
    text = SITE.format(edition=edition, occupancy=occupancy) + "".join(f"  {bond}\n" for bond in bonds)
    findings = judge(read_text(text, "bench.coax.yaml"), shipped_registry()).findings
    rules = [one.rule for one in findings if one.rule.startswith("bonding.") and one.outcome is Outcome.NOT_MET]
    assert len(rules) == len(set(rules))
    return set(rules)


@pytest.mark.parametrize("edition", ["2017", "2020", "2023"])
@pytest.mark.parametrize("case", CASES)
def test_the_outcome_of_the_clause(case: str, edition: str) -> None:
    bonds, rules = CASES[case]
    assert told(edition, bonds) == rules


@pytest.mark.parametrize(
    ("occupancy", "rules"),
    [
        ("two-family dwelling", {"bonding.conductor-length"}),
        ("multifamily dwelling", set()),
        ("commercial", set()),
    ],
)
def test_the_length_binds_one_and_two_family_dwellings(occupancy: str, rules: set[str]) -> None:
    bonds, _ = CASES["a bond of 21 ft"]
    assert told("2023", bonds, occupancy) == rules


@pytest.mark.parametrize("occupancy", ["multifamily dwelling", "commercial"])
def test_electrodes_are_joined_whatever_the_building_is_used_as(occupancy: str) -> None:
    """800.100(D) knows no occupancies."""
    bonds, _ = CASES["a rod of its own, not joined"]
    assert told("2023", bonds, occupancy) == {"bonding.electrode-shared"}
