"""Return paths, splits, the bands of devices and open ports: what the examples beside the rules leave open."""

from __future__ import annotations

import pytest

from coaxwright.findings import Finding, Outcome
from coaxwright.reviewing import judge
from coaxwright.rules import Severity, shipped_registry
from coaxwright.source import read_text

HEAD = "coaxwright: 1\ntitle: Bench (invented)\nbasis: {{rulesets: [trade 1]{}}}\n"
OPEN, SPLIT, BAND, ENDS = (
    "return.path-open",
    "return.split-matches",
    "level.device-bandwidth",
    "level.unused-terminated",
)


def findings(text: str, rule: str, occupancy: str = "") -> list[Finding]:
    head = HEAD.format(f", occupancy: {occupancy}" if occupancy else "")
    review = judge(read_text(head + text, "bench.coax.yaml"), shipped_registry())
    assert [str(problem) for problem in review.problems] == []
    assert review.crashes == ()
    return [finding for finding in review.unfolded if finding.rule == rule]


def behind(part: str, up: str = "5 to 42 MHz", down: str = "54 to 1002 MHz", sink: str = "cable modem") -> str:
    """One part between the drop and what the service is wanted at."""
    return (
        f"services: {{net: {{kind: cable broadband, from: D, down: {{band: {down}}}, up: {{band: {up}}}}}}}\n"
        f"devices: {{D: {{kind: coax drop}}, P: {{{part}}}, X: {{kind: {sink}, serves: [net]}}}}\n"
        "cables: {C-1: {from: D, to: P, type: series 6, length: 9 m},"
        " C-2: {from: P, to: X, type: series 6, length: 9 m}}\n"
    )


@pytest.mark.parametrize(
    ("part", "remedy"),
    [
        ("kind: drop amplifier, outputs: 1", "take a 1-output drop amplifier with return path for P"),
        ("kind: drop amplifier, outputs: 8", "take an 8-output drop amplifier with return path for P"),
        ("kind: preamplifier", "feed X from ahead of P"),
        ("kind: filter, variant: high-pass", "feed X from ahead of P"),
        ("kind: drop amplifier, outputs: 1, variant: return path", None),
        ("kind: splitter, ways: 4", None),
        ("kind: tap, outputs: 2, value: 12 dB", None),
        ("kind: galvanic isolator", None),
    ],
)
def test_parts_in_the_way_of_a_modem(part: str, remedy: str | None) -> None:
    found = findings(behind(part), OPEN)
    assert len(found) == (remedy is not None)
    assert all(remedy in finding.remedy for finding in found if remedy is not None)


def test_an_outlet_counts_where_the_design_shows_no_modem() -> None:
    text = behind("kind: drop amplifier, outputs: 2", sink="outlet")
    assert len(findings(text, OPEN)) == 1
    modem_elsewhere = text.replace("X: {kind: outlet", "M: {kind: cable modem, serves: [net]}, X: {kind: outlet")
    assert findings(modem_elsewhere, OPEN) == []


def test_a_service_without_a_return_band_asks_for_none() -> None:
    text = behind("kind: drop amplifier, outputs: 1").replace(", up: {band: 5 to 42 MHz}", "")
    assert findings(text, OPEN) == []


def test_a_known_part_beyond_its_split_is_told_by_the_split() -> None:
    """42 MHz pass and 85 MHz do not: the path is open, and parted at the wrong place."""
    part = "kind: drop amplifier, outputs: 1, variant: return path, split: 42/54 MHz"
    text = behind(part, up="5 to 85 MHz", down="102 to 1002 MHz")
    assert findings(text, OPEN) == []
    (found,) = findings(text, SPLIT)
    assert found.outcome is Outcome.NOT_MET


