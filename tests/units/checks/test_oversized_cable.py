"""When a larger class buys little: just at each limit, of several services and outlets, and where a figure is missing.

The larger class is one of the design's own that loses 1 dB/100 ft less than series 6 at 500 and 1000 MHz, and half of
that at 5 and 55 MHz. By the table in ANSI/SCTE 74 series 6 loses 0.58 dB at 5 MHz, 1.6 dB at 55 MHz, 4.66 dB at 500 MHz
and 6.55 dB at 1000 MHz. The figures of the own class have no spread.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

import pytest
from asking import said

from coaxwright.analysis import Analysis
from coaxwright.checks import CheckContext, DoesNotApply, Limits, NotMet
from coaxwright.checks.cable.oversized import oversized
from coaxwright.checks.contract import Verdict
from coaxwright.design import understand
from coaxwright.network import build_network
from coaxwright.reviewing.effective_rules import catalogue_of
from coaxwright.rules import combine, shipped_registry
from coaxwright.source import read_text

DESIGN = """\
coaxwright: 1
title: Bench (invented)
basis: {{rulesets: [trade 1]}}
catalogue:
  classes:
    fat:
      like: series 6
      source: bench
      attenuation:
        table:
          5 MHz: 0.08 dB/100 ft
          55 MHz: 1.1 dB/100 ft
          500 MHz: 3.66 dB/100 ft
          1000 MHz: 5.55 dB/100 ft
    short table:
      like: series 6
      source: bench
      attenuation: {{table: {{55 MHz: 0.6 dB/100 ft, 500 MHz: 3.66 dB/100 ft}}}}
  devices:
    wide splitter:
      like: 2-way splitter
      paths: [{{from: in, to: out, band: 5 MHz to 1002 MHz, low: 3 dB, nominal: 4 dB, high: 6 dB}}]
