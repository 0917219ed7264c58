"""Each fact of codes and trade that was seen, by its name, with a design that keeps it and one that does not.

The facts stand in ``data/code_facts.csv`` as secondary publications print them. Most are shown on the whole house of
``worked_site.py``; the others on a bench of a few lines. What nobody draws is named with the reason.
"""

from __future__ import annotations

import csv
from dataclasses import dataclass
from pathlib import Path

import pytest
from worked_site import CHANGES, EDITIONS

from coaxwright.findings import Finding, Outcome
from coaxwright.reviewing import DesignReview, judge
from coaxwright.rules import Severity, combine, shipped_registry
from coaxwright.source import read_text

DATA = Path(__file__).parent / "data" / "code_facts.csv"
FACTS = {row["id"]: row for row in csv.DictReader(DATA.read_text(encoding="utf-8").splitlines())}

ON_THE_HOUSE: dict[str, tuple[str, str]] = {
    "us-shield-bond-at-entrance": ("a bond of 14 AWG", "no bond"),
    "us-bond-conductor-min-size": ("a bond of 14 AWG", "a bond of 15 AWG"),
    "us-bond-conductor-material": ("a bond of 14 AWG", "a bond of steel"),
    "us-bond-conductor-max-length": ("a bond of 20 ft", "a bond of 20.1 ft"),
    "us-bond-extra-electrode": ("a rod of its own", "a rod of its own, not joined"),
    "us-bond-rod-coax-8ft": ("a rod of its own", "a rod of its own, 4 ft long"),
    "us-bond-electrodes-together": ("a rod of its own", "a rod of its own, joined with 8 AWG"),
    "us-bond-straight-run": ("a bond of 20 ft", "a coiled bond"),
    "us-bond-electrode-choice": ("a bond of 14 AWG", "a bond past the termination"),
    "us-no-attach-service-mast": ("a mast far enough from the line", "an antenna on the service mast"),
    "us-overhead-sep-service-drop": ("12 in from the power drop", "11.9 in from the power drop"),
    "us-overhead-roof-clearance": ("8 ft over a flat roof", "7.9 ft over a flat roof"),
    "us-underground-sep-12in": ("buried 12 in from power", "buried 11.9 in from power"),
    "us-indoor-sep-2in": ("2 in from open wiring", "1.9 in from open wiring"),
    "us-indoor-no-shared-raceway": ("telephone in the box", "power in the box"),
    "us-indoor-shared-with-limited-energy": ("telephone in the box", "power in the box"),
    "us-unlisted-50ft": ("unlisted, 50 ft without conduit", "unlisted, 50.1 ft without conduit"),
    "us-point-of-entrance-rmc": (
        "unlisted, 50 ft from the end of rigid conduit",
        "unlisted, 50.1 ft from the end of rigid conduit",
    ),
    "us-plenum-catvp": ("riser cable where the air does not return", "riser cable in return air"),
    "us-firestop": ("a bond of 20 ft", "an open hole"),
    "us-abandoned-removed": ("a bond of 20 ft", "an abandoned cable"),
    "us-mast-grounded": ("a mast with 17 AWG bronze", "a mast with no bond"),
    "us-antenna-conductor-size": ("a mast with 8 AWG aluminum", "a mast with 9 AWG aluminum"),
    "us-discharge-unit": ("a bond of 20 ft", "no block at the entry"),
    "us-antenna-away-150v": ("a mast far enough from the line", "a mast that falls into the line"),
    "g-fall-distance": ("a mast far enough from the line", "a mast near to the line"),
}
"""Facts that the house shows: a change that keeps them and one that does not."""

NOT_DRAWN = {
    "us-ibt-busbar-option": "a busbar is drawn as a termination; its size is judged on site",
    "us-overhead-below-power": "which of two spans is the lower is not drawn",
    "us-mechanical-execution": "how neatly a cable is fixed is seen on site",
    "us-framing-nail-plate": "no drawing shows where a stud is nailed",
    "us-panel-access": "whether a panel can be lifted is seen on site",
    "us-amateur-sizes": "transmitting stations are not judged",
    "g-double-height": "a ruleset may set the margin to it: 'margin: {value: 2 times}'",
    "g-local-plus-8ft": "local law, which a firm's own ruleset may follow",
    "h-bend-radius-spec": "one maker's value; the usual ten diameters are kept",
    "h-ground-block-near-meter": "the bond's length says how near it has to be",
}
"""Facts of which no finding can come, with the reason."""

