"""Which buildings the shields of coax join, and what hangs together in the bonding graph."""

from __future__ import annotations

import pytest

from coaxwright.design import understand
from coaxwright.network import Network, build_network
from coaxwright.source import read_text

SITE = """\
coaxwright: 1
title: Bench (invented)
basis: {{rulesets: [trade 1]}}
buildings: {{a: {{entry: wa}}, b: {{entry: wb}}, c: {{entry: wc}}}}
places: {{wa: {{exposure: outdoors}}, wb: {{exposure: outdoors}}, wc: {{exposure: outdoors}}}}
devices:
  GA: {{kind: ground block, place: wa}}
  GB: {{kind: ground block, place: wb}}
  GC: {{kind: ground block, place: wc}}
  SP: {{kind: splitter, ways: 2, place: wa}}
  ISO: {{kind: galvanic isolator, place: wa}}
cables:
{cables}
bonding:
  EA: {{kind: grounding electrode system, place: wa}}
  EB: {{kind: grounding electrode system, place: wb}}
  EC: {{kind: grounding electrode system, place: wc}}
  B-1: {{from: GA, to: EA, conductor: 10 AWG copper}}
  B-2: {{from: GB, to: EB, conductor: 10 AWG copper}}
{more}
"""
STAR = ("GA: SP.in", "SP.out-1: GB", "SP.out-2: GC")


BOND = "  B-3: {from: GC, to: EC, conductor: 10 AWG copper}"


def network(cables: tuple[str, ...], more: str = BOND) -> Network:
    written = [
        f"  C-{index}: {{from: {end}, to: {other}, type: series 6 outdoor, route: [wa: 1 m, wb: 1 m]}}"
        for index, (end, other) in enumerate(cable.split(": ") for cable in cables)
    ]
    text = SITE.format(cables="\n".join(written), more=more)
    return build_network(understand(read_text(text, "bench.coax.yaml")))


def pairs(built: Network) -> list[tuple[str, str]]:
    return [(pair.one, pair.other) for pair in built.survey.buildings_in_touch]


@pytest.mark.parametrize(
    ("cables", "found"),
    [
        (STAR, [("a", "b"), ("a", "c")]),
        (("GA: GB", "GB: GC"), [("a", "b"), ("a", "c")]),
        (("GB: GC",), [("b", "c")]),
        (("GA: ISO", "ISO: GB"), []),
        (("GA: SP.in", "SP.out-1: ISO", "ISO: GB", "SP.out-2: GC"), [("a", "c")]),
    ],
    ids=["star", "chain", "two of three", "parted", "parted on one branch"],
)
def test_buildings_that_shields_join(cables: tuple[str, ...], found: list[tuple[str, str]]) -> None:
    assert pairs(network(cables)) == found


def test_a_building_without_a_bond_is_not_joined_through_it() -> None:
    assert pairs(network(STAR, more="")) == [("a", "b")]


def test_buildings_that_are_tied_count_once() -> None:
    """b and c hang together: one finding of the two is enough."""
    tie = f"{BOND}\n  B-4: {{from: EB, to: EC, conductor: 6 AWG copper}}"
    assert pairs(network(STAR, more=tie)) == [("a", "b")]


def test_a_gas_pipe_is_found_at_the_end_of_the_way_and_a_dead_mast_is_none() -> None:
    more = (
        "  GAS: {kind: gas pipe, place: wc}\n"
        "  B-3: {from: GC, to: SP, conductor: 10 AWG copper}\n  B-4: {from: SP, to: GAS, conductor: 10 AWG copper}"
    )
    bonding = network(STAR, more=more).bonding
    astray = bonding.astray("GC")
    assert astray is not None
    assert (astray[0].tag, astray[1]) == ("B-4", "GAS")
    assert bonding.astray("GA") is None
    assert bonding.meets("GC") == frozenset()


def test_what_is_met_is_not_met_by_way_of_another_electrode() -> None:
    more = (
        "  IBT: {kind: intersystem bonding termination, place: wa}\n"
        "  B-3: {from: IBT, to: EA, conductor: 6 AWG copper}\n"
        "  B-4: {from: GC, to: SP, conductor: 10 AWG copper}\n  B-5: {from: SP, to: EC, conductor: 10 AWG copper}"
    )
    bonding = network(STAR, more=more).bonding
    assert bonding.meets("GA") == {"EA"}
    assert bonding.meets("GC") == {"EC"}
    assert bonding.joined_with("GA", lambda conductor: True) == {"GA", "EA", "IBT"}
    assert bonding.joined_with("EA", lambda conductor: conductor.tag != "B-1") == {"EA", "IBT"}


def test_what_a_termination_states_joins_it_both_ways() -> None:
    more = "  BAR: {kind: intersystem bonding termination, place: wa, electrode: ROD}\n"
    more += "  ROD: {kind: ground rod, place: wa}"
    bonding = network(STAR, more=more).bonding
    for tag in ("BAR", "ROD"):
        assert bonding.joined_with(tag, lambda conductor: False) == {"BAR", "ROD"}
