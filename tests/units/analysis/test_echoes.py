"""Where decibels are not enough: the solved network departs from their sum by what textbooks give."""

from __future__ import annotations

from math import log10, pi, sin

import pytest

from coaxwright.analysis import Analysis
from coaxwright.analysis.reflections import SolvedService, solve_service
from coaxwright.catalogue import load_catalogue
from coaxwright.design import understand
from coaxwright.network import Direction, Unknown, build_network
from coaxwright.physics.scattering import Resonance
from coaxwright.rules.phrase_book import cause_text
from coaxwright.source import Path, read_text

SITE = """
coaxwright: 1
title: Turnstone Cottage (invented)
basis: {rulesets: [trade 1]}
services:
  net:
    kind: cable broadband
    from: DROP
    down: {band: 54 MHz to 1002 MHz, level: [10 dBmV at 54 MHz]}
    up: {band: 5 MHz to 42 MHz, wanted: 0 dBmV}
devices:
  DROP: {kind: coax drop}
  SP:   {kind: splitter, ways: 2}
  T-1:  {kind: terminator, on: SP.out-2}
  TV:   {kind: outlet, serves: [net]}
cables:
  C-1: {from: DROP, to: SP, type: series 6, length: 50 ft}
  C-2: {from: SP, to: TV, type: series 6, length: 40 ft}
"""


def service(text: str, direction: Direction = "down") -> SolvedService:
    network = build_network(understand(read_text(text, "turnstone.coax.yaml")), load_catalogue())
    analysis = Analysis(network)
    found = solve_service(network, "net", direction, lambda grid: analysis.losses("net", direction, grid))
    assert found is not None
    return found


def changed(*edits: tuple[str, str]) -> str:
    text = SITE
    for old, new in edits:
        assert old in text
        text = text.replace(old, new)
    return text


def test_nothing_is_solved_where_nothing_is_doubtful() -> None:
    assert service(SITE) == SolvedService((), (), (), None)


def test_a_poor_load_costs_its_mismatch_loss() -> None:
    # 6 dB of return loss: -10 log(1 - 10^-0.6) = 1.26 dB at a matched source (collected formulas, network solve)
    poor = service(changed(("serves: [net]", "serves: [net], readings: [{return loss: 6 dB at 500 MHz}]")))
    assert [(doubt.kind, doubt.tag, doubt.return_loss_db) for doubt in poor.doubts] == [("poor end", "TV", 6.0)]
    (departure,) = poor.departures
    assert departure.device.tag == "TV"
    expected_db = 10 * log10(1 - 10**-0.6)
    assert departure.least_db == pytest.approx(expected_db, abs=1e-9)
    assert departure.most_db == pytest.approx(expected_db, abs=1e-9)


def test_a_fair_end_is_added_in_decibels() -> None:
    fair = service(changed(("serves: [net]", "serves: [net], readings: [{return loss: 10 dB at 500 MHz}]")))
    assert fair.doubts == ()


def test_an_open_port_stirs_its_neighbor_by_the_isolation() -> None:
    """in to out-2, all of it back, and on to out-1 by the isolation: 20 log(1 +- i), textbook sum of two ways.

    The sign is the catalogue's, so the departure is one of the two bounds or between them.
    """
    opened = service(changed(("  T-1:  {kind: terminator, on: SP.out-2}\n", "")))
    assert [(doubt.kind, doubt.tag, doubt.port) for doubt in opened.doubts] == [("open port", "SP", "out-2")]
    (departure,) = opened.departures
    splitter = load_catalogue().device("splitter", 2)
    assert splitter is not None
    for freq_hz, value_db in departure.points:
        isolation = splitter.isolation("out-1", "out-2", freq_hz)
        assert isolation is not None
        share = 10 ** (-isolation.nominal_db / 20)
        assert 20 * log10(1 - share) - 1e-6 <= value_db <= 20 * log10(1 + share) + 1e-6
        assert abs(value_db) > 0.1


