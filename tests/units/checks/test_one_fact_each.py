"""One fact of a check at a time, of those that no example turns on: what counts with what, and how far over a limit."""

from __future__ import annotations

import pytest
from asking import findings

from coaxwright.checks import find_check
from coaxwright.checks.discovery import NoSuchCheck
from coaxwright.findings import Finding, Outcome
from coaxwright.reviewing import judge
from coaxwright.rules import Severity, shipped_registry
from coaxwright.source import read_text

FOOT_M = 0.3048
US = "basis: {rulesets: [us 2023], occupancy: one-family dwelling}\n"


def of(rule: str, text: str) -> list[Finding]:
    return findings(rule, text)


def mixed(camera_only: bool) -> str:
    """A bond for a camera's ground block, and for that of a drop as well where not the camera alone is bonded by it."""
    drop = "" if camera_only else "  B-2: {from: GB2, to: GB1, conductor: 14 AWG copper, length: 2 ft}\n"
    return (
        "buildings: {house: {entry: wall}}\n"
        "places: {wall: {exposure: outdoors, building: house}, den: {building: house}}\n"
        "services: {gate: {kind: camera video, from: SRC, down: {band: 50 Hz to 6 MHz}}}\n"
        "devices:\n"
        "  SRC: {kind: camera, variant: analog, place: wall}\n  GB1: {kind: ground block, place: wall}\n"
        "  REC: {kind: video recorder, inputs: 4, place: den}\n"
        "  DROP: {kind: coax drop, place: wall}\n  GB2: {kind: ground block, place: wall}\n"
        "  TV: {kind: outlet, place: den}\n"
        "cables:\n"
        "  C-1: {from: SRC, to: GB1, type: series 6 copper outdoor, route: [wall: 2 ft]}\n"
        "  C-2: {from: GB1, to: REC, type: series 6 copper outdoor, route: [wall: 2 ft, den: 9 ft]}\n"
        "  C-3: {from: DROP, to: GB2, type: series 6 outdoor, route: [wall: 2 ft]}\n"
        "  C-4: {from: GB2, to: TV, type: series 6 outdoor, route: [wall: 2 ft, den: 9 ft]}\n"
        "bonding:\n"
        "  IBT: {kind: intersystem bonding termination, place: wall, electrode: service}\n"
        f"  B-1: {{from: GB1, to: IBT, conductor: 18 AWG copper, length: 9 ft, coiled: true}}\n{drop}"
    )


@pytest.mark.parametrize(("camera_only", "severity"), [(True, Severity.DEFICIENCY), (False, Severity.VIOLATION)])
@pytest.mark.parametrize(
    ("rule", "conductor"),
    [
        ("bonding.conductor-route", "18 AWG copper"),
        ("bonding.conductor-size", "18 AWG copper"),
        ("bonding.conductor-size", "18 AWG steel"),
    ],
)
def test_a_bond_of_a_camera_and_of_a_drop_is_asked_for_by_the_code(
    rule: str, conductor: str, camera_only: bool, severity: Severity
) -> None:
    text = "coaxwright: 1\ntitle: Bench (invented)\n" + US + mixed(camera_only).replace("18 AWG copper", conductor)
    review = judge(read_text(text, "bench.coax.yaml"), shipped_registry())
    assert review.problems == ()
    assert {one.severity for one in review.unfolded if one.rule == rule and one.subject.tag == "B-1"} == {severity}


def test_a_topic_without_such_a_requirement_has_no_such_check() -> None:
    for name in ("plan.no-such", "plan", "plan.", "no-such.loop-free"):
        with pytest.raises(NoSuchCheck):
            find_check(name)


