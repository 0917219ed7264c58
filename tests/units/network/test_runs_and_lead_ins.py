"""Cables joined end to end, and the way down from an antenna."""

from __future__ import annotations

import pytest

from coaxwright.design import understand
from coaxwright.network import Network, Unknown, build_network
from coaxwright.source import read_text

HEAD = """\
coaxwright: 1
title: Bench (invented)
basis: {rulesets: [trade 1]}
places: {roof: {exposure: rooftop}, wall: {exposure: outdoors}, attic: {exposure: attic}, hall: {}}
devices:
  ANT: {kind: antenna, place: roof}
  PRE: {kind: preamplifier, place: roof}
  G-1: {kind: ground block, place: wall}
  G-2: {kind: ground block, place: wall}
  PI:  {kind: power inserter, place: hall}
  SP1: {kind: splitter, ways: 2, place: hall}
  TV:  {kind: outlet, place: hall}
  PC:  {kind: outlet, place: hall}
cables:
"""


def network(*cables: str) -> Network:
    lines = "".join(f"  C-{number}: {{{cable}, type: series 6}}\n" for number, cable in enumerate(cables, start=1))
    return build_network(understand(read_text(HEAD + lines, "bench.coax.yaml")))


@pytest.mark.parametrize(
    ("cables", "expected"),
    [
        (["from: SP1, to: TV", "from: SP1, to: PC"], ["C-1", "C-2"]),
        (["from: G-1, to: SP1", "from: ANT, to: G-1"], ["C-2 + C-1"]),
        (
            ["from: TV, to: SP1", "from: PI, to: SP1", "from: G-2, to: PI", "from: G-1, to: G-2"],
            ["C-1", "C-4 + C-3 + C-2"],
        ),
        (["from: ANT, to: PRE", "from: PRE, to: G-1"], ["C-1", "C-2"]),
        (["from: ANT, to: G-1", "from: G-1, to: TV, state: abandoned"], ["C-1"]),
        (["from: G-1, to: G-2", "from: G-2, to: G-1"], ["C-2 + C-1"]),
        (["from: G-1, to: ELSE", "from: ANT, to: G-1"], ["C-2 + C-1"]),
    ],
)
def test_runs(cables: list[str], expected: list[str]) -> None:
    runs = network(*cables).runs
    assert sorted(run.tags for run in runs) == sorted(expected)
    assert [run.first.tag for run in runs] == sorted(run.first.tag for run in runs)


def test_length_of_a_run_and_what_is_missing() -> None:
    (run,) = network("from: ANT, to: G-1, length: 9 ft", "from: G-1, to: TV, route: [wall: 1 m, hall: 50 cm]").runs
    assert not isinstance(run.length, Unknown)
    assert run.length.text == "4.24 m"
    (run,) = network("from: ANT, to: G-1, length: 9 ft", "from: G-1, to: TV").runs
    assert run.length == Unknown("neither length nor route", ("cables", "C-2", "length"), {"cable": "C-2"})


@pytest.mark.parametrize(
    ("cables", "protector", "way", "building"),
    [
        (["from: ANT, to: G-1, length: 9 m", "from: G-1, to: TV, length: 1 m"], "G-1", ["C-1"], ""),
        (["from: PRE, to: ANT, length: 1 m", "from: G-2, to: PRE, length: 1 m"], "G-2", ["C-1", "C-2"], ""),
        (["from: ANT, to: TV, length: 9 m"], None, ["C-1"], ""),
        (["from: ANT, to: PRE, length: 9 m"], None, ["C-1"], None),
        ([], None, [], None),
    ],
)
def test_lead_in(cables: list[str], protector: str | None, way: list[str], building: str | None) -> None:
    built = (
        network(*cables)
        if cables
        else build_network(understand(read_text(HEAD.removesuffix("cables:\n"), "bench.coax.yaml")))
    )
    found = built.lead_in(built.devices["ANT"])
    assert (found.protector.tag if found.protector is not None else None) == protector
    assert [link.tag for link in found.cables] == way
    assert found.building == building
    assert found.loose_end is None


def test_a_lead_in_that_is_lost_says_where() -> None:
    built = network("from: ANT, to: G-11, length: 9 m")
    found = built.lead_in(built.devices["ANT"])
    assert found.loose_end is not None
    assert found.loose_end.path == ("cables", "C-1", "to")
    assert found.protector is None
