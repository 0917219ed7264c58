"""In-home data, user bands and the isolation of outlets: what the examples beside the rules leave open."""

from __future__ import annotations

import pytest

from coaxwright.findings import Finding, Outcome
from coaxwright.reviewing import judge
from coaxwright.rules import Severity, shipped_registry
from coaxwright.source import read_text

HEAD = "coaxwright: 1\ntitle: Bench (invented)\nbasis: {rulesets: [trade 1], occupancy: one-family dwelling}\n"
FILTER, LOSS, BAND, USER = "indata.entry-filter", "indata.path-loss", "level.device-bandwidth", "satellite.user-band"
APART, NEIGHBORS = "level.isolation", "level.dwelling-isolation"
DATA = "data: {kind: in-home data, from: A}"
STATIONS = "A: {kind: in-home data adapter}, B: {kind: in-home data adapter}"
SPLITTER = "S: {kind: splitter, ways: 2, variant: in-home data}"


def findings(text: str, *rules: str) -> list[Finding]:
    review = judge(read_text(HEAD + text, "bench.coax.yaml"), shipped_registry())
    assert [str(problem) for problem in review.problems] == []
    assert review.crashes == ()
    return [finding for finding in review.unfolded if finding.rule in rules]


def site(devices: str, joints: tuple[tuple[str, str], ...], services: str = DATA, length: str = "9 m") -> str:
    cables = ", ".join(
        f"C-{number}: {{from: {one}, to: {other}, type: series 6, length: {length}}}"
        for number, (one, other) in enumerate(joints, start=1)
    )
    return f"services: {{{services}}}\ndevices: {{{devices}}}\ncables: {{{cables}}}\n"


IN = (("S", "A"), ("S", "B"))


@pytest.mark.parametrize(
    ("between", "joints", "place"),
    [
        ("", (("D", "S.in"),), "between D and S"),
        (", G: {kind: ground block}", (("D", "G"), ("G", "S.in")), "between G and S"),
        (", G: {kind: ground block}, I: {kind: galvanic isolator}",
         (("D", "G"), ("G", "I"), ("I", "S.in")), "between I and S"),
        (", F: {kind: filter, variant: mobile band}", (("D", "F"), ("F", "S.in")), "between D and F"),
        (", F: {kind: filter, variant: point-of-entry}", (("D", "F"), ("F", "S.in")), None),
        (", P: {kind: drop amplifier, outputs: 1}", (("D", "P"), ("P", "S.in")), None),
    ],
)  # fmt: skip
def test_where_the_entry_filter_belongs(between: str, joints: tuple[tuple[str, str], ...], place: str | None) -> None:
    text = site(f"D: {{kind: coax drop}}, {STATIONS}, {SPLITTER}{between}", (*joints, *IN))
    found = findings(text, FILTER)
    assert len(found) == (place is not None)
    assert all(finding.remedy == f"put a point-of-entry filter {place}" for finding in found)


def test_each_way_out_has_its_own_finding() -> None:
    text = site(
        f"D: {{kind: coax drop}}, E: {{kind: antenna}}, T: {{kind: splitter, ways: 2}}, {STATIONS}, {SPLITTER}",
        (("D.out", "T.out-1"), ("E.out", "T.out-2"), ("T.in", "S.in"), *IN),
    )
    assert {finding.identity.facet for finding in findings(text, FILTER)} == {"D", "E"}


def test_a_filter_that_stops_another_band_is_none() -> None:
    """A filter of 1125 to 1675 MHz does not stop in-home data that works at 500 to 600 MHz."""
    joints = (("D", "F"), ("F", "S.in"), *IN)
    devices = f"D: {{kind: coax drop}}, F: {{kind: filter, variant: point-of-entry}}, {STATIONS}, {SPLITTER}"
    low = "data: {kind: in-home data, from: A, down: {band: 500 to 600 MHz}}"
    (found,) = findings(site(devices, joints, low), FILTER)
    assert "data (500 MHz to 600 MHz)" in found.found
    assert findings(site(devices, joints), FILTER) == []


def test_outlets_and_modems_that_name_the_service_are_stations() -> None:
    text = site(
        "D: {kind: coax drop}, A: {kind: cable modem, serves: [data]}, B: {kind: outlet, serves: [data]},"
        f" C: {{kind: outlet}}, {SPLITTER.replace('ways: 2, variant: in-home data', 'ways: 3')}",
        (("D", "S.in"), ("S", "A"), ("S", "B"), ("S", "C")),
    )
    (found,) = findings(text, FILTER)
    assert "goes from A out over D" in found.found
    (band,) = findings(text, BAND)
    assert "S (a splitter) is made for frequencies up to 1218 MHz" in band.found
    assert band.severity is Severity.ADVICE
    assert "2-way in-home data splitter" in band.remedy


