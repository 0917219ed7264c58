"""Services on one coax, and what feeds into the drop: what the examples beside the rules leave open."""

from __future__ import annotations

import pytest

from coaxwright.findings import Finding, Outcome
from coaxwright.reviewing import judge
from coaxwright.rules import shipped_registry
from coaxwright.source import read_text

HEAD = "coaxwright: 1\ntitle: Bench (invented)\nbasis: {rulesets: [trade 1], occupancy: one-family dwelling}\n"
OVERLAP, BACKFEED = "service.band-overlap", "service.no-backfeed"


def findings(text: str, *rules: str) -> list[Finding]:
    review = judge(read_text(HEAD + text, "bench.coax.yaml"), shipped_registry())
    assert [str(problem) for problem in review.problems] == []
    assert review.crashes == ()
    return [finding for finding in review.unfolded if finding.rule in rules]


def two(one: str, other: str, parts: str, cables: str) -> str:
    """Two services, from A and from B, over the parts given to an outlet that wants both."""
    return (
        f"services: {{one: {{from: A, {one}}}, other: {{from: B, {other}}}}}\n"
        f"devices: {{{parts}, X: {{kind: outlet, serves: [one, other]}}}}\ncables: {{{cables}}}\n"
    )


def cable(tag: str, one: str, other: str) -> str:
    return f"{tag}: {{from: {one}, to: {other}, type: series 6, length: 9 m}}"


JOINED = ", ".join((cable("C-1", "A.out", "S.out-1"), cable("C-2", "B.out", "S.out-2"), cable("C-3", "S.in", "X")))
AERIALS = "A: {kind: antenna}, B: {kind: antenna}"
SPLITTER = f"{AERIALS}, S: {{kind: splitter, ways: 2}}"


@pytest.mark.parametrize(
    ("one", "other", "told"),
    [
        ("down: {band: 470 to 700 MHz}", "down: {band: 600 to 900 MHz}", "100 MHz, from 600 MHz to 700 MHz"),
        ("down: {band: 470 to 900 MHz}", "down: {band: 600 to 700 MHz}", "100 MHz, from 600 MHz to 700 MHz"),
        (
            'channels: [{name: "1", frequency: 500 MHz, width: 8 MHz}]',
            "down: {band: 502 to 900 MHz}",
            "2 MHz, from 502",
        ),
        ('channels: [{name: "1", frequency: 500 MHz, width: 8 MHz}]', "down: {band: 504 to 900 MHz}", "at 504 MHz"),
        ('channels: [{name: "1", frequency: 500 MHz}]', "down: {band: 504 to 900 MHz}", None),
        ("down: {band: 470 to 600 MHz}", "down: {band: 600 to 900 MHz}", None),
        ("down: {band: 470 to 600 MHz}", "down: {band: 601 to 900 MHz}", None),
    ],
)
def test_overlap_is_told_in_megahertz(one: str, other: str, told: str | None) -> None:
    found = findings(two(f"kind: terrestrial TV, {one}", f"kind: terrestrial TV, {other}", SPLITTER, JOINED), OVERLAP)
    assert [told in finding.found for finding in found if told is not None] == ([True] if told else [])
    assert len(found) == (told is not None)


def test_a_filter_that_stops_what_is_common_leaves_no_overlap() -> None:
    """The mobile band filter stops 699 to 960 MHz: the one behind it is not there above 699 MHz."""
    parts = f"{SPLITTER}, F: {{kind: filter, variant: mobile band}}"
    joints = (("A.out", "F.in"), ("F.out", "S.out-1"), ("B.out", "S.out-2"), ("S.in", "X"))
    filtered = ", ".join(cable(f"C-{number}", *ends) for number, ends in enumerate(joints))
    one = "kind: terrestrial TV, down: {band: 470 to 862 MHz}"
    other = "kind: terrestrial TV, down: {band: 700 to 900 MHz}"
    assert len(findings(two(one, other, SPLITTER, JOINED), OVERLAP)) == 1
    assert findings(two(one, other, parts, filtered), OVERLAP) == []


def test_services_that_begin_at_one_device_are_no_pair() -> None:
    text = (
        "services: {a: {kind: cable broadband, from: D, down: {band: 54 to 1002 MHz}},"
        " b: {kind: terrestrial TV, from: D, down: {band: 470 to 694 MHz}}}\n"
        "devices: {D: {kind: coax drop}, X: {kind: outlet, serves: [a, b]}}\n"
        f"cables: {{{cable('C-1', 'D', 'X')}}}\n"
    )
    assert findings(text, OVERLAP) == []


def converters(*cables: str) -> str:
    """Two converters, and a switch to one receiver; a splitter that may join them."""
    return (
        "services: {a: {kind: satellite IF, from: A, down: {band: 950 to 2150 MHz}},"
        " b: {kind: satellite IF, from: B, down: {band: 950 to 2150 MHz}}}\n"
        "devices: {A: {kind: LNB, outputs: 1}, B: {kind: LNB, outputs: 1}, S: {kind: multiswitch, outputs: 4},"
        " J: {kind: splitter, ways: 2, variant: satellite}, R: {kind: satellite receiver, serves: [a, b]}}\n"
        f"cables: {{{', '.join(cables)}}}\n"
    )