def test_a_piece_of_50_ohm_in_the_line_costs_what_the_textbook_says() -> None:
    """10 log[1 + ((n - 1/n)/2)² sin²(2 pi f l / v)], n = 50/75, lossless; the piece's own loss is next to nothing."""
    length_ft = 6.0
    patched = changed(
        (
            "  C-1: {from: DROP, to: SP, type: series 6, length: 50 ft}",
            "  C-1: {from: DROP, to: GB, type: series 6, length: 50 ft}\n"
            f"  C-3: {{from: GB, to: SP, type: 10 mm 50 ohm low-loss, length: {length_ft:g} ft}}",
        ),
        ("  SP:   {", "  GB:   {kind: ground block}\n  SP:   {"),
    )
    solved = service(patched)
    assert [(doubt.kind, doubt.tag) for doubt in solved.doubts] == [("unlike impedance", "C-3")]
    # 50 against 75 ohm: r = 0.2, 13.98 dB of return loss, textbook
    assert solved.doubts[0].return_loss_db == pytest.approx(13.979, abs=5e-4)
    velocity = load_catalogue().every_class["10 mm 50 ohm low-loss"].velocity_factor
    (departure,) = solved.departures
    unlike = (50 / 75 - 75 / 50) / 2
    for freq_hz, value_db in departure.points:
        angle = 2 * pi * freq_hz * length_ft * 0.3048 / (velocity * 299_792_458)
        assert value_db == pytest.approx(-10 * log10(1 + (unlike * sin(angle)) ** 2), abs=0.05)
    assert departure.least_db == pytest.approx(-20 * log10((1.5 + 1 / 1.5) / 2), abs=0.05)  # 0.695 dB at its worst


def test_ripple_of_such_a_piece_has_the_period_of_its_length() -> None:
    patched = changed(("DROP, to: SP, type: series 6", "DROP, to: SP, type: 10 mm 50 ohm low-loss"))
    (mismatch,) = service(patched).mismatches
    assert mismatch.cable.tag == "C-1"
    assert mismatch.ripple is not None
    velocity = load_catalogue().every_class["10 mm 50 ohm low-loss"].velocity_factor
    assert mismatch.ripple.period_hz == pytest.approx(velocity * 299_792_458 / (2 * 15.24))  # v / 2 l, textbook


def test_upstream_is_solved_as_well() -> None:
    up = service(changed(("serves: [net]", "serves: [net], readings: [{return loss: 6 dB at 30 MHz}]")), "up")
    (departure,) = up.departures
    assert departure.least_db == pytest.approx(10 * log10(1 - 10**-0.6), abs=1e-9)
    assert min(freq_hz for freq_hz, _ in departure.points) == 5e6


def test_an_outlet_that_waits_for_its_set_is_an_open_end() -> None:
    reserve = service(
        changed(
            ("  T-1:  {kind: terminator, on: SP.out-2}\n", "  R-1:  {kind: outlet, state: reserve}\n"),
            ("  C-2:", "  C-3: {from: SP, to: R-1, type: series 6, length: 20 ft}\n  C-2:"),
        )
    )
    assert [(doubt.kind, doubt.tag) for doubt in reserve.doubts] == [("open port", "R-1")]
    (departure,) = reserve.departures
    assert departure.least_db < -0.2
    assert departure.most_db > 0.2


