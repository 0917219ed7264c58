"""Impedance just at a limit, and the worst of several joints: a limit is met when equal.

A port of 61.36 ohm on a line of 75 sends back a tenth, which is a return loss of 20 dB: (75 - 61.36) / (75 + 61.36).
"""

from __future__ import annotations

from itertools import pairwise
from math import log10

import pytest
from asking import findings, reviewed

from coaxwright.findings import Outcome

TENTH_OHM = 75 * 0.9 / 1.1
"""What sends a tenth back on a line of 75 ohm."""
TV = 'services: {tv: {kind: terrestrial TV, from: ANT, channels: [{name: "24", frequency: 533 MHz}]}}\n'


def own_class(ohm: float) -> str:
    return f"catalogue: {{classes: {{odd: {{like: series 6, source: bench, impedance: {ohm!r} ohm}}}}}}\n"


@pytest.mark.parametrize(("ohm", "cases"), [(TENTH_OHM, []), (61.3, ["wrong port"])])
def test_a_port_that_sends_a_tenth_back_still_suits(ohm: float, cases: list[str]) -> None:
    text = (
        f"devices: {{A: {{kind: antenna}}, B: {{kind: receiver, impedance: {ohm!r} ohm}}}}\n"
        "cables: {C: {from: A, to: B, type: series 6, length: 2 m}}\n"
    )
    assert [finding.case for finding in findings("impedance.port-match", text)] == cases


def test_of_two_unlike_ports_the_worse_is_told_and_the_cable_is_no_odd_part() -> None:
    """50 on 75 ohm is 14 dB, 300 on 75 is 4.4 dB: textbook."""
    text = (
        "devices: {A: {kind: antenna, impedance: 50 ohm}, B: {kind: receiver, impedance: 300 ohm}}\n"
        "cables: {C: {from: A, to: B, type: series 6, length: 2 m}}\n"
    )
    (finding,) = findings("impedance.port-match", text)
    assert finding.case == "wrong port"
    assert "4.4 dB" in finding.found


def test_the_share_that_comes_back_is_told_to_a_tenth_of_a_per_cent() -> None:
    """((93 - 75) / (93 + 75))^2 is 1.148 %: textbook."""
    text = (
        "devices: {A: {kind: antenna}, B: {kind: receiver, impedance: 93 ohm}}\n"
        "cables: {C: {from: A, to: B, type: series 6, length: 2 m}}\n"
    )
    (finding,) = findings("impedance.port-match", text)
    assert "1.1 %" in finding.found


def test_two_joints_ripple_most_where_the_line_loses_least() -> None:
    """Twice a fifth comes back over 100 ft of series 6, which loses 0.58 dB at 5 MHz and some 6.5 dB at 1002 MHz
    (ANSI/SCTE 74): (1 + 0.04 x 10^(-0.058)) over (1 - ...) is 0.6 dB, at the top it would be 0.15 dB.
    """
    text = (
        "services: {net: {kind: cable broadband, from: A, down: {band: 54 MHz to 1002 MHz}, up: {band: 5 MHz to 42 MHz}"
        "}}\ndevices: {A: {kind: coax drop, impedance: 50 ohm}, B: {kind: outlet, impedance: 50 ohm, serves: [net]}}"
        "\ncables: {C: {from: A, to: B, type: series 6, length: 100 ft}}\n"
    )
    (finding,) = findings("impedance.port-match", text)
    assert "ripple the level by up to 0.6 dB" in f"{finding.found} {finding.reason} {finding.remedy}"


def test_a_part_at_fault_is_told_at_the_first_of_its_cables() -> None:
    text = (
        "devices: {SP: {kind: splitter, ways: 3, impedance: 50 ohm}, B: {kind: receiver}, C: {kind: receiver}, "
        "D: {kind: receiver}}\n"
        "cables: {C-1: {from: SP.out-1, to: B, type: series 6, length: 2 m}, "
        "C-2: {from: SP.out-2, to: C, type: series 6, length: 2 m}, "
        "C-3: {from: SP.out-3, to: D, type: series 6, length: 2 m}}\n"
    )
    (finding,) = findings("impedance.port-match", text)
    assert "C-1, like C-2 and C-3," in finding.found
    folded = [other for other in reviewed(text).folded if other.folded_under == finding.identity]
    assert [other.found.partition(" is ")[0] for other in folded] == [
        "C-2, like C-1 and C-3,",
        "C-3, like C-1 and C-2,",
    ]