HEAD = (
    "coaxwright: 1\ntitle: Bench (invented)\nstage: STAGE\nbasis: {rulesets: [us EDITION], occupancy: USE}\n"
    "places: {roof: {exposure: rooftop}, wall: {exposure: outdoors}, garden: {exposure: buried}, "
    "shaft: {exposure: riser}, ceiling: {exposure: plenum, return air: true}, cellar: {}, hall: {}, den: {},"
    " loft: {exposure: attic}, bay: {}}\n"
)
BROADBAND = "services: {broadband: {kind: cable broadband, from: DROP, down: {band: 54 MHz to 1002 MHz}}}\n"
DEVICES = (
    "devices: {DROP: {kind: coax drop, place: wall}, GB1: {kind: ground block, place: wall},"
    " GB2: {kind: ground block, place: wall}, ANT: {kind: antenna, place: roof}, SP1: {kind: splitter, ways: 4, place:"
    " cellar}, SP2: {kind: splitter, ways: 2, place: hall}, O1: {kind: outlet, place: den}, O2: {kind: outlet, place:"
    " hall}, O3: {kind: outlet, place: loft}, O4: {kind: outlet, place: bay}}\n"
)
IBT = "IBT: {kind: intersystem bonding termination, place: wall, electrode: service}"


@dataclass(frozen=True)
class Bench:
    """A few lines, the rule that is asked, and what it tells; ``MARK`` in the lines is what differs."""

    rule: str
    body: str
    keeps: str
    breaks: str
    outcome: Outcome = Outcome.NOT_MET
    severity: Severity = Severity.VIOLATION
    use: str = "commercial"
    stage: str = "permit"


def run(ends: str, type_: str, route: str) -> str:
    return f"cables: {{C: {{{ends}, type: {type_}, route: [{route}]}}}}\n"


