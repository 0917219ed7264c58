"""Bonds and electrodes: reasons, sources and figures that the examples beside the rules leave open."""

from __future__ import annotations

from math import pi

import pytest
from asking import worded

from coaxwright.analysis import Analysis
from coaxwright.checks import CheckContext, DoesNotApply, NotMet
from coaxwright.checks.contract import Verdict
from coaxwright.design import understand
from coaxwright.findings import Finding
from coaxwright.network import build_network
from coaxwright.reviewing import judge
from coaxwright.reviewing.effective_rules import catalogue_of
from coaxwright.rules import combine, shipped_registry
from coaxwright.source import read_text

ROUTE, METALS, SIZE = "bonding.conductor-route", "bonding.metals-compatible", "bonding.conductor-size"
SHARED, USED, ROD, BUILDINGS = (
    "bonding.electrode-shared",
    "bonding.termination-used",
    "bonding.electrode-rod",
    "bonding.equipotential",
)
HEAD = """\
coaxwright: 1
title: Bench (invented)
basis: {rulesets: [us 2017], occupancy: one-family dwelling}
"""
SITE = """\
places: {wall: {exposure: outdoors}, roof: {exposure: rooftop}}
devices: {GB1: {kind: ground block, place: wall}, ANT: {kind: antenna, place: roof, mast: {}}}
"""


def findings(rule: str, text: str) -> list[Finding]:
    review = judge(read_text(HEAD + text, "bench.coax.yaml"), shipped_registry())
    assert [str(problem) for problem in review.problems] == []
    assert review.crashes == ()
    return [finding for finding in review.unfolded if finding.rule == rule]


def verdicts(rule: str, text: str, subject: str) -> list[Verdict]:
    document = read_text(HEAD + text, "bench.coax.yaml")
    design = understand(document)
    network = build_network(design, catalogue_of(document, design)[0])
    bound = combine(["us 2017"], shipped_registry()).rules[rule]
    site = CheckContext(network, Analysis(network))
    (thing,) = (one for one in bound.check.each.select(network) if bound.check.each.describe(one).tag == subject)
    return list(bound.check.judge(thing, site, bound.limits))


def bond(words: str, to: str = "SYS", more: str = "") -> str:
    """A bond from a ground block, of 10 AWG copper unless its words say otherwise."""
    conductor = "" if "conductor:" in words else "conductor: 10 AWG copper, "
    return (
        f"{SITE}raceways: {{PIPE: {{kind: rigid metal conduit}}}}\n"
        f"bonding:\n  SYS: {{kind: grounding electrode system, place: wall}}\n{more}"
        f"  B-1: {{from: GB1, to: {to}, {conductor}{words}}}\n"
    )


@pytest.mark.parametrize(
    ("length", "effect"),
    [("0 ft", ""), ("0.5 m", "; even straight, its 0.5 m have"), ("2 m", "; even straight, its 2 m have")],
)
def test_a_coil_is_told_with_what_the_length_does_even_straight(length: str, effect: str) -> None:
    (finding,) = findings(ROUTE, bond(f"coiled: true, length: {length}"))
    assert effect in finding.found
    assert ("kV for each kA" in finding.found) is bool(effect)


def test_a_metal_pipe_of_which_nothing_is_said_says_nothing_of_the_bond() -> None:
    text = bond("route: [wall: {length: 2 m, in: PIPE}]")
    assert verdicts(ROUTE, text, "B-1") == [DoesNotApply("nothing said")]
    loose = text.replace("rigid metal conduit}", "rigid metal conduit, bonded: false}")
    assert [one.case for one in verdicts(ROUTE, loose, "B-1") if isinstance(one, NotMet)] == ["sleeve"]


def test_aluminum_in_the_earth_is_told_and_nothing_else_of_it() -> None:
    rod = "  ROD: {kind: ground rod, place: wall, length: 8 ft}\n"
    text = bond("conductor: 8 AWG aluminum, length: 2 m", "ROD", rod)
    (verdict,) = verdicts(METALS, text, "B-1")
    assert isinstance(verdict, NotMet)
    assert verdict.case == "aluminum in the earth"


def test_a_bond_between_two_devices_meets_no_electrode() -> None:
    text = bond("length: 2 m", "ANT.mast")
    assert verdicts(METALS, text, "B-1") == [DoesNotApply("no electrode")]
    unsaid = bond("length: 2 m")
    assert verdicts(METALS, unsaid, "B-1") == [DoesNotApply("metal not said")]


def copper_ohm_per_1000_ft(gauge: int) -> float:
    """ASTM B258: gauge 36 is 0.127 mm thick, gauge 0000 92 times as much, and 39 steps lie between. Copper of 100 %
    IACS has 0.017241 ohm mm²/m: NBS Handbook 100.
    """
    diameter_mm = 0.127 * 92 ** ((36 - gauge) / 39)
    return 304.8 * 0.017241 / (pi / 4 * diameter_mm**2)


