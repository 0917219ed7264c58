"""The ports of taps and couplers: an outlet takes a tap, the trunk's way through is named or what is left.

Common practice, no source: a tap's through output carries the trunk on, and its taps serve the outlets.
"""

from __future__ import annotations

from collections.abc import Mapping

import pytest

from coaxwright.catalogue import load_catalogue
from coaxwright.design import Design
from coaxwright.network import Network, build_network
from coaxwright.reviewing import judge
from coaxwright.rules import shipped_registry
from coaxwright.source import read_text

TAP = {"kind": "tap", "outputs": 2, "value": "16 dB"}
OUTLET = {"kind": "outlet"}
RULESETS = {"basis": {"rulesets": ["trade 1"]}}


def network(cables: Mapping[str, tuple[str, str]], **devices: Mapping[str, object]) -> Network:
    written = {tag: {"from": one, "to": other, "type": "series 6"} for tag, (one, other) in cables.items()}
    data = {"coaxwright": 1, "title": "x", **RULESETS, "devices": {"TAP": TAP, **devices}, "cables": written}
    return build_network(Design.model_validate(data))


def port(built: Network, cable: str) -> str | None:
    near = built.cables[cable].near
    return near.port.name if near.port is not None else None


def test_a_cable_to_an_outlet_takes_a_tap_and_leaves_the_way_through() -> None:
    built = network({"C-1": ("TAP", "A"), "C-2": ("B", "TAP")}, A=OUTLET, B={"kind": "cable modem"})
    assert (port(built, "C-1"), port(built, "C-2")) == ("tap-1", "tap-2")
    assert built.undecided_ports == built.port_conflicts == ()


@pytest.mark.parametrize(
    "beyond",
    [TAP, {"kind": "splitter", "ways": 2}, {"kind": "drop amplifier", "outputs": 1}, {"kind": "ground block"}],
    ids=lambda device: str(device["kind"]),
)
def test_a_cable_that_leads_further_is_undecided(beyond: Mapping[str, object]) -> None:
    built = network({"C-0": ("DROP", "TAP"), "C-1": ("TAP", "B")}, B=beyond, DROP={"kind": "coax drop"})
    (undecided,) = built.undecided_ports
    assert (undecided.path, undecided.choices) == (("cables", "C-1", "from"), ("out", "tap-1", "tap-2"))


def test_a_cable_that_leads_further_is_decided_where_only_the_way_through_is_left() -> None:
    # C-1 comes before the outlets' cables by its tag, and yet they take the taps.
    built = network(
        {"C-1": ("TAP", "SP"), "C-2": ("TAP", "A"), "C-3": ("TAP", "B")},
        SP={"kind": "splitter", "ways": 2},
        A=OUTLET,
        B=OUTLET,
    )
    assert [port(built, tag) for tag in ("C-1", "C-2", "C-3")] == ["out", "tap-1", "tap-2"]
    assert built.undecided_ports == ()


def test_the_way_through_is_no_output_for_an_outlet() -> None:
    cables = {f"C-{n}": ("TAP", f"O{n}") for n in range(1, 5)}
    (conflict,) = network(cables, **dict.fromkeys(("O1", "O2", "O3", "O4"), OUTLET)).port_conflicts
    assert (conflict.wanted, conflict.ports) == ("tap output", ("tap-1", "tap-2"))
    assert conflict.tenants == ("C-1", "C-2", "C-3", "C-4")
    assert conflict.paths == (("cables", "C-3", "from"), ("cables", "C-4", "from"))


def test_where_the_way_through_is_named_only_taps_are_left_for_the_others() -> None:
    splitters = {f"S{n}": {"kind": "splitter", "ways": 2} for n in range(1, 5)}
    cables = {"R-1": ("TAP.out", "S4"), **{f"C-{n}": ("TAP", f"S{n}") for n in range(1, 4)}}
    (conflict,) = network(cables, **splitters).port_conflicts
    assert (conflict.wanted, conflict.ports) == ("tap output", ("tap-1", "tap-2"))
    assert conflict.tenants == ("C-1", "C-2", "C-3")