LEAD_IN = run("from: ANT, to: GB1", "series 6 outdoor", "roof: {length: 9 ft, beside: [MARK]}")
INDOORS = "from: SP1, to: O1"
BENCHES: dict[str, Bench] = {
    "us-bond-short-other-buildings": Bench(
        "bonding.conductor-length",
        f"{DEVICES}bonding: {{{IBT}, B: {{from: GB1, to: IBT, conductor: 10 AWG copper, length: MARK}}}}\n",
        "20 ft",
        "26 ft",
        Outcome.NEEDS_A_PERSON,
        Severity.ADVICE,
    ),
    "us-ibt-required": Bench(
        "bonding.termination-present",
        "bonding: {P: {kind: service equipment, place: wall, MARK}}\n",
        "state: existing, installed: 2004-05-06",
        "installed: 2026-05-06",
    ),
    "us-sep-lightning-conductors": Bench(
        "route.aerial-clearance",
        f"{DEVICES}{LEAD_IN}",
        "lightning conductor at 6 ft",
        "lightning conductor at 5.9 ft",
        severity=Severity.DEFICIENCY,
    ),
    "us-burial-depth-none-820": Bench(
        "route.buried-separation",
        DEVICES + run("from: GB1, to: GB2", "series 6 flooded", "garden: {length: 9 ft, depth: MARK}"),
        "12 in",
        "2 in",
        severity=Severity.ADVICE,
    ),
    "h-drop-burial": Bench(
        "route.buried-separation",
        DEVICES + run("from: GB1, to: GB2", "series 6 flooded", "garden: {length: 9 m, depth: MARK}"),
        "300 mm",
        "299 mm",
        severity=Severity.ADVICE,
    ),
    "us-listed-cable-required": Bench(
        "jacket.listed-indoors", DEVICES + run(f"{INDOORS}, listing: MARK", "series 6", "den: 9 ft"), "CATV", "unlisted"
    ),
    "us-riser-catvr": Bench(
        "jacket.riser", DEVICES + run(f"{INDOORS}, listing: MARK", "series 6", "shaft: 9 ft"), "CATVR", "CATV"
    ),
    "us-substitution-order": Bench(
        "jacket.riser", DEVICES + run(f"{INDOORS}, listing: MARK", "series 6", "shaft: 9 ft"), "CMP", "CM"
    ),
    "us-antenna-coax-follows-820": Bench(
        "jacket.plenum",
        DEVICES + run("from: ANT, to: O1, listing: MARK", "series 6", "roof: 9 ft, ceiling: 9 ft"),
        "CATVP",
        "CATV",
    ),
    "us-raceway-fill-not-required": Bench(
        "route.raceway-fill",
        "raceways: {R: {kind: inner duct, inner diameter: MARK}}\n"
        + DEVICES
        + run(INDOORS, "series 6", "den: {length: 9 ft, in: R}"),
        "1 in",
        "0.3 in",
        severity=Severity.ADVICE,
    ),
    "us-raceway-fill-numbers": Bench(
        # One cable of 0.272 in fills 53 % of a duct of 0.37362 in.
        "route.raceway-fill",
        "raceways: {R: {kind: inner duct, inner diameter: MARK}}\n"
        + DEVICES
        + run(INDOORS, "series 6", "den: {length: 9 ft, in: R}"),
        "0.374 in",
        "0.373 in",
        severity=Severity.ADVICE,
    ),
    "us-antenna-conductor-routing": Bench(
        "bonding.conductor-route",
        "devices: {ANT: {kind: antenna, place: roof, mast: {}}}\n"
        f"bonding: {{{IBT}, B: {{from: ANT.mast, to: IBT, conductor: 10 AWG copper, coiled: MARK}}}}\n",
        "false",
        "true",
    ),
    "us-discharge-unit-location": Bench(
        "protection.entry-distance",
        "devices: {ANT: {kind: antenna, place: roof}, PR: {kind: protector, place: cellar}}\n"
        + run("from: ANT, to: PR", "series 6 outdoor", "roof: 9 ft, cellar: MARK"),
        "2 ft",
        "40 ft",
        Outcome.NEEDS_A_PERSON,
        Severity.ADVICE,
    ),
    "us-antenna-surge-protector-listed": Bench(
        "protection.listed",
        "devices: {ANT: {kind: antenna, place: roof}, PR: {kind: protector, place: wall, listed: MARK}}\n"
        + run("from: ANT, to: PR", "series 6 outdoor", "roof: 9 ft"),
        "true",
        "false",
    ),
    "us-antenna-avoid-power": Bench(
        "route.aerial-clearance",
        f"{DEVICES}{LEAD_IN}",
        "{what: overhead power line, at: 2 ft, voltage: 240 V}",
        "{what: overhead power line, at: 1.9 ft, voltage: 240 V}",
    ),
    "us-leadin-outdoor-clearance": Bench(
        "route.aerial-clearance",
        f"{DEVICES}{LEAD_IN}",
        "{what: overhead power line, at: 3.0 m, voltage: 480 V}",
        "{what: overhead power line, at: 2.99 m, voltage: 480 V}",
    ),
    "us-dish-block-10awg": Bench(
        "bonding.conductor-size",
        DEVICES
        + run("from: ANT, to: GB1", "series 6 outdoor", "roof: 9 ft")
        + f"bonding: {{{IBT}, B: {{from: GB1, to: IBT, conductor: MARK copper, length: 9 ft}}}}\n",
        "10 AWG",
        "14 AWG",
    ),
    "b-spd-both-ends": Bench(
        "protection.antenna-end",
        DEVICES + run("from: ANT, to: GB1", "series 6 outdoor", "roof: MARK, wall: 5 m"),
        "5 m",
        "5.01 m",
        severity=Severity.ADVICE,
    ),
    "h-bend-radius": Bench(
        "route.bend-radius",
        DEVICES + run(INDOORS, "series 6", "den: {length: 9 ft, bend radius: MARK}"),
        "3 in",
        "2 in",
        severity=Severity.DEFICIENCY,
        stage="as-built",
    ),
    "h-drip-loop": Bench(
        "route.drip-loop",
        DEVICES + run("from: GB1, to: O1", "series 6 outdoor", "wall: {length: 9 ft, drip loop: MARK}, den: 3 ft"),
        "true",
        "false",
        severity=Severity.DEFICIENCY,
        stage="as-built",
    ),
    "h-home-run": Bench(
        "plan.home-run",
        f"{BROADBAND}{DEVICES}cables:\n  A: {{from: DROP, to: SP1, type: series 6, length: 9 ft}}\n"
        "  B: {from: SP1, to: O3, type: series 6, length: 9 ft}\n"
        "  C: {from: SP1, to: SP2, type: series 6, length: 9 ft}\n"
        "  D: {from: SP2, to: O2, type: series 6, length: 2 ft}\n"
        "  E: {from: MARK, to: O1, type: series 6, length: 9 ft}\n",
        "SP1",
        "SP2",
        severity=Severity.DEFICIENCY,
        use="one-family dwelling",
    ),
    "h-no-cascade": Bench(
        "plan.splitter-depth",
        f"{BROADBAND}{DEVICES}cables:\n  A: {{from: DROP, to: SP1, type: series 6, length: 9 ft}}\n"
        "  B: {from: SP1, to: O3, type: series 6, length: 9 ft}\n"
        "  C: {from: SP1, to: MARK, type: series 6, length: 9 ft}\n"
        "  D: {from: SP2, to: O1, type: series 6, length: 9 ft}\n"
        "  E: {from: SP2, to: O4, type: series 6, length: 9 ft}\n",
        "O2",
        "SP2",
        severity=Severity.ADVICE,
        use="one-family dwelling",
    ),
}