def test_stations_of_two_services_are_kept_apart() -> None:
    services = "data: {kind: in-home data, from: A}, more: {kind: in-home data, from: B}"
    assert findings(site(f"{STATIONS}, {SPLITTER}", IN, services), LOSS) == []


@pytest.mark.parametrize(
    ("length", "severity"), [("20 m", None), ("70 m", Severity.ADVICE), ("140 m", Severity.DEFICIENCY)]
)
def test_what_is_more_than_planned_is_advice_and_what_is_beyond_reach_is_none(
    length: str, severity: Severity | None
) -> None:
    found = findings(site(f"{STATIONS}, {SPLITTER}", IN, length=length), LOSS)
    assert [finding.severity for finding in found] == ([severity] if severity else [])


def test_the_worst_pair_is_named_and_the_others_are_counted() -> None:
    text = site(
        f"{STATIONS}, E: {{kind: in-home data adapter}}, {SPLITTER}, {SPLITTER.replace('S:', 'T:')}",
        (("S", "A"), ("S", "T.in"), ("T", "B"), ("T", "E")),
        length="140 m",
    )
    (found,) = findings(text, LOSS)
    assert ", and 2 more pairs as well" in found.found


def test_stations_that_a_filter_parts_are_no_pair() -> None:
    text = site(
        f"{STATIONS}, F: {{kind: filter, variant: point-of-entry}}, S: {{kind: splitter, ways: 2}}",
        (("S", "A"), ("S", "F"), ("F", "B")),
    )
    assert findings(text, LOSS, BAND) == []


def test_an_amplifier_with_a_return_path_has_no_figure_for_in_home_data() -> None:
    text = site(
        f"{STATIONS}, P: {{kind: drop amplifier, outputs: 1, variant: return path}}, {SPLITTER}",
        (("S", "A"), ("S", "P"), ("P", "B")),
    )
    assert {(finding.rule, finding.outcome) for finding in findings(text, LOSS, BAND)} == {
        (LOSS, Outcome.CANNOT_BE_JUDGED),
        (BAND, Outcome.CANNOT_BE_JUDGED),
    }


RECEIVERS = "R-1: {{kind: satellite receiver, serves: [sat]{}}}, R-2: {{kind: satellite receiver, serves: [sat]{}}}"
SAT = "sat: {kind: satellite IF, from: L, down: {band: 950 to 2150 MHz}}"


@pytest.mark.parametrize(
    ("one", "other", "outcomes"),
    [
        (", user band: 1210 MHz", ", user band: 1210 MHz", [Outcome.NOT_MET]),
        (", user band: 1210 MHz", ", user band: 1420 MHz", []),
        (", user band: 1210 MHz", "", [Outcome.CANNOT_BE_JUDGED]),
        ("", "", []),
    ],
)
def test_user_bands(one: str, other: str, outcomes: list[Outcome]) -> None:
    receivers = RECEIVERS.format(one, other)
    devices = f"L: {{kind: LNB, outputs: 1}}, S: {{kind: splitter, ways: 2, variant: satellite}}, {receivers}"
    text = site(devices, (("L", "S.in"), ("S", "R-1"), ("S", "R-2")), SAT)
    assert [finding.outcome for finding in findings(text, USER)] == outcomes


def test_receivers_on_two_outputs_of_a_switch_may_have_one_user_band() -> None:
    band = ", user band: 1210 MHz"
    devices = f"L: {{kind: LNB, outputs: 1}}, S: {{kind: multiswitch, outputs: 4}}, {RECEIVERS.format(band, band)}"
    text = site(devices, (("L", "S.vertical-low"), ("S", "R-1"), ("S", "R-2")), SAT)
    assert findings(text, USER) == []
    assert findings(text.replace("to: R-2", "to: R-9"), USER) == []  # a receiver that nothing reaches


NET = "net: {kind: cable broadband, from: D, down: {band: 54 to 1002 MHz}}"
OUTLETS = "X: {kind: outlet, serves: [net]}, Y: {kind: outlet, serves: [net]}"