def test_a_coupler_gives_an_outlet_its_tap() -> None:
    built = network({"C-1": ("DC", "A")}, DC={"kind": "directional coupler", "value": "12 dB"}, A=OUTLET)
    assert port(built, "C-1") == "tap"


def test_a_terminator_takes_the_one_sort_of_port_that_is_left() -> None:
    cables = {"C-1": ("TAP", "A"), "C-2": ("TAP", "B")}
    built = network(cables, A=OUTLET, B=OUTLET, T={"kind": "terminator", "on": "TAP"})
    end = built.fittings["T"].port
    assert end is not None
    assert end.name == "out"


@pytest.mark.parametrize(
    ("written", "ports"),
    [
        ({"kind": "tap", "outputs": 3, "value": "11 dB"}, ("in", "out", "tap-1", "tap-2", "tap-3")),
        ({"kind": "tap", "outputs": 4, "value": "11 dB"}, ("in", "out", "tap-1", "tap-2", "tap-3", "tap-4")),
        ({"kind": "LNB", "outputs": 3}, ("out-1", "out-2", "out-3")),
        ({"kind": "video recorder", "inputs": 5}, ("in-1", "in-2", "in-3", "in-4", "in-5")),
        ({"kind": "splitter", "ways": 5}, ("in", "out-1", "out-2", "out-3", "out-4", "out-5")),
        ({"kind": "drop amplifier", "outputs": 3}, ("in", "out-1", "out-2", "out-3")),
        ({"kind": "directional coupler", "value": "11 dB"}, ("in", "out", "tap")),
    ],
    ids=str,
)
def test_a_size_that_is_not_made_has_as_many_ports_as_it_says(
    written: Mapping[str, object], ports: tuple[str, ...]
) -> None:
    built = network({}, X=written)
    assert built.devices["X"].entry is None
    assert tuple(one.name for one in built.devices["X"].ports) == ports
    made = load_catalogue().made(str(written["kind"])).values()
    assert {one.group for one in built.devices["X"].ports} <= {one.group for entry in made for one in entry.ports}


FOUR = """\
coaxwright: 1
title: Bench (invented)
basis: {rulesets: [trade 1]}
places: {den: {}}
services: {bb: {kind: cable broadband, from: DROP, down: {band: 54 MHz to 1002 MHz}}}
devices:
  DROP: {kind: coax drop, place: den}
  TAP: {kind: tap, outputs: %s, value: %s, place: den}
  O1: {kind: outlet, place: den, serves: [bb]}
  O2: {kind: outlet, place: den, serves: [bb]}
  O3: {kind: outlet, place: den, serves: [bb]}
  T: {kind: terminator, on: TAP.out}
cables:
  C-1: {from: DROP, to: TAP, type: series 6 quad, route: [den: 3 m]}
  C-2: {from: TAP, to: O1, type: series 6 quad, route: [den: 3 m]}
  C-3: {from: TAP, to: O2, type: series 6 quad, route: [den: 3 m]}
  C-4: {from: TAP, to: O3, type: series 6 quad, route: [den: 3 m]}
"""


def test_a_tap_that_is_not_made_is_one_finding() -> None:
    findings = judge(read_text(FOUR % (3, "11 dB"), "bench.coax.yaml"), shipped_registry()).findings
    assert [(one.rule, one.found) for one in findings if one.rule.startswith("plan.")] == [
        ("plan.reference-known", "the catalogue has no tap with 3 outputs")
    ]


def test_too_many_outlets_at_a_tap_are_told_with_the_tap_that_is_large_enough() -> None:
    findings = judge(read_text(FOUR % (2, "16 dB"), "bench.coax.yaml"), shipped_registry()).findings
    (one,) = [finding for finding in findings if finding.rule == "plan.port-single-use"]
    assert one.found == "TAP has two tap outputs, and C-2, C-3 and C-4 want one each"
    assert one.remedy == "take a 16 dB 4-output tap for TAP, or move C-4 to another device with a free output"
    findings = judge(read_text(FOUR % (2, "9 dB"), "bench.coax.yaml"), shipped_registry()).findings
    (one,) = [finding for finding in findings if finding.rule == "plan.port-single-use"]
    assert one.remedy == "move C-4 to another device, or add one for it"