def reviewed(bench: Bench, edition: str, mark: str) -> DesignReview:
    text = (HEAD + bench.body).replace("MARK", mark).replace("EDITION", edition)
    text = text.replace("USE", bench.use).replace("STAGE", bench.stage)
    review = judge(read_text(text, "bench.coax.yaml"), shipped_registry())
    assert [str(problem) for problem in review.problems] == []
    assert review.crashes == ()
    return review


def told(bench: Bench, edition: str, mark: str) -> list[Finding]:
    return [one for one in reviewed(bench, edition, mark).findings if one.rule == bench.rule]


@pytest.mark.parametrize("edition", EDITIONS)
@pytest.mark.parametrize("fact", BENCHES)
def test_what_keeps_a_fact_is_not_told_and_what_breaks_it_is(fact: str, edition: str) -> None:
    bench = BENCHES[fact]
    assert told(bench, edition, bench.keeps) == []
    (finding,) = told(bench, edition, bench.breaks)
    assert (finding.outcome, finding.severity) == (bench.outcome, bench.severity)


@pytest.mark.parametrize("fact", ON_THE_HOUSE)
def test_the_house_has_a_change_that_keeps_and_one_that_breaks(fact: str) -> None:
    """The changes themselves are judged beside the house."""
    keeps, breaks = (CHANGES[name] for name in ON_THE_HOUSE[fact])
    assert len(breaks.told) == len(keeps.told) + 1


def test_no_rule_limits_the_height_of_a_receiving_mast() -> None:
    """g-cb-height-na: 60 ft and 20 ft are limits of transmitting stations."""
    body = "devices: {ANT: {kind: antenna, place: roof, mast: {height: 90 ft, from power line: 200 ft}}}\n"
    found = reviewed(Bench("", body, "", ""), "2023", "").findings
    assert [one.rule for one in found if one.rule.startswith("antenna.")] == []


def test_cautions_say_what_the_sources_say() -> None:
    """g-work-cautions and g-lightning-wording."""
    texts = {caution.name: caution.text for caution in combine(["us 2023"], shipped_registry()).cautions}
    assert "let it go" in texts["power-lines"]
    assert "call the utility" in texts["power-lines"]
    assert "thunderstorm" in texts["bonding"]
    assert "cannot stop a direct lightning strike" in texts["bonding"]


def test_an_edition_that_is_not_there_is_refused() -> None:
    """us-nec-2026-reorg: what a later edition says is not guessed."""
    text = "coaxwright: 1\ntitle: Bench (invented)\nbasis: {rulesets: [us 2026]}\n"
    (problem,) = judge(read_text(text, "bench.coax.yaml"), shipped_registry()).problems
    assert "2026" in str(problem)


@pytest.mark.parametrize(("edition", "article"), [("2017", "820.100"), ("2020", "800.100"), ("2023", "800.100")])
def test_common_clauses_moved_to_article_800(edition: str, article: str) -> None:
    """us-nec-2020-reorg and us-nec-2023-defs."""
    rule = combine([f"us {edition}"], shipped_registry()).rules["bonding.conductor-length"]
    assert [source.clause.partition("(")[0] for source in rule.sources] == [article]


IN_TESTS_ABOVE = {
    "g-cb-height-na",
    "g-work-cautions",
    "g-lightning-wording",
    "us-nec-2026-reorg",
    "us-nec-2020-reorg",
    "us-nec-2023-defs",
}


def test_every_fact_is_shown_once_or_said_not_to_be_drawn() -> None:
    sorts = [set(ON_THE_HOUSE), set(BENCHES), set(NOT_DRAWN), IN_TESTS_ABOVE]
    assert set().union(*sorts) == set(FACTS)
    assert sum(map(len, sorts)) == len(FACTS)
    assert {row["confidence"] for row in FACTS.values()} == {"found", "found in part"}