@pytest.mark.parametrize(
    ("part", "joints"),
    [
        ("kind: splitter, ways: 8", (("D", "S.in"), ("S", "X"), ("S", "Y"))),
        ("kind: tap, outputs: 2, value: 20 dB", (("D", "S.in"), ("S", "X"), ("S", "Y"))),
        ("kind: tap, outputs: 1, value: 6 dB", (("D", "S.in"), ("S.tap", "X"), ("S.out", "Y"))),
        ("kind: drop amplifier, outputs: 4", (("D", "S.in"), ("S", "X"), ("S", "Y"))),
    ],
)
def test_usual_parts_keep_outlets_apart(part: str, joints: tuple[tuple[str, str], ...]) -> None:
    text = site(f"D: {{kind: coax drop}}, S: {{{part}}}, {OUTLETS}", joints, NET, "0 m")
    assert findings(text, APART, NEIGHBORS) == []


def test_outlets_on_a_loop_are_kept_apart() -> None:
    """Of 862 MHz, which is as far as they are made: socket to way on, the next outlet's own loss on top."""
    net = NET.replace("1002", "862")
    loop = "kind: outlet, variant: loop-through, value: 10 dB, serves: [net]"
    devices = f"D: {{kind: coax drop}}, X: {{{loop}}}, Y: {{{loop}}}"
    assert findings(site(devices, (("D", "X.in"), ("X.out", "Y.in")), net, "0 m"), APART) == []


def test_a_splitter_counts_at_the_frequencies_of_which_it_says_something() -> None:
    """A tap says nothing of its isolation above 1002 MHz: it is judged below."""
    joints = (("D", "S.in"), ("S", "X"), ("S", "Y"))
    text = site(f"D: {{kind: coax drop}}, S: {{kind: tap, outputs: 2, value: 12 dB}}, {OUTLETS}", joints,
                NET.replace("1002", "1218"), "0 m")  # fmt: skip
    assert findings(text, APART) == []


WEAK = """\
catalogue: {devices: {weak splitter: {like: 2-way splitter, isolations: [
  {from: out, to: out, band: 5 MHz to 1002 MHz, nominal: 10 dB}]}}}
"""


def weak(length: str) -> str:
    joints = (("D", "S.in"), ("S", "X"), ("S", "Y"))
    devices = f"D: {{kind: coax drop}}, S: {{kind: splitter, ways: 2, model: weak splitter}}, {OUTLETS}"
    return WEAK + site(devices, joints, NET, length)


def test_the_cable_to_both_outlets_counts() -> None:
    """10 dB of the splitter, and 2 x 90 m of cable: at 54 MHz, where it loses least, still far more than 18 dB."""
    (found,) = findings(weak("0 m"), APART)
    assert "parted by 10 dB at 54 MHz" in found.found
    assert findings(weak("90 m"), APART) == []


def test_what_is_sure_is_told_before_what_is_missing() -> None:
    text = weak("0 m").replace(
        "C-3: {from: S, to: Y, type: series 6, length: 0 m}", "C-3: {from: S, to: Y, type: series 6}"
    )
    (found,) = findings(text, APART)
    assert found.outcome is Outcome.CANNOT_BE_JUDGED
    assert "C-3 has no length" in found.found
    assert findings(text.replace("nominal: 10 dB", "nominal: 18 dB"), APART) == []  # the cable can only add


def test_neighbors_are_parted_by_the_part_that_divides_them() -> None:
    """Two flats on a weak splitter, each with a sound one of its own: the finding stands at the shared one."""
    text = WEAK + (
        f"services: {{{NET}}}\n"
        "devices: {D: {kind: coax drop}, S: {kind: splitter, ways: 2, model: weak splitter}}\n"
        "cables: {R-1: {from: D, to: S.in, type: series 11, length: 5 m}}\n"
        "typical:\n  flat:\n"
        f"    devices: {{P: {{kind: splitter, ways: 2}}, {OUTLETS}}}\n"
        "    cables:\n"
        "      D-1: {from: S, to: P, type: series 6, length: 0 m}\n"
        "      D-2: {from: P, to: X, type: series 6, length: 0 m}\n"
        "      D-3: {from: P, to: Y, type: series 6, length: 0 m}\n"
        "units: {1 to 2: {like: flat}}\n"
    )
    (found,) = findings(text, APART, NEIGHBORS)
    assert (found.rule, found.subject.tag) == (NEIGHBORS, "S")
    assert "parted by 17 dB at 54 MHz" in found.found  # 10 dB, and 3.5 dB of each flat's own splitter