@pytest.mark.parametrize(("ohm", "cases"), [(TENTH_OHM, []), (61.3, ["inside"])])
def test_a_part_may_send_a_tenth_back_inside(ohm: float, cases: list[str]) -> None:
    text = (
        f"{own_class(ohm)}devices: {{A: {{kind: antenna}}, R: {{kind: receiver, impedance: {ohm!r} ohm}}, "
        f"P: {{kind: ground block, ports: {{out: {{impedance: {ohm!r} ohm}}}}}}}}\n"
        "cables: {C-1: {from: A, to: P.in, type: series 6, length: 2 m}, "
        "C-2: {from: P.out, to: R, type: odd, length: 9 m}}\n"
    )
    assert [finding.case for finding in findings("impedance.path-uniform", text)] == cases


def test_a_cable_that_just_suits_its_port_is_told_of_inside() -> None:
    """61.36 against 50 ohm is 19.8 dB: textbook."""
    text = (
        "devices: {A: {kind: antenna}, R: {kind: receiver, impedance: 50 ohm}, "
        f"P: {{kind: ground block, ports: {{in: {{impedance: {TENTH_OHM!r} ohm}}, out: {{impedance: 50 ohm}}}}}}}}\n"
        "cables: {C-1: {from: A, to: P.in, type: series 6, length: 2 m}, "
        "C-2: {from: P.out, to: R, type: 213-type, length: 9 m}}\n"
    )
    (finding,) = findings("impedance.path-uniform", text)
    assert "61.4 Ω (C-1) to 50 Ω (C-2)" in finding.found


def test_a_tap_of_several_ways_is_judged_by_the_way_that_its_cables_take() -> None:
    text = (
        "devices: {A: {kind: antenna, impedance: 50 ohm}, R: {kind: receiver}, "
        "T: {kind: tap, value: 12 dB, outputs: 2, ports: {in: {impedance: 50 ohm}}}}\n"
        "cables: {C-1: {from: A, to: T.in, type: 213-type, length: 2 m}, "
        "C-2: {from: T.tap-1, to: R, type: series 6, length: 9 m}}\n"
    )
    (finding,) = findings("impedance.path-uniform", text)
    assert finding.subject.tag == "T"


@pytest.mark.parametrize(("ohm", "cases"), [(300.0, []), (150.0, ["inside"]), (600.0, ["inside"])])
def test_a_dividing_part_for_twin_lead_has_its_transformer_inside(ohm: float, cases: list[str]) -> None:
    text = (
        f"{own_class(ohm)}devices: {{A: {{kind: antenna, impedance: {ohm} ohm}}, R: {{kind: receiver}}, "
        f"SP: {{kind: splitter, ways: 2, ports: {{in: {{impedance: {ohm} ohm}}}}}}}}\n"
        "cables: {C-1: {from: A, to: SP.in, type: odd, length: 2 m}, "
        "C-2: {from: SP.out-1, to: R, type: series 6, length: 9 m}}\n"
    )
    assert [finding.case for finding in findings("impedance.path-uniform", text)] == cases


@pytest.mark.parametrize(
    ("ohm", "cases"), [(67.5, []), (82.5, []), (67.4, ["impedance"]), (82.6, ["impedance"]), (86.0, ["impedance"])]
)
def test_a_connector_suits_a_cable_within_a_tenth(ohm: float, cases: list[str]) -> None:
    """Ends of the cable's own impedance, so that the connector of 75 ohm is the odd part."""
    text = (
        f"{own_class(ohm)}devices: {{A: {{kind: antenna, impedance: 93 ohm}}, B: {{kind: receiver, impedance: 93 ohm}}"
        "}\ncables: {C-1: {from: A, to: B, type: odd, length: 2 m, connectors: [{series: F}]}}\n"
    )
    assert [finding.case for finding in findings("impedance.connector-grade", text)] == cases


@pytest.mark.parametrize(
    ("near_ohm", "far_ohm", "connectors", "facets"),
    [
        (50, 50, "{series: SMA}", []),  # the cable is the odd part
        (50, 75, "{series: SMA}", ["0"]),  # the part at one end is
        (75, 50, "{series: SMA}", ["0"]),
        (50, 75, "{series: SMA}, {series: F}", ["0"]),
        (50, 75, "{series: F}, {series: SMA}", ["1"]),
        (75, 50, "{series: F}, {series: SMA}", ["1"]),
        (75, 75, "{series: F}, {series: SMA}", ["1"]),
    ],
)
def test_a_connector_on_a_cable_that_is_the_odd_part_waits_for_it(
    near_ohm: int, far_ohm: int, connectors: str, facets: list[str]
) -> None:
    text = (
        f"devices: {{A: {{kind: antenna, impedance: {near_ohm} ohm}}, "
        f"B: {{kind: receiver, impedance: {far_ohm} ohm}}}}\n"
        f"cables: {{C-1: {{from: A, to: B, type: series 6, length: 2 m, connectors: [{connectors}]}}}}\n"
    )
    shown = [finding for finding in reviewed(text).findings if finding.rule == "impedance.connector-grade"]
    assert [finding.identity.facet for finding in shown] == facets


