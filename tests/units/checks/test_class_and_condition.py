"""Classes, runs and the condition of cable: just at each limit, and what is told of several."""

from __future__ import annotations

from dataclasses import replace

import pytest

from coaxwright.analysis import Analysis
from coaxwright.checks import CheckContext, Limits, NotMet
from coaxwright.design import understand
from coaxwright.findings import Finding
from coaxwright.network import build_network
from coaxwright.reviewing import judge
from coaxwright.rules import combine, shipped_registry
from coaxwright.source import read_text

HEAD = "coaxwright: 1\ntitle: Bench (invented)\nbasis: {rulesets: [trade 1]}\n"
SUITS, WORN, RANGE, RUN = (
    "cable.class-suits-service",
    "cable.legacy-reuse",
    "cable.temperature-range",
    "cable.run-length",
)


def findings(rule: str, text: str) -> list[Finding]:
    review = judge(read_text(HEAD + text, "bench.coax.yaml"), shipped_registry())
    assert [str(problem) for problem in review.problems] == []
    assert review.crashes == ()
    return [finding for finding in review.unfolded if finding.rule == rule]


def cases(rule: str, text: str) -> list[str]:
    return [finding.case for finding in findings(rule, text)]


def ends(near_ohm: float = 75, far_ohm: float = 75, serves: str = "net") -> str:
    return (
        f"devices: {{D: {{kind: coax drop, impedance: {near_ohm!r} ohm}}, "
        f"R: {{kind: outlet, serves: [{serves}], impedance: {far_ohm!r} ohm}}}}\n"
    )


BROADBAND = "services: {net: {kind: cable broadband, from: D, down: {band: 54 MHz to 1002 MHz}}}\n"
TENTH = (1 - 0.1) / (1 + 0.1)
"""Of a line's impedance, what sends a tenth back: a return loss of 20 dB."""


@pytest.mark.parametrize(
    ("near_ohm", "far_ohm", "is_folded"),
    [
        (50, 50, False),
        (50 * TENTH, 50 * TENTH, False),  # just sound at either end
        (50, 40.8, False),  # the port is the odd part
        (40.8, 50, False),
        (75, 75, True),
    ],
)
def test_a_class_waits_for_its_impedance_where_the_cable_is_the_odd_part(
    near_ohm: float, far_ohm: float, is_folded: bool
) -> None:
    text = f"{BROADBAND}{ends(near_ohm, far_ohm)}"
    (finding,) = findings(SUITS, text + "cables: {C: {from: D, to: R, type: 58-type stranded, length: 2 m}}\n")
    assert (finding.case, finding.folded_under is not None) == ("never", is_folded)


def test_the_service_that_goes_highest_is_told() -> None:
    text = (
        "services:\n"
        "  net: {kind: cable broadband, from: D, down: {band: 54 MHz to 1218 MHz}, up: {band: 5 MHz to 42 MHz}, "
        'channels: [{name: "4", frequency: 70 MHz}]}\n'
        "  radio: {kind: FM radio, from: D, down: {band: 88 MHz to 108 MHz}}\n"
        f"{ends(serves='net, radio')}"
        "cables: {C: {from: D, to: R, type: 59-type, length: 2 m}}\n"
    )
    (finding,) = findings(SUITS, text)
    assert "carries net up to 1218 MHz" in finding.found


@pytest.mark.parametrize(("top", "told"), [("3000 MHz", ["not made so high"]), ("3000.1 MHz", ["none made"])])
def test_a_class_up_to_just_the_top_is_offered(top: str, told: list[str]) -> None:
    """The catalogue has figures of series 6 up to 3000 MHz."""
    text = (
        f"services: {{net: {{kind: satellite IF, from: D, down: {{band: 950 MHz to {top}}}}}}}\n{ends()}"
        "cables: {C: {from: D, to: R, type: 6-type, length: 2 m}}\n"
    )
    assert cases(SUITS, text) == told