def test_only_the_cables_that_differ_at_the_device_itself_are_involved() -> None:
    """The cable suits the splitter, and the booster at its far end does not suit it; the other is out of use."""
    text = (
        "services: {cell: {kind: cellular, from: SP, down: {band: 700 MHz to 900 MHz}}}\n"
        "devices: {SP: {kind: splitter, ways: 2}, BOX: {kind: cellular booster}, D: {kind: antenna}}\n"
        "cables: {C-1: {from: SP.out-1, to: BOX.donor, type: series 6, length: 2 m}, "
        "C-2: {from: SP.out-2, to: D, type: 213-type, length: 2 m, state: abandoned}}\n"
    )
    found = [finding for finding in of("impedance.application-usual", text) if finding.subject.tag == "SP"]
    assert [finding.involved for finding in found] == [()]


@pytest.mark.parametrize(("far", "involved"), [(0.1, ()), (0.101, ("C-2",))])
def test_a_joint_that_is_too_poor_alone_is_the_root_of_what_adds_up(far: float, involved: tuple[str, ...]) -> None:
    """A tenth that comes back is a return loss of 20 dB, which suits alone; two of them add up to 14 dB."""
    ohm = 75 * (1 - far) / (1 + far)
    text = (
        'services: {tv: {kind: terrestrial TV, from: ANT, channels: [{name: "24", frequency: 533 MHz}]}}\n'
        f"devices: {{ANT: {{kind: antenna}}, G: {{kind: ground block, loss: 0 dB, impedance: {75 * 0.9 / 1.1!r} ohm}}, "
        f"R: {{kind: receiver, serves: [tv], impedance: {ohm!r} ohm}}}}\n"
        "cables: {C-1: {from: ANT, to: G, type: series 6, length: 0 m}, "
        "C-2: {from: G, to: R, type: series 6, length: 0 m}}\n"
    )
    (finding,) = of("impedance.return-loss", text)
    assert finding.case == "adds up"
    assert tuple(path[1] for path in finding.involved) == involved


@pytest.mark.parametrize(
    ("route", "lies"),
    [
        ("[garden: 9 m, tunnel: 2 m]", "C is buried (9 m of garden)"),
        (
            "[garden: 9 m, {tunnel: {length: 2 m, in: RW}}]",
            "C is buried or lies in the wet (9 m of garden and 2 m",
        ),
        ("[{tunnel: {length: 2 m, in: RW}}]", "C lies in the wet (2 m of tunnel"),
    ],
)
def test_where_the_water_is(route: str, lies: str) -> None:
    text = (
        "places: {garden: {exposure: buried}, tunnel: {exposure: wet}}\n"
        "devices: {A: {kind: ground block, place: garden}, B: {kind: ground block, place: tunnel}}\n"
        "raceways: {RW: {kind: rigid PVC conduit, places: [tunnel]}}\n"
        f"cables: {{C: {{from: A, to: B, type: series 6 outdoor, route: {route}}}}}\n"
    )
    (finding,) = of("jacket.burial-rated", text)
    assert finding.found.startswith(lies)


def test_one_of_two_buildings_in_a_country_with_classes_is_enough() -> None:
    text = (
        "buildings: {inn: {country: DE}, barn: {}}\n"
        "places: {hall: {building: inn}, loft: {building: barn}}\n"
        "devices: {A: {kind: splitter, ways: 2, place: hall}, B: {kind: outlet, place: hall}}\n"
        "cables: {C: {from: A, to: B, type: series 6, route: [hall: 9 m]}}\n"
    )
    assert [finding.outcome for finding in of("jacket.reaction-to-fire", text)] == [Outcome.CANNOT_BE_JUDGED]


def test_one_reading_says_nothing_of_a_slope() -> None:
    """Series 6 loses 6.55 dB/100 ft at 1000 MHz and 1.6 dB at 55 MHz by ANSI/SCTE 74: 400 ft make a slope of 20 dB."""
    text = (
        "services: {net: {kind: cable broadband, from: D, down: {band: 55 MHz to 1000 MHz, level: [20 dBmV at 55 MHz, "
        "20 dBmV at 1000 MHz]}}}\n"
        "devices: {D: {kind: coax drop}, R: {kind: outlet, serves: [net], readings: [{level: 15 dBmV at 55 MHz}]}}\n"
        "cables: {C: {from: D, to: R, type: series 6, length: 400 ft}}\n"
    )
    assert [finding.case for finding in of("level.tilt", text)] == ["steep"]