@pytest.mark.parametrize(
    ("more", "is_told"),
    [
        (", variant: loop-through", False),  # a sort has an impedance of its own
        (", ports: {in: {impedance: 75 ohm}}", False),
        (", ports: {in: {connector: F}}", True),
    ],
)
def test_an_impedance_stated_at_a_port_is_stated(more: str, is_told: bool) -> None:
    text = (
        "services: {cell: {kind: cellular, from: A, down: {band: 700 MHz to 900 MHz}}}\n"
        f"devices: {{A: {{kind: antenna}}, O: {{kind: outlet, serves: [cell]{more}}}}}\n"
        "cables: {C-1: {from: A, to: O, type: series 6, length: 2 m}}\n"
    )
    assert bool(findings("impedance.application-usual", text)) is is_told


# Reflections that add up behind an outlet. Short straight parts reflect once; cables of no length lose nothing, so that
# the sums are those of the reflections alone.


def chain(*parts: str, receiver: str, lengths: dict[int, str] | None = None, before: str = TV) -> str:
    """An antenna, parts and a receiver, with cables of no length between but for those that are named."""
    tags = ["ANT", *(part.partition(":")[0] for part in parts), "R"]
    links = [
        f"C-{number}: {{from: {one}, to: {other}, type: series 6, {(lengths or {}).get(number, 'length: 0 m')}}}"
        for number, (one, other) in enumerate(pairwise(tags), start=1)
    ]
    devices = ["ANT: {kind: antenna}", *parts, f"R: {{kind: receiver, serves: [tv]{receiver}}}"]
    return f"{before}devices: {{{', '.join(devices)}}}\ncables: {{{', '.join(links)}}}\n"


def off(reflection: float, line_ohm: float = 75) -> str:
    """An impedance that sends so much back on a line."""
    return f"impedance: {line_ohm * (1 - reflection) / (1 + reflection)!r} ohm"


def block(tag: str, reflection: float, line_ohm: float = 75) -> str:
    return f"{tag}: {{kind: ground block, loss: 0 dB, {off(reflection, line_ohm)}}}"


RETURN_LOSS = "impedance.return-loss"
LEAST = 10 ** (-14 / 20)
"""The share that comes back at a return loss of 14 dB: 0.1995."""


@pytest.mark.parametrize(("second", "cases"), [(LEAST - 0.1, []), (LEAST - 0.0999, ["adds up"])])
def test_reflections_that_add_up_to_just_the_limit_are_met(second: float, cases: list[str]) -> None:
    text = chain(block("G", second), receiver=f", {off(0.1)}")
    assert [finding.case for finding in findings(RETURN_LOSS, text)] == cases


def test_joints_that_are_just_sound_alone_are_summed_up_to_all_that_is_sent() -> None:
    """Twelve tenths are more than all: 0 dB, and not a gain."""
    text = chain(*(block(f"G{number}", 0.1) for number in range(11)), receiver=f", {off(0.1)}")
    (finding,) = findings(RETURN_LOSS, text)
    assert "return loss of 0 dB" in finding.found


@pytest.mark.parametrize(("ohm", "is_told"), [(100.49, False), (100.5, False), (100.51, True), (101.0, True)])
def test_joints_far_below_the_others_are_not_told(ohm: float, is_told: bool) -> None:
    """100.5 on 99.5 ohm is 1/200, a return loss of 46 dB."""
    others = [block(tag, 0.09, line_ohm=99.5) for tag in ("G2", "G3")]
    small = f"G1: {{kind: ground block, loss: 0 dB, impedance: {ohm} ohm}}"
    text = chain(small, *others, receiver=f", {off(0.1, 99.5)}").replace("series 6", "odd")
    text = text.replace("{kind: antenna}", "{kind: antenna, impedance: 99.5 ohm}")
    (finding,) = findings(RETURN_LOSS, own_class(99.5) + text)
    assert ("at G1" in finding.found) is is_told


DIVIDED = (
    "catalogue: {devices: {wide: {like: 2-way splitter, paths: "
    "[{from: in, to: out, band: 5 MHz to 1002 MHz, low: 3 dB, nominal: 4 dB, high: 6 dB}]}}}\n"
)