@pytest.mark.parametrize(
    ("holds", "told"),
    [
        ("transmitter", 1),
        ("{what: transmitter, at: 10 m}", 1),
        ("{what: transmitter, at: 10.1 m}", 0),
        ("power cable", 0),
    ],
)
def test_a_transmitter_of_no_stated_distance_is_beside_the_cable(holds: str, told: int) -> None:
    text = (
        f"places: {{den: {{}}}}\nraceways: {{TRAY: {{kind: cable tray, holds: [{holds}]}}}}\n"
        "devices: {D: {kind: antenna}, R: {kind: outlet}}\n"
        "cables: {C: {from: D, to: R, type: series 6, route: [den: {length: 3 m, in: TRAY}]}}\n"
    )
    assert len(findings("cable.shield-coverage", text)) == told


FLAT = (
    "catalogue: {classes: {flat: {like: series 6, source: bench, attenuation: "
    "{table: {5 MHz: 4 dB/100 ft, 500 MHz: 4 dB/100 ft, 1002 MHz: 4 dB/100 ft}}}}}\n"
)


def worn(*measured: str, more: str = "") -> list[Finding]:
    """An old cable of 100 ft with 4 dB at every frequency by its class."""
    cable = (
        f"{{from: D, to: R, type: flat, length: 100 ft, state: existing, measured loss: [{', '.join(measured)}]{more}}}"
    )
    return findings(WORN, f"{FLAT}{BROADBAND}{ends()}cables: {{C: {cable}}}\n")


def test_just_two_decibels_more_than_its_class_is_no_wear() -> None:
    assert worn("6 dB at 500 MHz") == []
    assert [finding.case for finding in worn("6.01 dB at 500 MHz")] == ["worn"]


def test_the_worst_reading_is_told_and_of_equals_the_first() -> None:
    (finding,) = worn("7 dB at 400 MHz", "8 dB at 500 MHz", "8 dB at 600 MHz")
    assert "8 dB at 500 MHz" in finding.found


def test_the_year_alone_is_told_in_which_it_was_laid() -> None:
    (finding,) = worn("8 dB at 500 MHz", more=", installed: 1998-05-01")
    assert "C, laid in 1998, was measured" in finding.found


def ranged(temperatures: str, *places: str) -> list[Finding]:
    """A cable of a class of this range through places of these."""
    own = f"catalogue: {{classes: {{odd: {{like: 213-type, source: bench, temperature range: {temperatures}}}}}}}\n"
    stated = ", ".join(f"place {number}: {{temperature: {one}}}" for number, one in enumerate(places))
    route = ", ".join(f"place {number}: 3 m" for number in range(len(places)))
    return findings(
        RANGE,
        f"{own}places: {{{stated}}}\n"
        "devices: {D: {kind: antenna, impedance: 50 ohm}, R: {kind: outlet, impedance: 50 ohm}}\n"
        f"cables: {{C: {{from: D, to: R, type: odd, route: [{route}]}}}}\n",
    )


def test_another_class_is_offered_only_if_it_stands_every_place() -> None:
    """Low-loss cable of the catalogue stands -40 to 85 °C, data sheets from memory."""
    (one,) = ranged("-30 to 60 °C", "-20 to 83 °C", "-35 to 20 °C")
    assert one.case == "other class"
    (both,) = ranged("-30 to 60 °C", "-20 to 83 °C", "-60 to 20 °C")
    assert both.case == "none known"


def test_temperatures_are_told_to_a_tenth_of_a_degree() -> None:
    (finding,) = ranged("-30.24 to 60.36 °C", "-31 to 20 °C")
    assert "rated for -30.2 to 60.4 °C" in finding.found


# Runs.


