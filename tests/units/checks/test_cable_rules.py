"""Classes, metals and conditions of cable: what the examples beside the rules leave open."""

from __future__ import annotations

from itertools import pairwise

import pytest

from coaxwright.findings import Finding, Outcome
from coaxwright.reviewing import DesignReview, judge
from coaxwright.rules import Severity, shipped_registry
from coaxwright.source import read_text

HEAD = "coaxwright: 1\ntitle: Bench (invented)\nbasis: {rulesets: [trade 1]}\n"
BROADBAND = "services: {net: {kind: cable broadband, from: D, down: {band: 54 MHz to 1002 MHz}}}\n"
PAIR = "devices: {D: {kind: coax drop}, R: {kind: outlet, serves: [net]}}\n"
FEED = (
    "devices: {{L: {{kind: LNB, outputs: 1{current}}}, {between}S: {{kind: satellite receiver}}}}\n"
    "cables: {{{cables}}}\n"
)


def review_of(text: str, head: str = HEAD) -> DesignReview:
    review = judge(read_text(head + text, "bench.coax.yaml"), shipped_registry())
    assert [str(problem) for problem in review.problems] == []
    assert review.crashes == ()
    return review


def findings(text: str, rule: str, head: str = HEAD) -> list[Finding]:
    return [finding for finding in review_of(text, head).unfolded if finding.rule == rule]


@pytest.mark.parametrize(
    ("type_", "suiting"),
    [
        ("series 59", "series 6"),
        ("series 59 quad copper outdoor", "series 6 quad copper outdoor"),
        ("59-type 95 % copper outdoor", "series 6 copper outdoor"),
        ("59-type 23 AWG", "series 6"),
        ("59-type clad-steel foam", "series 6"),
        ("series 6", None),
        ("series 7 tri", None),
        ("series 11 quad", None),
        ("6-type", None),
        ("11-type", None),
    ],
)
def test_class_for_new_broadband(type_: str, suiting: str | None) -> None:
    found = findings(
        f"{BROADBAND}{PAIR}cables: {{C: {{from: D, to: R, type: {type_}, length: 20 m}}}}\n",
        "cable.class-suits-service",
    )
    assert [finding.mend.text if finding.mend else None for finding in found] == ([suiting] if suiting else [])


@pytest.mark.parametrize("kind", ["terrestrial TV", "FM radio", "in-home data"])
def test_a_thin_class_is_sound_for_what_is_no_broadband(kind: str) -> None:
    service = f"services: {{net: {{kind: {kind}, from: D, down: {{band: 88 MHz to 800 MHz}}}}}}\n"
    assert (
        findings(
            f"{service}{PAIR}cables: {{C: {{from: D, to: R, type: series 59, length: 20 m}}}}\n",
            "cable.class-suits-service",
        )
        == []
    )


def test_an_old_video_cable_for_satellite_is_advice() -> None:
    text = (
        "services: {sat: {kind: satellite IF, from: L, down: {band: 950 MHz to 2150 MHz}}}\n"
        "devices: {L: {kind: LNB, outputs: 1}, S: {kind: satellite receiver, serves: [sat]}}\n"
        "cables: {C: {from: L, to: S, type: 59-type, length: 9 m, state: existing}}\n"
    )
    (finding,) = findings(text, "cable.class-suits-service")
    assert finding.severity is Severity.ADVICE


def fed(cables: str, between: str = "", current: str = "") -> list[Finding]:
    return findings(FEED.format(cables=cables, between=between, current=current), "cable.conductor-material")


def test_volts_lost_over_clad_steel() -> None:
    """18 AWG by NBS Handbook 100 and ASTM B869: 30.41 against 6.39 ohm/1000 ft; the tri shield adds 6.1 (model)."""
    (finding,) = fed("C: {from: L, to: S, type: series 6 tri, length: 100 ft}", current=", current: 250 mA")
    assert f"take {3.041 + 0.61:.2f} V for each ampere, {0.639 + 0.61:.2f} V with a copper center" in finding.found
    assert f"({0.25 * 3.651:.2f} V at the 250 mA that L draws)" in finding.found
    assert finding.severity is Severity.DEFICIENCY


def test_the_clad_cables_of_a_feed_count_together_and_copper_ones_do_not() -> None:
    short = "C-1: {from: L, to: GB, type: series 6 tri, length: 40 ft}"
    joined = fed(f"{short}, C-2: {{from: GB, to: S, type: series 6 tri, length: 40 ft}}", "GB: {kind: ground block}, ")
    assert {finding.case for finding in joined} == {"feed"}
    assert len(joined) == 2
    (alone,) = fed(
        f"{short}, C-2: {{from: GB, to: S, type: series 6 tri copper, length: 300 ft}}", "GB: {kind: ground block}, "
    )
    assert (alone.case, alone.severity) == ("short feed", Severity.ADVICE)


def test_where_no_power_comes_the_metal_of_the_center_is_free() -> None:
    cut = fed(
        "C-1: {from: L, to: B, type: series 6, length: 90 m}, C-2: {from: B, to: S, type: series 6, length: 90 m}",
        "B: {kind: DC block}, ",
    )
    assert cut == []


def test_existing_clad_steel_is_advice() -> None:
    (finding,) = fed("C: {from: L, to: S, type: series 6 tri, length: 100 ft, state: existing}")
    assert finding.severity is Severity.ADVICE


