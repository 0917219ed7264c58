"""A line that stays on the premises, such as a camera's: practice asks for its bond, and no article is sure to.

NFPA 70, 820.1 and 810.1, from memory: article 820 is about radio-frequency signals as community antenna systems carry
them, article 810 about antennas and their lead-ins; baseband video of one's own cameras is neither.
"""

from __future__ import annotations

import pytest

from coaxwright.findings import Finding, Outcome
from coaxwright.reviewing import judge
from coaxwright.rules import Severity, shipped_registry
from coaxwright.source import read_text

CAMERA = (
    "camera, variant: analog",
    "services: {gate: {kind: camera video, from: SRC, down: {band: 50 Hz to 6 MHz}}}\n",
)
DROP = ("coax drop", "")
ANTENNA = ("antenna", "")


def design(source: tuple[str, str], bonds: str = "", block: str = "", edition: str = "2023") -> str:
    kind, services = source
    return (
        f"coaxwright: 1\ntitle: Bench (invented)\nbasis: {{rulesets: [us {edition}], occupancy: one-family dwelling}}\n"
        "buildings: {house: {entry: wall}}\n"
        "places: {wall: {exposure: outdoors, building: house}, den: {building: house}}\n"
        f"{services}devices:\n"
        f"  SRC: {{kind: {kind}, place: wall}}\n"
        f"  GB1: {{kind: ground block, place: wall{block}}}\n"
        "  REC: {kind: video recorder, inputs: 4, place: den}\n"
        "cables:\n"
        "  C-1: {from: SRC, to: GB1, type: series 6 copper outdoor, route: [wall: 2 ft]}\n"
        "  C-2: {from: GB1, to: REC, type: series 6 copper outdoor, route: [wall: 2 ft, den: 9 ft]}\n"
        "bonding:\n"
        "  IBT: {kind: intersystem bonding termination, place: wall, electrode: service}\n"
        f"  GES: {{kind: grounding electrode system, place: wall}}\n{bonds}"
    )


def told(text: str) -> list[Finding]:
    review = judge(read_text(text, "bench.coax.yaml"), shipped_registry())
    assert review.problems == ()
    assert review.crashes == ()
    return [one for one in review.unfolded if one.rule.startswith(("bonding.", "protection."))]


BOND = "  B-1: {{from: GB1, to: {to}, conductor: {conductor}, length: {length}{more}}}\n"


def bond(to: str = "IBT", conductor: str = "10 AWG copper", length: str = "9 ft", more: str = "") -> str:
    return BOND.format(to=to, conductor=conductor, length=length, more=more)


BROKEN = {
    "no bond": ("bonding.conductor-present", "", ""),
    "a bond that leads nowhere": (
        "bonding.conductor-present",
        "  B-1: {from: GB1, to: SRC, conductor: 10 AWG copper, length: 9 ft}\n",
        "",
    ),
    "a thin bond": ("bonding.conductor-size", bond(conductor="18 AWG copper"), ""),
    "a bond of steel": ("bonding.conductor-size", bond(conductor="6 AWG steel"), ""),
    "a coiled bond": ("bonding.conductor-route", bond(more=", coiled: true"), ""),
    "a bond that is not guarded": ("bonding.conductor-route", bond(more=", guarded: false"), ""),
    "a block that is not listed": ("protection.listed", bond(), ", listed: false"),
}


@pytest.mark.parametrize("edition", ["2017", "2020", "2023"])
@pytest.mark.parametrize("case", BROKEN)
def test_a_cameras_bond_is_asked_for_by_practice(case: str, edition: str) -> None:
    rule, bonds, block = BROKEN[case]
    (finding,) = told(design(CAMERA, bonds, block, edition))
    assert (finding.rule, finding.outcome) == (rule, Outcome.NOT_MET)
    assert finding.severity is Severity.DEFICIENCY
    assert [str(source) for source in finding.sources] == ["common practice, no source"]


@pytest.mark.parametrize("source", [DROP, ANTENNA], ids=["a drop", "an antenna"])
@pytest.mark.parametrize("case", BROKEN)
def test_the_same_on_a_line_from_outside_breaks_the_code(case: str, source: tuple[str, str]) -> None:
    rule, bonds, block = BROKEN[case]
    findings = [one for one in told(design(source, bonds, block)) if one.rule == rule]
    assert [one.severity for one in findings] == [Severity.VIOLATION]
    assert "NFPA 70" in {one.document for one in findings[0].sources}