def run_of(*cables: str) -> list[Finding]:
    """Cables in a row with ground blocks between; the service states no level, and nobody counts what it loses."""
    blocks = [f"G{number}: {{kind: ground block}}" for number in range(1, len(cables))]
    tags = ["D", *(one.partition(":")[0] for one in blocks), "R"]
    links = ", ".join(
        f"C-{number}: {{from: {tags[number]}, to: {tags[number + 1]}, {cable}}}" for number, cable in enumerate(cables)
    )
    devices = ", ".join(["D: {kind: antenna}", *blocks, "R: {kind: outlet, serves: [tv]}"])
    channels = 'channels: [{name: "24", frequency: 533 MHz}]'
    return findings(
        RUN,
        f"services: {{tv: {{kind: terrestrial TV, from: D, {channels}}}}}\n"
        f"devices: {{{devices}}}\ncables: {{{links}}}\n",
    )


@pytest.mark.parametrize(("length", "case"), [("444 ft", "larger made"), ("444.1 ft", "no class")])
def test_a_larger_class_that_just_reaches_is_offered(length: str, case: str) -> None:
    assert [finding.case for finding in run_of(f"type: series 6, length: {length}")] == [case]


def test_a_run_of_two_classes_is_too_long_by_what_its_shares_are_more_than_one() -> None:
    """200 of 295 ft and 200 of 444 ft are 1.128 of what is allowed: 400 ft less 400 ft / 1.128 are 45.5 ft."""
    (finding,) = run_of("type: series 6, length: 200 ft", "type: series 11, length: 200 ft")
    over_ft = 400 * (1 - 1 / (200 / 295 + 200 / 444))
    assert finding.excess == pytest.approx(over_ft * 0.3048, rel=1e-9)
    assert f"shorten the run by {over_ft:.1f} ft" in finding.remedy


def test_of_one_class_it_is_too_long_by_what_is_beyond_the_limit() -> None:
    (finding,) = run_of("type: series 6, length: 300 ft")
    assert finding.excess == pytest.approx(5 * 0.3048, rel=1e-9)
    assert "shorten the run by 5 ft" in finding.remedy


def test_a_run_is_judged_unless_the_levels_behind_all_of_it_are_computed() -> None:
    """The service is handed over in the middle: what lies behind the first cable is not counted by it."""
    text = (
        "services: {net: {kind: cable broadband, from: G, down: {band: 54 to 1002 MHz}}}\n"
        "devices: {D: {kind: antenna}, G: {kind: ground block}, R: {kind: outlet, serves: [net]}}\n"
        "cables: {C-1: {from: D, to: G, type: series 6, length: 200 ft}, "
        "C-2: {from: G, to: R, type: series 6, length: 200 ft}}\n"
    )
    assert [finding.subject.tag for finding in findings(RUN, text)] == ["C-1"]
    assert findings(RUN, text.replace("from: G, down", "from: D, down")) == []


@pytest.mark.parametrize("name", ["no such class", "10 mm 50 ohm low-loss"])
def test_a_class_of_another_impedance_or_of_no_catalogue_is_not_offered(name: str) -> None:
    text = (
        'services: {tv: {kind: terrestrial TV, from: D, channels: [{name: "24", frequency: 533 MHz}]}}\n'
        "devices: {D: {kind: antenna}, R: {kind: outlet, serves: [tv]}}\n"
        "cables: {C: {from: D, to: R, type: series 6, length: 500 ft}}\n"
    )
    network = build_network(understand(read_text(HEAD + text, "x")))
    rule = combine(["trade 1"], shipped_registry()).rules[RUN]
    every = {(limit.name, *limit.keys): limit for limit in rule.limits.all()}
    far = replace(every["longest", "series 6"], value=type(every["longest", "series 6"].value).parse("900 ft (274 m)"))
    site = CheckContext(network, Analysis(network))
    (run,) = network.runs
    (verdict,) = rule.check.judge(run, site, Limits({**every, ("longest", name): far}))
    assert isinstance(verdict, NotMet)
    assert verdict.case == "no class"