def test_low_end_of_video_over_clad_steel() -> None:
    """An exact two-layer solution computed apart, 18 AWG at 0.5 MHz: 2.60 times with 29 µm (20.2 % of copper), 1.66
    with 50 µm (27 %); the catalogue's center has 21 %.
    """
    text = (
        "services: {cam: {kind: camera video, from: CAM, down: {band: 50 Hz to 6 MHz}}}\n"
        "devices: {CAM: {kind: camera, variant: analog}, REC: {kind: video recorder, inputs: 4, serves: [cam]}}\n"
        "cables: {C: {from: CAM, to: REC, type: series 6 tri, length: 30 m}}\n"
    )
    (finding,) = findings(text, "cable.conductor-material")
    times = float(finding.found.partition("loses about ")[2].partition(" times")[0])
    assert 1.66 < times <= 2.60
    assert finding.mend is not None
    assert finding.mend.text == "series 6 tri copper"


@pytest.mark.parametrize(("stage", "outcomes"), [("permit", []), ("as-built", [Outcome.CANNOT_BE_JUDGED])])
def test_a_measurement_is_asked_for_when_it_is_built(stage: str, outcomes: list[Outcome]) -> None:
    cable = "{from: D, to: R, type: series 6, length: 20 m, state: existing}"
    text = f"stage: {stage}\n{BROADBAND}{PAIR}cables: {{C: {cable}}}\n"
    assert [finding.outcome for finding in findings(text, "cable.legacy-reuse")] == outcomes
    read = text.replace("state: existing", "state: existing, readings: [{loss: 3 dB at 500 MHz}]")
    assert findings(read, "cable.legacy-reuse") == []
    worn = findings(read.replace("3 dB", "9 dB"), "cable.legacy-reuse")
    assert [finding.outcome for finding in worn] == [Outcome.NOT_MET]
    before = read.replace("3 dB", "9 dB").replace("readings:", "measured loss: [3 dB at 500 MHz], readings:")
    assert findings(before, "cable.legacy-reuse") == []


def test_old_cable_without_a_service_is_left_alone() -> None:
    text = (
        "devices: {D: {kind: antenna}, R: {kind: outlet}}\n"
        "cables: {C: {from: D, to: R, type: series 6, length: 20 m, state: existing, "
        "measured loss: [30 dB at 500 MHz]}}\n"
    )
    assert findings(text, "cable.legacy-reuse") == []


OVERSIZED = (
    "services: {{net: {{kind: cable broadband, from: D, down: {{band: 54 MHz to 1002 MHz, level: [12 dBmV at 54 MHz, "
    "12 dBmV at 1002 MHz]}}{up}}}}}\n{PAIR}"
    "cables: {{C: {{from: D, to: R, type: series 11 quad, length: 30 ft{more}}}}}\n"
)


@pytest.mark.parametrize(
    ("up", "more", "is_told"),
    [
        ("", "", True),
        (", up: {band: 5 MHz to 42 MHz, wanted: 40 dBmV}", "", True),
        (", up: {band: 5 MHz to 42 MHz, wanted: 49 dBmV}", "", False),
        (", up: {band: 5 MHz to 42 MHz}", "", False),
        ("", ", owner: operator", False),
        ("", ", state: existing", False),
    ],
)
def test_where_a_larger_class_has_no_reason(up: str, more: str, is_told: bool) -> None:
    assert bool(findings(OVERSIZED.format(up=up, PAIR=PAIR, more=more), "cable.oversized")) is is_told


def test_a_trunk_of_short_pieces_is_seen_whole() -> None:
    """Four pieces of 25 ft gain 2.2 dB together at 1002 MHz by the table of ANSI/SCTE 74, 0.6 dB each."""
    blocks = ", ".join(f"{tag}: {{kind: ground block}}" for tag in "ABE")
    devices = f"devices: {{D: {{kind: coax drop}}, {blocks}, R: {{kind: outlet, serves: [net]}}}}\n"
    tags = ["D", "A", "B", "E", "R"]
    links = ", ".join(
        f"C-{one}: {{from: {one}, to: {other}, type: series 11, length: 25 ft}}" for one, other in pairwise(tags)
    )
    text = OVERSIZED.format(up="", PAIR=devices, more="").partition("cables:")[0] + f"cables: {{{links}}}\n"
    assert findings(text, "cable.oversized") == []


def test_only_one_known_edge_of_temperature_is_no_reason() -> None:
    text = (
        "places: {roof: {exposure: rooftop, temperature: -60 to 90 °C}}\n"
        "devices: {D: {kind: antenna}, R: {kind: outlet}}\n"
        "cables: {C: {from: D, to: R, type: series 6 outdoor, route: [roof: 3 m]}}\n"
    )
    assert findings(text, "cable.temperature-range") == []


@pytest.mark.parametrize(
    ("shield", "is_told"), [("", True), ("77 %", True), ("90 %", True), ("tri", True), ("quad", False)]
)
def test_shields_beside_a_transmitter_are_advice_at_most(shield: str, is_told: bool) -> None:
    text = (
        "places: {den: {beside: transmitter at 2 m}}\ndevices: {D: {kind: antenna}, R: {kind: outlet}}\n"
        f"cables: {{C: {{from: D, to: R, type: series 6 {shield}, route: [den: 3 m]}}}}\n".replace(" ,", ",")
    )
    found = findings(text, "cable.shield-coverage")
    assert [finding.severity for finding in found] == ([Severity.ADVICE] if is_told else [])
    assert findings(text.replace("transmitter", "data cable"), "cable.shield-coverage") == []