def test_an_antenna_without_a_protector_is_told_with_its_place() -> None:
    text = (
        "places: {roof: {exposure: rooftop}, den: {}}\n"
        "devices: {ANT: {kind: antenna, place: roof}, TV: {kind: receiver, place: den}}\n"
        "cables: {C: {from: ANT, to: TV, type: series 6 outdoor, route: [roof: 9 m, den: 3 m]}}\n"
    )
    (finding,) = of("protection.antenna-end", text)
    assert (finding.case, "roof" in finding.remedy) == ("none", True)


def test_a_device_that_the_catalogue_lacks_is_not_said_to_be_shut() -> None:
    text = (
        "services: {net: {kind: cable broadband, from: D, down: {band: 54 to 1002 MHz}, up: {band: 5 to 42 MHz}}}\n"
        "devices: {D: {kind: coax drop}, S: {kind: splitter, ways: 31}, M: {kind: cable modem, serves: [net]}}\n"
        "cables: {C-1: {from: D, to: S.in, type: series 6, length: 9 m}, "
        "C-2: {from: S.out-1, to: M, type: series 6, length: 9 m}}\n"
    )
    assert of("return.path-open", text) == []


@pytest.mark.parametrize(
    ("rule", "exposure", "beside", "short_in"),
    [
        ("route.power-separation", "", "{what: power cable, by: open conductors, at: 1 in}", 1),
        ("route.buried-separation", "exposure: buried", "{what: power cable, by: service-entrance cable, at: 4 in}", 8),
        ("route.aerial-clearance", "exposure: outdoors", "{what: lightning conductor, at: 1 ft}", 60),
    ],
)
def test_how_far_a_distance_is_short_tells_the_worst_of_several_units(
    rule: str, exposure: str, beside: str, short_in: float
) -> None:
    """Source: NFPA 70, 800.133(A)(2) 2 in; 800.47 12 in; 800.53 6 ft to lightning conductors, found in part."""
    text = (
        f"places: {{hall: {{{exposure}}}}}\n"
        "devices: {A: {kind: splitter, ways: 2, place: hall}, B: {kind: outlet, place: hall}}\n"
        "cables: {C: {from: A, to: B, type: series 6 flooded, "
        f"route: [hall: {{length: 9 ft, beside: [{beside}]}}]}}}}\n"
    )
    found = [finding for finding in of(rule, text) if finding.outcome is Outcome.NOT_MET]
    assert [finding.excess for finding in found] == [pytest.approx(short_in / 12 * FOOT_M)]


def test_a_reflection_behind_a_cable_of_unknown_loss_counts_in_full() -> None:
    """A fifth comes back, which is a return loss of 13.98 dB; a decibel of loss, there and back, would make it 16."""
    text = (
        'services: {tv: {kind: terrestrial TV, from: ANT, channels: [{name: "24", frequency: 533 MHz}]}}\n'
        f"devices: {{ANT: {{kind: antenna}}, G: {{kind: ground block, loss: 0 dB, impedance: {75 * 0.8 / 1.2!r} ohm}}, "
        "R: {kind: receiver, serves: [tv]}}\n"
        "cables: {C-1: {from: ANT, to: G, type: series 6, length: 0 m}, C-2: {from: G, to: R, type: series 6}}\n"
    )
    assert [finding.outcome for finding in of("impedance.return-loss", text)] == [Outcome.CANNOT_BE_JUDGED]


def test_labels_at_ends_that_name_nothing_hang_at_no_spot() -> None:
    text = (
        "devices: {A: {kind: outlet}, B: {kind: outlet}}\n"
        "cables: {C-1: {from: NOWHERE, to: A, type: series 6, length: 2 m, labels: [X, A1]}, "
        "C-2: {from: ELSEWHERE, to: B, type: series 6, length: 2 m, labels: [X, B1]}}\n"
    )
    assert [finding.case for finding in of("plan.label-complete", text) if finding.case == "alike"] == []