def test_a_multiswitch_gives_one_of_two_converters_at_a_time() -> None:
    ways = (cable("C-1", "A", "S.vertical-low"), cable("C-2", "B", "S.horizontal-low"), cable("C-3", "S", "R"))
    assert findings(converters(*ways), OVERLAP) == []


def test_two_converters_on_one_input_of_a_switch_overlap() -> None:
    joined = (
        cable("C-1", "A.out", "J.out-1"),
        cable("C-2", "B.out", "J.out-2"),
        cable("C-3", "J.in", "S.vertical-low"),
    )
    (found,) = findings(converters(*joined, cable("C-4", "S", "R")), OVERLAP)
    assert "1200 MHz, from 950 MHz to 2150 MHz" in found.found


@pytest.mark.parametrize("kind", ["cable modem", "receiver"])
def test_the_return_band_counts_where_the_service_is_wanted(kind: str) -> None:
    """FM radio of 88 to 108 MHz lies in a return band that goes to 204 MHz."""
    text = two(
        "kind: cable broadband, down: {band: 258 to 1002 MHz}, up: {band: 5 to 204 MHz}",
        "kind: FM radio, down: {band: 88 to 108 MHz}",
        "A: {kind: coax drop}, B: {kind: antenna, variant: FM}, S: {kind: splitter, ways: 2}",
        JOINED,
    ).replace("kind: outlet", f"kind: {kind}")
    (found,) = findings(text, OVERLAP)
    assert "20 MHz, from 88 MHz to 108 MHz" in found.found
    assert findings(text.replace("5 to 204 MHz", "5 to 85 MHz"), OVERLAP) == []


def test_one_defect_has_one_finding_where_an_aerial_feeds_into_the_drop() -> None:
    text = two(
        "kind: cable broadband, down: {band: 54 to 1002 MHz}",
        "kind: terrestrial TV, down: {band: 470 to 694 MHz}",
        "A: {kind: coax drop}, B: {kind: antenna}, S: {kind: splitter, ways: 2}",
        ", ".join((cable("C-1", "A", "S.in"), cable("C-2", "B.out", "S.out-1"), cable("C-3", "S.out-2", "X"))),
    )
    overlap, backfeed = sorted(findings(text, OVERLAP, BACKFEED), key=lambda finding: finding.rule == BACKFEED)
    assert (overlap.rule, overlap.folded_under) == (OVERLAP, backfeed.identity)
    assert backfeed.folded_under is None


def test_a_converter_in_front_of_a_dish_is_asked_about_the_services_of_the_dish() -> None:
    text = (
        "services: {sat: {kind: satellite IF, from: DISH, down: {band: 950 to 1200 MHz}}}\n"
        "devices: {DISH: {kind: dish}, L: {kind: LNB, outputs: 1, on: DISH}, D: {kind: coax drop},"
        " S: {kind: splitter, ways: 2}}\n"
        f"cables: {{{cable('C-1', 'D', 'S.in')}, {cable('C-2', 'L.out', 'S.out-1')}}}\n"
    )
    (found,) = findings(text, BACKFEED)
    assert (found.subject.tag, found.identity.facet) == ("L", "D")
    assert "950 MHz to 1200 MHz" in found.found


def test_an_aerial_that_receives_nobody_knows_what_cannot_be_judged() -> None:
    text = (
        "devices: {D: {kind: coax drop}, A: {kind: antenna}, S: {kind: splitter, ways: 2}}\n"
        f"cables: {{{cable('C-1', 'D', 'S.in')}, {cable('C-2', 'A.out', 'S.out-1')}}}\n"
    )
    (found,) = findings(text, BACKFEED)
    assert found.outcome is Outcome.CANNOT_BE_JUDGED
    assert "A sends is on no stated frequency" in found.found
    assert findings(text.replace("A.out", "D.out"), BACKFEED) == []


def test_an_optical_node_is_a_hand_off_as_well() -> None:
    text = (
        "devices: {N: {kind: optical node}, M: {kind: modulator}, S: {kind: splitter, ways: 2}}\n"
        f"cables: {{{cable('C-1', 'N', 'S.in')}, {cable('C-2', 'M.out', 'S.out-1')}}}\n"
    )
    (found,) = findings(text, BACKFEED)
    assert "feeds into N" in found.found


def test_a_generator_on_a_splitter_turned_round_is_kept_from_the_drop() -> None:
    text = (
        "devices: {D: {kind: coax drop}, M: {kind: modulator}, S: {kind: splitter, ways: 2}, X: {kind: outlet}}\n"
        f"cables: {{{JOINED.replace('A.out', 'D.out').replace('B.out', 'M.out')}}}\n"
    )
    assert findings(text, BACKFEED) == []