@pytest.mark.parametrize(
    ("edits", "root", "said"),
    [
        (
            [("type: series 6, length: 40 ft", "type: series 6")],
            ("cables", "C-2", "length"),
            "C-2 has no length and no route",
        ),
        (
            [("type: series 6, length: 40 ft", "type: serie 66, length: 40 ft")],
            ("cables", "C-2", "type"),
            "the type of C-2 is not understood",
        ),
        (
            [("ways: 2}", "ways: 5}"), ("serves: [net]", "serves: [net], readings: [{return loss: 6 dB at 500 MHz}]")],
            ("devices", "SP"),
            "the catalogue does not have SP",
        ),
        (
            [("kind: splitter, ways: 2", "kind: drop amplifier, outputs: 2, gain: 9999 dB")],
            ("devices", "SP"),
            "SP would give out more than can be computed",
        ),
        (
            [("kind: splitter, ways: 2", "kind: multiswitch, outputs: 4"), ("to: SP,", "to: SP.terrestrial,")],
            ("devices", "SP"),
            "SP has several inputs and outputs, and its waves are not followed",
        ),
    ],
)
def test_what_cannot_be_solved_says_why(edits: list[tuple[str, str]], root: Path, said: str) -> None:
    opened = service(changed(("  T-1:  {kind: terminator, on: SP.out-2}\n", ""), *edits))
    assert opened.departures == ()
    assert opened.not_solved is not None
    assert opened.not_solved.root == root
    assert cause_text(opened.not_solved) == said