@pytest.mark.parametrize(
    ("split", "up", "down", "suiting"),
    [
        ("42/54", "5 to 65 MHz", "85 to 862 MHz", "65/85 MHz"),
        ("42/54", "5 to 85 MHz", "108 to 862 MHz", "85/102 MHz"),
        ("85/102", "5 to 204 MHz", "258 to 1002 MHz", "204/258 MHz"),
        ("42/54", "5 to 300 MHz", "372 to 1002 MHz", "300/372 MHz"),
        ("85/102", "5 to 42 MHz", "54 to 1002 MHz", "42/54 MHz"),
        ("42/54", "5 to 85 MHz", "102 to 862 MHz", "85/102 MHz"),
        ("42/54", "5 to 85.1 MHz", "102 to 862 MHz", "85.1/102 MHz"),
        ("42/54", "5 to 204 MHz", "257.9 to 1002 MHz", "204/257.9 MHz"),
        ("85/102", "5 to 42 MHz", "53.9 to 1002 MHz", "42/53.9 MHz"),
        ("85/102", "5 to 42.375 MHz", "53.125 to 1002 MHz", "42.375/53.125 MHz"),
        ("85/102", "5 to 42.3754 MHz", "53.1256 to 1002 MHz", "42.375/53.126 MHz"),  # to a kilohertz
        # each split that is made, for a service that does not use all of it
        ("85/102", "5 to 40 MHz", "54 to 1002 MHz", "42/54 MHz"),
        ("42/54", "5 to 60 MHz", "85 to 1002 MHz", "65/85 MHz"),
        ("42/54", "5 to 200 MHz", "258 to 1002 MHz", "204/258 MHz"),
    ],
)
def test_the_split_that_suits_is_named(split: str, up: str, down: str, suiting: str) -> None:
    part = f"kind: drop amplifier, outputs: 1, variant: return path, split: {split} MHz"
    (found,) = findings(behind(part, up, down), SPLIT)
    assert f"a split of {suiting}" in found.remedy


@pytest.mark.parametrize(
    ("split", "up", "down", "excess_mhz", "is_split", "lost"),
    [
        ("42/54", "5 to 85 MHz", "102 to 862 MHz", 85 - 42, "42/54 MHz", "43 MHz of the return band"),
        ("204/258", "5 to 42 MHz", "54 to 862 MHz", 258 - 54, "204/258 MHz", "204 MHz of the forward band"),
        ("42.1234/54.1236", "5 to 85 MHz", "102 to 862 MHz", 85 - 42.1234, "42.123/54.124 MHz", "42.877 MHz"),
    ],
)
def test_how_much_a_split_cuts_off(split: str, up: str, down: str, excess_mhz: float, is_split: str, lost: str) -> None:
    part = f"kind: drop amplifier, outputs: 1, variant: return path, split: {split} MHz"
    (found,) = findings(behind(part, up, down), SPLIT)
    assert found.excess == pytest.approx(excess_mhz * 1e6)
    assert f"parts the directions at {is_split}" in found.found
    assert f"{lost}" in found.remedy


def test_one_modem_behind_an_amplifier_is_enough_for_its_split_to_matter() -> None:
    part = "kind: drop amplifier, outputs: 2, variant: return path, split: 42/54 MHz"
    text = (
        behind(part, "5 to 85 MHz", "108 to 862 MHz")
        .replace("X: {", "TV: {kind: outlet, serves: [net]}, X: {")
        .replace("cables: {", "cables: {C-3: {from: P, to: TV, type: series 6, length: 9 m}, ")
    )
    (found,) = findings(text, SPLIT)
    assert found.outcome is Outcome.NOT_MET


def test_a_size_that_is_not_made_is_not_said_to_pass_one_way() -> None:
    assert findings(behind("kind: splitter, ways: 5"), OPEN) == []


def test_a_split_that_cuts_a_return_band_in_which_nobody_answers_is_no_matter() -> None:
    part = "kind: drop amplifier, outputs: 2, variant: return path, split: 42/54 MHz"
    text = behind(part, "5 to 85 MHz", "108 to 862 MHz", sink="outlet").replace(
        "X: {kind: outlet", "M: {kind: cable modem, serves: [net]}, X: {kind: outlet"
    )
    assert findings(text, SPLIT) == []