def test_where_the_clause_alone_asks_a_camera_is_asked_nothing() -> None:
    assert told(design(CAMERA, bond("GES"))) == []
    assert {one.rule for one in told(design(DROP, bond("GES")))} == {"bonding.termination-used"}


def test_the_length_of_a_cameras_bond_is_left_to_a_person() -> None:
    assert told(design(CAMERA, bond(length="20 ft"))) == []
    (finding,) = told(design(CAMERA, bond(length="26 ft")))
    assert (finding.rule, finding.outcome) == ("bonding.conductor-length", Outcome.NEEDS_A_PERSON)
    (finding,) = told(design(DROP, bond(length="26 ft")))
    assert (finding.outcome, finding.severity) == (Outcome.NOT_MET, Severity.VIOLATION)


def test_a_conductor_that_serves_a_drop_as_well_breaks_the_code() -> None:
    """The wire from one block to the other serves both, whatever the camera's would need alone."""
    text = design(CAMERA, bond(conductor="18 AWG copper")).replace(
        "cables:\n", "  NID: {kind: coax drop, place: wall}\n  GB2: {kind: ground block, place: wall}\ncables:\n"
        "  C-3: {from: NID, to: GB2, type: series 6 outdoor, route: [wall: 2 ft]}\n"
    )  # fmt: skip
    (finding,) = told(text + "  B-2: {from: GB2, to: GB1, conductor: 14 AWG copper, length: 1 ft}\n")
    assert finding.severity is Severity.VIOLATION
    assert finding.subject.tag == "B-1"


def test_a_block_that_nothing_is_joined_to_is_no_cameras() -> None:
    text = design(CAMERA, bond()) + "  B-3: {from: GB9, to: IBT, conductor: 18 AWG copper, length: 1 ft}\n"
    text = text.replace("  REC:", "  GB9: {kind: ground block, place: wall}\n  REC:")
    (finding,) = told(text)
    assert finding.severity is Severity.VIOLATION


BARN = """\
coaxwright: 1
title: Bench (invented)
basis: {rulesets: [us 2023], occupancy: one-family dwelling}
buildings: {house: {entry: wall, tied to: [barn]}, barn: {entry: gable}}
places:
  wall: {exposure: outdoors, building: house}
  den: {building: house}
  gable: {exposure: outdoors, building: barn}
  loft: {building: barn}
SERVICES
devices:
  SRC: {kind: KIND, place: den}
  GB1: {kind: ground block, place: wall}
  GB2: {kind: ground block, place: gable}
  TV: {kind: outlet, place: loft}
cables:
  C-1: {from: SRC, to: GB1, type: series 6 copper outdoor, route: [den: 2 ft, wall: 2 ft]}
  C-2: {from: GB1, to: GB2, type: series 6 messenger, route: [wall: 2 ft, gable: 20 ft]}
  C-3: {from: GB2, to: TV, type: series 6 copper outdoor, route: [gable: 2 ft, loft: 9 ft]}
bonding:
  IBT: {kind: intersystem bonding termination, place: wall, electrode: service}
  GES: {kind: grounding electrode system, place: gable}
  B-1: {from: GB1, to: IBT, conductor: 10 AWG copper, length: 2 ft}
  B-2: {from: GB2, to: IBT, conductor: 10 AWG copper, length: 19 ft}
"""


@pytest.mark.parametrize(
    ("kind", "severity"),
    [("modulator", Severity.DEFICIENCY), ("optical node", Severity.VIOLATION)],
)
def test_a_run_between_buildings_of_what_begins_here(kind: str, severity: Severity) -> None:
    services = "services: {one: {kind: in-home data, from: SRC, down: {band: 470 MHz to 478 MHz}}}"
    found = told(BARN.replace("KIND", kind).replace("SERVICES", services))
    ((rule, told_severity),) = {(one.rule, one.severity) for one in found if one.outcome is Outcome.NOT_MET}
    assert (rule, told_severity) == ("protection.both-buildings", severity)