def test_what_lies_behind_a_part_is_weakened_by_the_least_that_it_loses_twice() -> None:
    """0.1 in front, and twice 0.1 behind 3 dB, there and back: 0.1 + 0.2 x 10^(-0.3) is 13.97 dB."""
    sent_back = 0.1 + 0.2 * 10 ** (-3 / 10)
    assert round(-20 * log10(sent_back), 2) == 13.97
    splitter = "SP: {kind: splitter, ways: 2, model: wide}, T: {kind: terminator, on: SP.out-2}"
    text = chain(block("G1", 0.1), block("G2", 0.1), splitter, receiver=f", {off(0.1)}", before=DIVIDED + TV)
    text = text.replace("from: SP,", "from: SP.out-1,")
    (finding,) = findings(RETURN_LOSS, text)
    assert "return loss of 13.97 dB" in finding.found


@pytest.mark.parametrize(("temperature", "is_weaker"), [("20 to 70 °C", False), ("-40 to 20 °C", True)])
def test_a_line_weakens_by_the_least_that_it_may_lose(temperature: str, is_weaker: bool) -> None:
    """Cold copper loses less, and a warm day is no excuse."""

    def told_db(places: str, place: str) -> float:
        lengths = {2: f"route: [{place}: 15 m]"}
        text = chain(block("G1", 0.1), block("G2", 0.1), receiver=f", {off(0.1)}", lengths=lengths)
        (finding,) = findings(RETURN_LOSS, f"places: {{loft: {{temperature: {places}}}, den: {{}}}}\n{text}")
        return float(finding.found.partition("return loss of ")[2].partition(" dB")[0])

    usual_db, here_db = told_db(temperature, "den"), told_db(temperature, "loft")
    assert here_db < usual_db if is_weaker else here_db == usual_db


def test_a_line_of_unknown_loss_weakens_nothing_and_leaves_it_open() -> None:
    """0.21 in all if it loses nothing; 0.187 behind as little as 1 dB."""
    text = chain(block("G1", 0.05), block("G2", 0.06), receiver=f", {off(0.1)}", lengths={3: "state: new"})
    (finding,) = findings(RETURN_LOSS, text)
    assert finding.outcome is Outcome.CANNOT_BE_JUDGED


def test_of_several_readings_the_worst_is_told() -> None:
    readings = "[{return loss: 12 dB at 533 MHz}, {return loss: 9 dB at 533 MHz}, {return loss: 13 dB at 533 MHz}]"
    (finding,) = findings(RETURN_LOSS, chain(receiver=f", readings: {readings}"))
    assert "9 dB" in finding.found


TWO = (
    "services: {{a: {{kind: FM radio, from: {first}, channels: [{{name: one, frequency: 98 MHz}}]}}, "
    'tv: {{kind: terrestrial TV, from: ANT, channels: [{{name: "24", frequency: 533 MHz}}]}}}}\n'
)


@pytest.mark.parametrize(("first", "told"), [("ANT", ["a"]), ("G2", ["tv"])])
def test_a_service_over_other_joints_is_judged_for_itself(first: str, told: list[str]) -> None:
    text = chain(block("G1", 0.1), block("G2", 0.1), receiver=f", {off(0.05)}", before=TWO.format(first=first))
    text = text.replace("serves: [tv]", "serves: [a, tv]")
    assert [finding.subject.second for finding in findings(RETURN_LOSS, text)] == told


def test_a_service_that_does_not_come_hides_no_other() -> None:
    text = chain(block("G1", 0.1), block("G2", 0.1), receiver=f", {off(0.05)}", before=TWO.format(first="FAR"))
    text = text.replace("serves: [tv]", "serves: [a, tv]").replace("devices: {", "devices: {FAR: {kind: antenna}, ")
    assert [finding.subject.second for finding in findings(RETURN_LOSS, text)] == ["tv"]


def test_a_set_with_a_plug_is_asked_what_comes_back_to_it_too() -> None:
    own = "catalogue: {devices: {set: {like: receiver, needs power: true}}}\n"
    text = chain(block("G1", 0.1), block("G2", 0.1), receiver=f", model: set, {off(0.1)}", before=own + TV)
    assert [finding.case for finding in findings(RETURN_LOSS, text)] == ["adds up"]


def test_a_device_that_a_cable_of_another_impedance_meets_involves_that_cable_alone() -> None:
    """The cable of 50 ohm does not suit the splitter; the other does."""
    text = (
        "services: {cell: {kind: cellular, from: SP, down: {band: 700 MHz to 900 MHz}}}\n"
        "devices: {SP: {kind: splitter, ways: 2}, A: {kind: antenna}, B: {kind: antenna}}\n"
        "cables: {C-1: {from: SP.out-1, to: A, type: %s, length: 2 m}, "
        "C-2: {from: SP.out-2, to: B, type: series 6, length: 2 m}}\n"
    )
    usual = "impedance.application-usual"
    assert [finding.involved for finding in findings(usual, text % "series 6")] == [()]
    assert [finding.involved for finding in findings(usual, text % "213-type")] == [(("cables", "C-1"),)]