def test_of_too_many_parts_the_limit_is_said(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("coaxwright.analysis.reflections.scattering_network.MOST_PARTS", 3)
    large = service(SITE)
    assert large.not_solved == Unknown("too many parts", ("devices", "DROP"), {"most": 3})
    assert cause_text(large.not_solved) == "more than 3 cables and devices hang together here"


def test_a_resonance_is_said_of_the_service(monkeypatch: pytest.MonkeyPatch) -> None:
    def resonates(network: object) -> None:
        raise Resonance("a stub")

    monkeypatch.setattr("coaxwright.analysis.reflections.model_error.solved", resonates)
    opened = service(changed(("  T-1:  {kind: terminator, on: SP.out-2}\n", "")))
    assert opened.departures == ()
    assert opened.not_solved == Unknown("resonance", ("services", "net"))
    assert cause_text(opened.not_solved) == "a loop or stub without any loss resonates: give its cables their loss"


def test_a_class_that_ends_below_the_band_is_solved_up_to_its_end() -> None:
    opened = ("  T-1:  {kind: terminator, on: SP.out-2}\n", "")
    cut = service(
        changed(opened, ("C-2: {from: SP, to: TV, type: series 6", "C-2: {from: SP, to: TV, type: 58-type stranded"))
    )
    (departure,) = cut.departures
    highest_hz = max(freq_hz for freq_hz, _ in departure.points)
    assert highest_hz <= max(load_catalogue().every_class["58-type stranded"].attenuation.published.points[0])


def test_two_ways_of_one_signal_are_followed_both() -> None:
    """Two halves of a signal that meet again: at its worst frequency next to nothing is left, at its best 6 dB more.

    20 log(1 + r) and 20 log(1 - r) for a second way that is weaker by the share r; textbook, sum of two waves.
    """
    ways = changed(
        ("  T-1:  {kind: terminator, on: SP.out-2}\n", "  CO:   {kind: splitter, ways: 2}\n"),
        (
            "  C-2: {from: SP, to: TV, type: series 6, length: 40 ft}",
            "  L-1: {from: SP.out-1, to: CO.out-1, type: series 6, length: 10 ft}\n"
            "  L-2: {from: SP.out-2, to: CO.out-2, type: series 6, length: 60 ft}\n"
            "  C-2: {from: CO.in, to: TV, type: series 6, length: 40 ft}",
        ),
    )
    solved = service(ways)
    assert [(doubt.kind, doubt.tag) for doubt in solved.doubts] == [("second way", "L-2")]
    (departure,) = solved.departures
    more_db = load_catalogue().every_class["series 6"].attenuation.loss_db_per_m(54e6).nominal_db_per_m * 50 * 0.3048
    share = 10 ** (-more_db / 20)
    assert departure.most_db == pytest.approx(20 * log10(1 + share), abs=0.3)
    assert departure.least_db < -10
    assert departure.least_db > 20 * log10(1 - share) - 0.5


def test_a_loop_through_an_amplifier_is_not_solved_but_told() -> None:
    fed_back = changed(
        (
            "  T-1:  {kind: terminator, on: SP.out-2}\n",
            "  CO:   {kind: splitter, ways: 2}\n  AMP:  {kind: drop amplifier, outputs: 1}\n",
        ),
        ("{from: DROP, to: SP,", "{from: DROP, to: CO.out-1,"),
        (
            "  C-2: {from: SP, to: TV,",
            "  L-1: {from: CO.in, to: AMP.in, type: series 6, length: 10 ft}\n"
            "  L-2: {from: AMP.out, to: SP.in, type: series 6, length: 10 ft}\n"
            "  L-3: {from: SP.out-1, to: CO.out-2, type: series 6, length: 10 ft}\n"
            "  C-2: {from: SP.out-2, to: TV,",
        ),
    )
    solved = service(fed_back)
    assert ("second way", "L-3") in [(doubt.kind, doubt.tag) for doubt in solved.doubts]
    assert solved.departures == ()
    assert solved.not_solved == Unknown("fed back", ("cables", "L-3"), {"cable": "L-3"})
    assert cause_text(solved.not_solved) == "L-3 leads back to an amplifier, and nothing settles what that makes"


def test_a_part_that_would_give_more_than_it_takes_is_not_solved() -> None:
    impossible = service(
        changed(("ways: 2}", "ways: 2, loss: 1 dB}"), ("  T-1:  {kind: terminator, on: SP.out-2}\n", ""))
    )
    assert impossible.departures == ()
    assert impossible.not_solved == Unknown("more than comes in", ("devices", "SP"), {"device": "SP"})
    assert cause_text(impossible.not_solved) == "SP would give out more than comes in"


def test_of_a_service_that_begins_at_several_ports_the_doubts_are_told() -> None:
    """A quattro converter and a multiswitch: waves are followed from one port only."""
    text = """
coaxwright: 1
title: Turnstone Cottage 2 (invented)
basis: {rulesets: [trade 1]}
services:
  net: {kind: satellite IF, from: DISH, down: {band: 950 MHz to 2150 MHz, level: [80 dBµV at 950 MHz]}}
devices:
  DISH: {kind: dish}
  LNB:  {kind: LNB, on: DISH, outputs: 4, variant: quattro}
  MS:   {kind: multiswitch, outputs: 4}
  A:    {kind: receiver, serves: [net]}
cables:
  S-1: {from: LNB.vertical-low, to: MS.vertical-low, type: 10 mm 50 ohm low-loss, length: 10 m}
  S-2: {from: LNB.vertical-high, to: MS.vertical-high, type: series 6, length: 10 m}
  C-1: {from: MS.out-1, to: A, type: series 6, length: 10 m}
"""
    solved = service(text)
    assert ("unlike impedance", "S-1") in [(doubt.kind, doubt.tag) for doubt in solved.doubts]
    assert solved.departures == ()
    assert solved.not_solved is not None
    assert solved.not_solved.root == ("services", "net")
    assert cause_text(solved.not_solved) == "net begins at 4 ports, and waves are followed from one"


def test_upstream_only_what_answers_is_told_of() -> None:
    two = changed(
        (
            "  T-1:  {kind: terminator, on: SP.out-2}\n",
            "  M:    {kind: cable modem, serves: [net]}\n  B:    {kind: outlet, serves: [net]}\n",
        ),
        ("ways: 2}", "ways: 4}"),
        (
            "  C-2:",
            "  C-3: {from: SP.out-2, to: M, type: series 6, length: 20 ft}\n"
            "  C-4: {from: SP.out-3, to: B, type: series 6, length: 20 ft}\n  C-2:",
        ),
    )
    assert {one.device.tag for one in service(two).departures} == {"TV", "M", "B"}
    assert {one.device.tag for one in service(two, "up").departures} == {"M"}
