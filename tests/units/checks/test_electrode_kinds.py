"""Rods, pipes and terminations in the cases that no example shows, or that editions judge unlike."""

from __future__ import annotations

import pytest

from coaxwright.findings import Finding, Outcome
from coaxwright.reviewing import judge
from coaxwright.rules import shipped_registry
from coaxwright.source import read_text

ROD_RULE = "bonding.electrode-rod"
HEAD = (
    "coaxwright: 1\ntitle: Bench (invented)\nbasis: {{rulesets: [us {edition}], occupancy: {use}}}\n"
    "places: {{roof: {{exposure: rooftop}}, wall: {{exposure: outdoors}}}}\n"
)


def findings(body: str, *rules: str, edition: str = "2023", use: str = "one-family dwelling") -> list[Finding]:
    review = judge(read_text(HEAD.format(edition=edition, use=use) + body, "bench.coax.yaml"), shipped_registry())
    assert review.problems == ()
    assert review.crashes == ()
    return [finding for finding in review.unfolded if finding.rule in rules]


BLOCK = "devices: {GB1: {kind: ground block, place: wall}}\n"
MAST = "devices: {ANT: {kind: antenna, place: roof, mast: {}}}\n"


def rod(length: str, thing: str, edition: str, by_termination: bool = False) -> list[Finding]:
    devices = BLOCK if thing == "GB1" else MAST
    end = "BAR" if by_termination else "ROD"
    bonding = (
        f"bonding:\n  ROD: {{kind: ground rod, place: wall, length: {length}}}\n"
        "  BAR: {kind: intersystem bonding termination, place: wall, electrode: ROD}\n"
        f"  B-1: {{from: {thing}, to: {end}, conductor: 10 AWG copper, length: 2 ft}}\n"
    )
    return findings(devices + bonding, ROD_RULE, edition=edition)


@pytest.mark.parametrize(
    ("length", "edition", "outcome"),
    [
        # 8 ft by 820.100(A)(4), exception; from 2020 on perhaps the 5 ft (1.5 m) of the article on telephone.
        ("7.9 ft", "2017", Outcome.NOT_MET),
        ("7.9 ft", "2020", Outcome.NEEDS_A_PERSON),
        ("7.9 ft", "2023", Outcome.NEEDS_A_PERSON),
        ("5 ft", "2023", Outcome.NEEDS_A_PERSON),
        ("5.1 ft", "2023", Outcome.NEEDS_A_PERSON),
        ("4.9 ft", "2023", Outcome.NOT_MET),
        ("1.5 m", "2023", Outcome.NEEDS_A_PERSON),
        ("1.51 m", "2023", Outcome.NEEDS_A_PERSON),
        ("1.49 m", "2023", Outcome.NOT_MET),
    ],
)
def test_a_rod_between_the_two_lengths(length: str, edition: str, outcome: Outcome) -> None:
    (finding,) = rod(length, "GB1", edition)
    assert finding.outcome is outcome


@pytest.mark.parametrize("by_termination", [False, True])
def test_a_mast_asks_for_the_whole_length_in_every_edition(by_termination: bool) -> None:
    """810.21(F) sends to 250.52, whose rods have 8 ft; the short rod stands in the articles on telephone alone."""
    for edition in ("2017", "2020", "2023"):
        (finding,) = rod("6 ft", "ANT.mast", edition, by_termination)
        assert finding.outcome is Outcome.NOT_MET
    (finding,) = rod("6 ft", "GB1", "2023", by_termination)
    assert finding.outcome is Outcome.NEEDS_A_PERSON


def test_a_rod_is_told_with_all_that_rely_on_it() -> None:
    body = (
        f"{BLOCK}bonding:\n  ROD: {{kind: ground rod, place: wall, length: 3 ft}}\n"
        "  BAR: {kind: intersystem bonding termination, place: wall, electrode: ROD}\n"
        "  B-1: {from: GB1, to: ROD, conductor: 10 AWG copper, length: 2 ft}\n"
    )
    (finding,) = findings(body, ROD_RULE)
    assert "GB1 and BAR rely on ROD" in finding.found


def test_a_rod_behind_a_termination_is_an_electrode_of_its_own() -> None:
    """800.100(D): the wire from the bar to the rod makes no system of it; one more to the building's does.

    Whether the bar is joined to the service besides, only its author knows.
    """
    alone = (
        f"{BLOCK}bonding:\n  GES: {{kind: grounding electrode system, place: wall}}\n"
        "  ROD: {kind: ground rod, place: wall, length: 8 ft}\n"
        "  BAR: {kind: intersystem bonding termination, place: wall}\n"
        "  B-1: {from: GB1, to: BAR, conductor: 10 AWG copper, length: 2 ft}\n"
        "  B-2: {from: BAR, to: ROD, conductor: 6 AWG copper, length: 2 ft}\n"
    )
    (finding,) = findings(alone, "bonding.electrode-shared")
    assert finding.outcome is Outcome.CANNOT_BE_JUDGED
    assert "BAR states no electrode" in finding.found
    joined = alone + "  B-3: {from: ROD, to: GES, conductor: 6 AWG copper, length: 9 ft}\n"
    assert findings(joined, "bonding.electrode-shared") == []


def test_the_conductor_onward_from_a_termination_is_judged_for_size() -> None:
    """250.94(A), found in part: 6 AWG copper from the termination on."""
    body = (
        f"{BLOCK}bonding:\n  ROD: {{kind: ground rod, place: wall, length: 8 ft}}\n"
        "  BAR: {kind: intersystem bonding termination, place: wall}\n"
        "  B-1: {from: GB1, to: BAR, conductor: 10 AWG copper, length: 2 ft}\n"
        "  B-2: {from: BAR, to: ROD, conductor: SIZE copper, length: 2 ft}\n"
    )
    (finding,) = findings(body.replace("SIZE", "8 AWG"), "bonding.conductor-size")
    assert finding.subject.tag == "B-2"
    assert findings(body.replace("SIZE", "6 AWG"), "bonding.conductor-size") == []


def test_a_mast_of_fiberglass_neither_asks_for_a_bond_nor_carries_one() -> None:
    """What does not conduct is not bonded (810.15 speaks of metal masts), and is no way to an electrode."""
    body = (
        "devices:\n  ANT: {kind: antenna, place: roof, mast: {metal: METAL}}\n"
        "  GB1: {kind: ground block, place: roof}\nbonding:\n"
        "  IBT: {kind: intersystem bonding termination, place: wall, electrode: service}\n"
        "  B-1: {from: GB1, to: ANT.mast, conductor: 10 AWG copper, length: 2 ft}\n"
        "  B-2: {from: ANT.mast, to: IBT, conductor: 10 AWG copper, length: 9 ft}\n"
    )
    assert findings(body.replace("METAL", "true"), "bonding.conductor-present") == []
    (finding,) = findings(body.replace("METAL", "false"), "bonding.conductor-present")
    assert finding.outcome is Outcome.NOT_MET
    assert finding.subject.tag == "GB1"
    assert finding.subject.second == ""
    bare = body.replace("METAL", "false").partition("  GB1")[0]
    assert findings(bare, "bonding.conductor-present") == []