def test_a_stated_split_moves_the_edges_of_what_passes() -> None:
    """With 85/102 MHz a modem answers at 85 MHz, which the usual 42/54 MHz would stop."""
    stated = "kind: drop amplifier, outputs: 1, variant: return path, split: 85/102 MHz"
    text = behind(stated, "5 to 85 MHz", "108 to 1002 MHz")
    assert findings(text, OPEN) == findings(text, SPLIT) == []


SATELLITE = (
    "services: {{sat: {{kind: satellite IF, from: L, down: {{band: 950 to 2150 MHz}}}}}}\n"
    "devices: {{L: {{kind: LNB, outputs: 1}}, P: {{{}}}, X: {{kind: satellite receiver, serves: [sat]}}}}\n"
    "cables: {{C-1: {{from: L, to: P, type: series 6, length: 9 m}},"
    " C-2: {{from: P, to: X, type: series 6, length: 9 m}}}}\n"
)


@pytest.mark.parametrize(
    ("part", "outcome"),
    [
        ("kind: splitter, ways: 2", Outcome.NOT_MET),
        ("kind: splitter, ways: 4", Outcome.NOT_MET),
        ("kind: splitter, ways: 2, variant: satellite", None),
        ("kind: ground block", None),
        ("kind: DC block", None),
        ("kind: protector", Outcome.CANNOT_BE_JUDGED),
        ("kind: tap, outputs: 2, value: 12 dB", Outcome.CANNOT_BE_JUDGED),
    ],
)
def test_parts_on_satellite_if(part: str, outcome: Outcome | None) -> None:
    found = findings(SATELLITE.format(part), BAND)
    assert [finding.outcome for finding in found] == ([outcome] if outcome else [])


def test_the_way_through_a_tap_is_not_mended_by_its_own_kind() -> None:
    """Its outputs reach 1218 MHz, its way through 1002 MHz: of a tap that passes more there nobody has a figure."""
    text = behind("kind: tap, outputs: 2, value: 12 dB", down="54 to 1218 MHz").replace("from: P", "from: P.out")
    (found,) = findings(text, BAND)
    assert found.outcome is Outcome.CANNOT_BE_JUDGED
    assert "from in to out at 1218 MHz" in found.found


def test_a_diplexer_that_parts_a_service_from_where_it_is_wanted() -> None:
    text = (
        'services: {tv: {kind: terrestrial TV, from: A, channels: [{name: "7", frequency: 177 MHz},'
        ' {name: "30", frequency: 569 MHz}]}}\n'
        "devices: {A: {kind: antenna, variant: VHF/UHF}, P: {kind: diplexer, variant: UHF/VHF},"
        " X: {kind: outlet, serves: [tv]}}\n"
        "cables: {C-1: {from: A, to: P.in, type: series 6, length: 9 m},"
        " C-2: {from: P.VHF, to: X, type: series 6, length: 9 m}}\n"
    )
    (found,) = findings(text, BAND)
    assert "P (a UHF/VHF diplexer) stops 569 MHz of tv, wanted at X" in found.found


def test_a_part_that_amplifies_a_band_below_what_a_service_states_is_not_asked_about_below() -> None:
    """A protector's figures begin at 5 MHz, and a camera's picture at 50 Hz: nothing is said of that here."""
    text = (
        "services: {eye: {kind: camera video, from: K, down: {band: 50 Hz to 6 MHz}}}\n"
        "devices: {K: {kind: camera, variant: analog}, P: {kind: protector},"
        " R: {kind: video recorder, inputs: 4, serves: [eye]}}\n"
        "cables: {C-1: {from: K, to: P, type: 59-type, length: 9 m},"
        " C-2: {from: P, to: R, type: 59-type, length: 9 m}}\n"
    )
    assert findings(text, BAND) == []