@pytest.mark.parametrize(("more", "needed"), [(1.0, "12 AWG copper"), (0.999, "10 AWG copper")])
def test_a_wire_that_just_conducts_as_well_as_the_shield_is_enough(more: float, needed: str) -> None:
    shield = f"{copper_ohm_per_1000_ft(12) * more:.10f} ohm/1000 ft"
    text = (
        "catalogue: {classes: {thick: {like: series 11, source: bench, "
        f"shields: {{foil: {{resistance: {shield}}}}}, "
        "defaults: {shield: foil, center: copper, jacket: outdoor}}}}\n"
        f"{bond('conductor: 14 AWG copper, length: 2 m')}"
        "cables: {C: {from: D, to: GB1, type: thick, route: [wall: 2 m]}}\n"
    ).replace("devices: {", "devices: {D: {kind: coax drop, place: wall}, ")
    (verdict,) = verdicts(SIZE, text, "B-1")
    assert isinstance(verdict, NotMet)
    assert worded("{size:sold like conductor}", verdict, SIZE) == needed


def clauses(finding: Finding) -> list[str]:
    return [source.clause for source in finding.sources]


def lightning(system: str, kind: str, more: str) -> str:
    """A building whose lightning system ends at this electrode, and an electrode E of this kind at its wall."""
    return (
        f"buildings: {{hall: {{lightning system: {{electrode: {system}}}}}}}\n"
        f"{SITE.replace('wall: {', 'wall: {building: hall, ')}bonding:\n  E: {{kind: {kind}, place: wall}}\n{more}"
    )


def test_the_size_of_the_joining_conductor_is_cited_where_it_binds() -> None:
    """250.106 sets no size for what joins a lightning system; 820.100(D) does for an electrode of coax."""
    bonded = "  B-1: {from: GB1, to: E, conductor: 10 AWG copper, length: 2 ft}\n"
    (finding,) = findings(SHARED, lightning("E", "lightning electrode system", bonded))
    assert (finding.case, clauses(finding)) == ("lightning bonds", ["250.106"])
    (finding,) = findings(SHARED, lightning("OTHER", "ground rod, length: 8 ft", bonded))
    assert finding.case == "not joined"
    assert "820.100(D)" in clauses(finding)


@pytest.mark.parametrize(("system", "told"), [("E", ["lightning system"]), ("OTHER", [])])
def test_an_electrode_is_the_lightning_systems_where_the_building_names_it(system: str, told: list[str]) -> None:
    other = "  OTHER: {kind: grounding electrode system, place: wall}\n"
    text = lightning(system, "ground rod, length: 8 ft", other)
    assert [finding.case for finding in findings(SHARED, text)] == told


def test_why_the_termination_is_not_asked_for_is_told() -> None:
    unbonded = f"{SITE}bonding:\n  IBT: {{kind: intersystem bonding termination, place: wall}}\n"
    assert verdicts(USED, unbonded, "GB1") == [DoesNotApply("not bonded")]
    shown = [DoesNotApply("no termination")]
    assert verdicts(USED, bond("length: 2 m"), "GB1") == shown


def test_how_much_a_rod_lacks_is_told() -> None:
    rod = "  ROD: {kind: ground rod, place: wall, length: 6 ft}\n"
    (finding,) = findings(ROD, bond("length: 2 ft", "ROD", rod))
    assert finding.excess == pytest.approx(2 * 0.3048)


TWO_BUILDINGS = """\
buildings: {house: {entry: wall}, studio: {entry: gable}}
places: {wall: {exposure: outdoors}, gable: {exposure: outdoors}, hall: {building: house}, room: {building: studio}}
devices:
  SP1: {kind: splitter, ways: 2, place: hall}
  GB1: {kind: ground block, place: wall}
  GB2: {kind: ground block, place: gable}
  OUT: {kind: outlet, place: room}
cables:
  C-1: {from: SP1, to: GB1, type: series 6, route: [hall: 3 m, wall: 1 m]}
  C-2: {from: GB1, to: GB2, type: series 6 messenger, route: [wall: 1 m, gable: 20 m]}
  C-3: {from: GB2, to: OUT, type: series 6, route: [gable: 1 m, room: 4 m]}
bonding:
  MET: {kind: grounding electrode system, place: wall}
  SUB: {kind: grounding electrode system, place: gable}
  E-1: {from: GB1, to: MET, conductor: 6 mm² copper, length: 2 m}
  E-2: {from: GB2, to: SUB, conductor: 6 mm² copper, length: 2 m}
"""


def test_the_cable_that_brings_the_shield_into_the_other_building_is_named_where_one_is_drawn() -> None:
    (finding,) = findings(BUILDINGS, TWO_BUILDINGS)
    assert "the shield of C-3 joins MET and SUB" in finding.found
    (finding,) = findings(BUILDINGS, "".join(line for line in TWO_BUILDINGS.splitlines(True) if "  C-3:" not in line))
    assert "the shield of their coax joins MET and SUB" in finding.found