places: {{den: {{}}}}
services:
{services}
devices:
  DROP: {{kind: coax drop}}
{devices}
cables:
{cables}
"""
ONE = "  R: {kind: outlet, serves: [net]}"


def net(low: float, high: float, up: str = "", name: str = "net", top: str = "1000 MHz") -> str:
    levels = f"['{low:.6f} dBmV at 55 MHz', '{high:.6f} dBmV at {top}']"
    return (
        f"  {name}: {{kind: cable broadband, from: DROP, down: {{band: 55 MHz to {top}, level: {levels}}}{up}, "
        "at outlets: {level: -15 to 15 dBmV}}"
    )


def cable(length: str = "80 ft", tag: str = "C", ends: str = "from: DROP, to: R", type_: str = "fat") -> str:
    return f"  {tag}: {{{ends}, type: {type_}, {length if ':' in length else f'length: {length}'}}}"


def verdicts(services: str, cables: str, devices: str = ONE, link: str = "C", benefit: str = "") -> list[Verdict]:
    document = read_text(DESIGN.format(services=services, devices=devices, cables=cables), "bench.coax.yaml")
    design = understand(document)
    network = build_network(design, catalogue_of(document, design)[0])
    limits = combine(["trade 1"], shipped_registry()).rules["cable.oversized"].limits
    if benefit:
        (one,) = (limit for limit in limits.all() if limit.name == "benefit")
        limits = Limits({("benefit", benefit): one, **{(limit.name, *limit.keys): limit for limit in limits.all()}})
    return list(oversized(network.cables[link], CheckContext(network, Analysis(network)), limits))


def is_told(found: list[Verdict]) -> bool:
    return any(isinstance(verdict, NotMet) for verdict in found)


def reasons(found: list[Verdict]) -> Iterator[str]:
    return (verdict.case for verdict in found if isinstance(verdict, DoesNotApply))


@pytest.mark.parametrize(("length", "told"), [("100 ft", False), ("99.9 ft", True)])
def test_just_the_benefit_is_worth_it(length: str, told: bool) -> None:
    assert is_told(verdicts(net(12, 14), cable(length))) is told


LOSSES = (1.6 * 0.8, 6.55 * 0.8)
"""Of 80 ft of series 6 at the ends of the band."""


@pytest.mark.parametrize(("more_db", "told"), [(0.0, True), (-0.01, False)])
def test_just_an_ample_level_is_ample(more_db: float, told: bool) -> None:
    """-5 dBmV at the top, and some more at the bottom."""
    assert is_told(verdicts(net(0, -5 + LOSSES[1] + more_db), cable())) is told


@pytest.mark.parametrize(("more_db", "told"), [(0.0, True), (-0.01, True), (0.01, False)])
@pytest.mark.parametrize("sign", [1, -1])
def test_just_the_slope_is_permitted(sign: int, more_db: float, told: bool) -> None:
    """12 dB between the ends of the band, whichever is the stronger, with the losses of the smaller class."""
    low, high = (12 + more_db, 0) if sign > 0 else (0, 12 + more_db)
    assert is_told(verdicts(net(low + LOSSES[0], high + LOSSES[1]), cable())) is told


@pytest.mark.parametrize(("more_db", "told"), [(0.0, True), (0.01, False)])
def test_just_what_a_modem_may_be_asked_for(more_db: float, told: bool) -> None:
    """48 dBmV, with the 0.58 dB/100 ft of series 6 at 5 MHz."""
    up = f", up: {{band: 5 MHz to 5 MHz, wanted: {48 - 0.58 * 0.8 + more_db:.6f} dBmV}}"
    assert is_told(verdicts(net(12, 14, up), cable())) is told


THROUGH = "  SP: {kind: splitter, ways: 2, model: wide splitter}\n  T: {kind: terminator, on: SP.out-2}\n" + ONE
LEGS = f"{cable(ends='from: DROP, to: SP')}\n{cable('1 ft', 'D', 'from: SP.out-1, to: R')}"


@pytest.mark.parametrize(("level", "told"), [(8.0, True), (5.0, False)])
def test_the_least_level_that_may_be_there_is_asked_for(level: float, told: bool) -> None:
    """Behind 5.3 dB of series 6 and a part of 3 to 6 dB: -3.4 at the least, or -6.4; at the most -3.4 too."""
    assert is_told(verdicts(net(level, level), LEGS, THROUGH)) is told


@pytest.mark.parametrize(("wanted", "told"), [(41.0, True), (44.0, False)])
def test_the_most_that_a_modem_may_be_asked_for_counts(wanted: float, told: bool) -> None:
    """0.5 dB of series 6 and a part of 3 to 6 dB: 47.5 dBmV at the most, or 50.5; at the least 47.5 too."""
    up = f", up: {{band: 5 MHz to 5 MHz, wanted: {wanted} dBmV}}"
    assert is_told(verdicts(net(8, 14, up), LEGS, THROUGH)) is told


def test_a_modem_whose_way_back_is_shut_is_no_reason_to_take_a_smaller_cable() -> None:
    shut = "  AMP: {kind: drop amplifier, outputs: 1}\n" + ONE
    legs = f"{cable(ends='from: DROP, to: AMP')}\n{cable('1 ft', 'D', 'from: AMP.out, to: R')}"
    up = ", up: {band: 5 MHz to 42 MHz, wanted: 35 dBmV}"
    assert is_told(verdicts(net(-2, 0), legs, shut)) is True
    assert is_told(verdicts(net(-2, 0, up), legs, shut)) is False


def told_values(found: list[Verdict]) -> Mapping[str, object]:
    """The values of the one verdict, as the rule's words have them."""
    (verdict,) = found
    assert isinstance(verdict, NotMet)
    return said(verdict, combine(["trade 1"], shipped_registry()).rules["cable.oversized"]).values