def ports(device: str, cables: str = "C-1: {from: D, to: P, type: series 6, length: 9 m}", more: str = "") -> str:
    return f"devices: {{D: {{kind: coax drop}}, P: {{{device}}}{more}}}\ncables: {{{cables}}}\n"


@pytest.mark.parametrize(
    ("device", "told"),
    [
        ("kind: splitter, ways: 2", "put two terminators of 75 Ω on P.out-1 and P.out-2"),
        ("kind: splitter, ways: 3, variant: unbalanced", "on P.low-loss, P.out-1 and P.out-2"),
        ("kind: directional coupler, value: 9 dB", "on P.out and P.tap"),
        ("kind: outlet, variant: loop-through, value: 10 dB", "put one terminator of 75 Ω on P.out"),
        ("kind: outlet", None),
        ("kind: multiswitch, outputs: 4", None),
        ("kind: drop amplifier, outputs: 4", None),
        ("kind: splitter, ways: 2, state: reserve", None),
    ],
)
def test_open_ports(device: str, told: str | None) -> None:
    cable = "C-1: {from: D, to: P.terrestrial, type: series 6, length: 9 m}"
    text = ports(device, cable) if "multiswitch" in device else ports(device)
    found = findings(text, ENDS, "one-family dwelling")
    assert len(found) == (told is not None)
    assert all(told in finding.remedy for finding in found if told is not None)


def test_a_splitter_of_50_ohm_gets_terminators_of_50_ohm() -> None:
    text = (
        "devices: {B: {kind: cellular booster}, P: {kind: splitter, ways: 2, variant: 50 ohm}}\n"
        "cables: {C-1: {from: B.server, to: P, type: 10 mm 50 ohm low-loss, length: 9 m}}\n"
    )
    (found,) = findings(text, ENDS, "commercial")
    assert "two terminators of 50 Ω" in found.remedy


@pytest.mark.parametrize(
    ("occupancy", "severity"),
    [
        ("one-family dwelling", Severity.ADVICE),
        ("two-family dwelling", Severity.ADVICE),
        ("multifamily dwelling", Severity.DEFICIENCY),
        ("commercial", Severity.DEFICIENCY),
        ("", Severity.ADVICE),
    ],
)
def test_open_ports_matter_more_where_many_share_the_plant(occupancy: str, severity: Severity) -> None:
    (found,) = findings(ports("kind: splitter, ways: 2"), ENDS, occupancy)
    assert found.severity is severity


def test_a_feed_asks_for_terminators_that_block_it() -> None:
    text = (
        "devices: {L: {kind: LNB, outputs: 1}, P: {kind: splitter, ways: 2, variant: satellite},"
        " R: {kind: satellite receiver}}\n"
        "cables: {C-1: {from: L, to: P, type: series 6, length: 9 m},"
        " C-2: {from: P.out-1, to: R, type: series 6, length: 9 m}}\n"
    )
    (found,) = findings(text, ENDS, "one-family dwelling")
    assert "one DC-blocking terminator of 75 Ω on P.out-2" in found.remedy


def test_the_port_that_a_misspelt_cable_may_mean_is_not_known_to_be_open() -> None:
    text = (
        "devices: {D: {kind: coax drop}, SPLIT: {kind: splitter, ways: 2}, X: {kind: outlet}}\n"
        "cables: {C-1: {from: D, to: SPLIT, type: series 6, length: 9 m},"
        " C-2: {from: SPLTI, to: X, type: series 6, length: 9 m}}\n"
    )
    assert [finding.outcome for finding in findings(text, ENDS, "commercial")] == [Outcome.CANNOT_BE_JUDGED]
    settled = findings(text.replace("SPLTI", "SPLIT"), ENDS, "commercial")
    assert [finding.outcome for finding in settled] == [Outcome.NOT_MET]


def test_what_nothing_is_joined_to_is_not_asked() -> None:
    assert findings("devices: {P: {kind: splitter, ways: 2}}\n", ENDS, "commercial") == []