def test_the_weakest_outlet_is_told_and_all_are_counted() -> None:
    devices = (
        "  SP: {kind: splitter, ways: 2}\n  R1: {kind: outlet, serves: [net]}\n  R2: {kind: outlet, serves: [net]}"
    )
    legs = "\n".join(
        (
            cable("20 ft", ends="from: DROP, to: SP"),
            cable("5 ft", "D1", "from: SP.out-1, to: R1", "series 6"),
            cable("40 ft", "D2", "from: SP.out-2, to: R2", "series 6"),
        )
    )
    values = told_values(verdicts(net(12, 12), legs, devices))
    assert values["outlets"] == "two outlets"
    assert "at R2 at 1000 MHz" in values["left"]


@pytest.mark.parametrize(("a_dbmv", "b_dbmv", "weakest_mhz"), [(14, 10, 1000), (8, 14, 500)])
def test_of_several_services_the_top_frequency_and_the_weakest_level_are_told(
    a_dbmv: float, b_dbmv: float, weakest_mhz: int
) -> None:
    services = f"{net(a_dbmv, a_dbmv, name='a', top='500 MHz')}\n{net(b_dbmv, b_dbmv, name='b')}"
    services = services.replace("  b: {", '  b: {channels: [{name: "70", frequency: 500 MHz}], ')
    values = told_values(verdicts(services, cable(), "  R: {kind: outlet, serves: [a, b]}"))
    assert values["frequency"] == "1000 MHz"
    assert values["gain"] == "0.8 dB"
    assert f"at R at {weakest_mhz} MHz" in values["left"]


NOT_KNOWN = "not known"
BEHIND = "level not known"


@pytest.mark.parametrize(
    "other", ["length: 20 ft, type: the gray one", "type: fat", "length: 20 ft, type: short table"]
)
def test_where_a_loss_behind_it_is_not_known_nothing_is_said(other: str) -> None:
    devices = "  G: {kind: ground block}\n" + ONE
    cables = f"{cable('20 ft', ends='from: DROP, to: G')}\n  D: {{from: G, to: R, {other}}}"
    assert list(reasons(verdicts(net(12, 14), cables, devices))) == [BEHIND]


def test_a_cable_of_unknown_length_or_type_is_not_judged() -> None:
    assert list(reasons(verdicts(net(12, 14), "  C: {from: DROP, to: R, type: fat}"))) == [NOT_KNOWN]
    assert list(reasons(verdicts(net(12, 14), cable(type_="the gray one")))) == [NOT_KNOWN]
    apart = verdicts(net(12, 14), cable(ends="from: A, to: B"), "  A: {kind: ground block}\n  B: {kind: ground block}")
    assert list(reasons(apart)) == [NOT_KNOWN]


def test_a_service_of_no_stated_band_leaves_it_open() -> None:
    services = f"{net(12, 14)}\n  other: {{kind: cable broadband, from: DROP}}"
    found = verdicts(services, cable(), "  R: {kind: outlet, serves: [net, other]}")
    assert list(reasons(found)) == [BEHIND]


def test_a_cable_of_another_impedance_on_the_way_is_no_larger_one() -> None:
    devices = "  G: {kind: ground block}\n" + ONE
    cables = f"{cable('20 ft', ends='from: DROP, to: G')}\n{cable('20 ft', 'D', 'from: G, to: R', '213-type')}"
    assert is_told(verdicts(net(12, 14), cables, devices))
    assert verdicts(net(12, 14), cables, devices, "D") == []


def test_a_smaller_class_that_is_not_in_the_catalogue_is_passed_over() -> None:
    assert is_told(verdicts(net(12, 14), cable(), benefit="no such class"))


@pytest.mark.parametrize(("support", "told"), [("messenger", False), ("clips", True)])
def test_a_span_may_be_of_its_class_for_its_strength(support: str, told: bool) -> None:
    route = f"route: [den: {{length: 80 ft, support: {support}}}]"
    assert is_told(verdicts(net(12, 14), cable(route))) is told
