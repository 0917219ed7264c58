"""The way from a thing to an electrode."""

from __future__ import annotations

from itertools import permutations
from typing import get_args

import pytest

from coaxwright.design import understand
from coaxwright.design.words import BondKind
from coaxwright.network import Network, Unknown, build_network
from coaxwright.network.bonds import BONDING_POINTS, ELECTRODES, NO_WAY
from coaxwright.rules.phrase_book import cause_text
from coaxwright.source import read_text

HEAD = """\
coaxwright: 1
title: Bench (invented)
basis: {rulesets: [trade 1]}
buildings: {house: {entry: wall}, barn: {entry: gable}}
places: {wall: {exposure: outdoors}, gable: {exposure: outdoors}, roof: {building: house, exposure: rooftop}}
devices:
  G-1: {kind: ground block, place: wall}
  G-2: {kind: ground block, place: wall}
  ANT: {kind: antenna, place: roof, mast: {}}
bonding:
"""
IBT = "IBT: {kind: intersystem bonding termination, place: wall}"
GES = "GES: {kind: grounding electrode system, place: wall}"
ROD = "ROD: {kind: ground rod, place: wall}"


def bond(start: str, end: str, more: str = "") -> str:
    return f"{{from: {start}, to: {end}, conductor: 10 AWG copper{more}}}"


def network(*bonds: str) -> Network:
    return build_network(understand(read_text(HEAD + "".join(f"  {line}\n" for line in bonds), "bench.coax.yaml")))


def way(built: Network, thing: str) -> str | None:
    path = built.bonding.path(thing)
    return None if path is None else " ".join([*(node.tag for node in path.conductors), path.electrode.tag])


def test_the_shortest_way_comes_first_over_however_many_conductors() -> None:
    direct = network(IBT, f"B-1: {bond('G-1', 'IBT', ', length: 9 m')}", f"B-2: {bond('IBT', 'G-1', ', length: 3 m')}")
    assert way(direct, "G-1") == "B-2 IBT"
    longer = network(
        IBT,
        f"B-1: {bond('G-1', 'IBT', ', length: 9 m')}",
        f"B-2: {bond('G-1', 'G-2', ', length: 1 m')}",
        f"B-3: {bond('G-2', 'IBT', ', length: 1 m')}",
    )
    assert way(longer, "G-1") == "B-2 B-3 IBT"
    assert way(longer, "G-2") == "B-3 IBT"


def test_of_ways_as_long_the_one_with_fewer_conductors() -> None:
    built = network(
        IBT,
        f"B-9: {bond('G-1', 'IBT', ', length: 2 m')}",
        f"B-2: {bond('G-1', 'G-2', ', length: 1 m')}",
        f"B-3: {bond('G-2', 'IBT', ', length: 1 m')}",
    )
    assert way(built, "G-1") == "B-9 IBT"


def test_a_mast_that_is_not_of_metal_conducts_nothing() -> None:
    lines = (
        IBT,
        f"B-1: {bond('G-1', 'ANT.mast', ', length: 3 m')}",
        f"B-2: {bond('ANT.mast', 'IBT', ', length: 3 m')}",
    )
    assert way(network(*lines), "G-1") == "B-1 B-2 IBT"
    text = HEAD.replace("mast: {}", "mast: {metal: false}") + "".join(f"  {line}\n" for line in lines)
    assert way(build_network(understand(read_text(text, "bench.coax.yaml"))), "G-1") is None


def test_a_gas_pipe_is_no_electrode_and_the_service_equipment_is_one() -> None:
    gas = network("GAS: {kind: gas pipe, place: wall}", f"B-1: {bond('G-1', 'GAS')}")
    assert way(gas, "G-1") is None
    panel = network("PANEL: {kind: service equipment, place: wall}", f"B-1: {bond('G-1', 'PANEL')}")
    assert way(panel, "G-1") == "B-1 PANEL"


def test_three_short_conductors_tie_with_one_as_long() -> None:
    built = network(
        IBT,
        f"B-9: {bond('G-1', 'IBT', ', length: 0.3 m')}",
        f"B-1: {bond('G-1', 'G-2', ', length: 0.1 m')}",
        f"B-2: {bond('G-2', 'ANT.mast', ', length: 0.1 m')}",
        f"B-3: {bond('ANT.mast', 'IBT', ', length: 0.1 m')}",
    )
    assert way(built, "G-1") == "B-9 IBT"


def test_the_route_of_a_conductor_is_its_length() -> None:
    built = network(
        IBT,
        f"B-1: {bond('G-1', 'IBT', ', length: 5 m')}",
        f"B-2: {bond('G-1', 'IBT', ', route: [wall: 1 m, gable: 2 m]')}",
    )
    assert way(built, "G-1") == "B-2 IBT"
    path = built.bonding.path("G-1")
    assert path is not None
    assert not isinstance(path.length, Unknown)
    assert path.length.text == "3 m"


def test_no_bond_relies_on_a_gas_pipe_that_is_bonded_itself() -> None:
    built = network(
        "GAS: {kind: gas pipe, place: wall}",
        GES,
        f"B-1: {bond('G-1', 'GAS')}",
        f"B-2: {bond('GAS', 'GES')}",
        f"B-3: {bond('G-2', 'GES')}",
    )
    assert way(built, "G-1") is None
    assert way(built, "G-2") == "B-3 GES"


def test_a_loose_end_beyond_a_mast_of_fiberglass_is_no_loose_end_of_the_thing() -> None:
    lines = (f"B-1: {bond('G-1', 'ANT.mast')}", f"B-2: {bond('ANT.mast', 'NOWHERE')}")
    loose = network(*lines).bonding.loose_end("G-1")
    assert loose is not None
    assert loose.tag == "B-2"
    text = HEAD.replace("mast: {}", "mast: {metal: false}") + "".join(f"  {line}\n" for line in lines)
    assert build_network(understand(read_text(text, "bench.coax.yaml"))).bonding.loose_end("G-1") is None


def test_a_mast_of_fiberglass_joins_no_buildings() -> None:
    lines = (
        GES,
        "B-GES: {kind: grounding electrode system, place: gable}",
        f"B-1: {bond('GES', 'ANT.mast')}",
        f"B-2: {bond('ANT.mast', 'B-GES')}",
    )
    assert network(*lines).are_joined("house", "barn")
    text = HEAD.replace("mast: {}", "mast: {metal: false}") + "".join(f"  {line}\n" for line in lines)
    assert not build_network(understand(read_text(text, "bench.coax.yaml"))).are_joined("house", "barn")


@pytest.mark.parametrize(
    ("termination", "more", "beyond"),
    [
        ("IBT: {kind: intersystem bonding termination, place: wall}", [], ["B-2", "B-3"]),
        ("IBT: {kind: intersystem bonding termination, place: wall, electrode: GES}", [], ["B-2", "B-3"]),
        ("IBT: {kind: intersystem bonding termination, place: wall, electrode: BAR}", [], ["B-2", "B-3"]),
        ("IBT: {kind: intersystem bonding termination, place: wall, electrode: service}", [], []),
        (
            "IBT: {kind: intersystem bonding termination, place: wall}",
            [f"B-4: {bond('IBT', 'GES', ', length: 1 m')}"],
            ["B-4"],
        ),
        ("IBT: {kind: service equipment, place: wall}", [], []),
    ],
)
def test_conductors_beyond_a_termination(termination: str, more: list[str], beyond: list[str]) -> None:
    built = network(
        termination,
        GES,
        "BAR: {kind: intersystem bonding termination, place: gable}",
        f"B-1: {bond('G-1', 'IBT', ', length: 1 m')}",
        f"B-2: {bond('IBT', 'BAR', ', length: 1 m')}",
        f"B-3: {bond('BAR', 'GES', ', length: 1 m')}",
        *more,
    )
    assert [tag for tag in built.bonds if built.bonded_beyond(tag)] == beyond
    assert [bondable.reference for bondable in built.bonded_at("IBT")] == ["G-1"]


def test_terminations_that_state_one_another_lead_nowhere_and_end() -> None:
    built = network(
        "IBT: {kind: intersystem bonding termination, place: wall, electrode: BAR}",
        "BAR: {kind: intersystem bonding termination, place: gable, electrode: IBT}",
        f"B-1: {bond('G-1', 'IBT')}",
        f"B-2: {bond('IBT', 'BAR')}",
    )
    assert [tag for tag in built.bonds if built.bonded_beyond(tag)] == ["B-2"]


def test_every_kind_of_bonding_item_has_one_part_in_the_graph() -> None:
    parts = [*BONDING_POINTS, *(ELECTRODES - {*BONDING_POINTS}), *NO_WAY, "bonding conductor"]
    assert sorted(parts) == sorted(get_args(BondKind))


def test_the_conductor_beyond_a_termination_serves_all_that_is_bonded_there() -> None:
    built = network(IBT, GES, f"B-1: {bond('G-1', 'IBT', ', length: 3 m')}", f"B-2: {bond('IBT', 'GES')}")
    assert way(built, "G-1") == "B-1 IBT"
    assert [node.tag for node in built.bonded_beyond("B-2")] == ["IBT"]
    assert built.bonded_over("B-2") == ()
    unused = network(IBT, GES, f"B-2: {bond('IBT', 'GES')}")
    assert unused.bonded_beyond("B-2") == ()


def test_a_known_length_comes_before_an_unknown_one() -> None:
    built = network(IBT, f"B-1: {bond('G-1', 'IBT')}", f"B-2: {bond('G-1', 'IBT', ', length: 30 m')}")
    assert way(built, "G-1") == "B-2 IBT"


@pytest.mark.parametrize("order", list(permutations(range(4))))
def test_ties_are_broken_by_tags_and_not_by_the_file(order: tuple[int, ...]) -> None:
    bonds = [
        IBT,
        f"B-10: {bond('G-1', 'IBT', ', length: 3 m')}",
        f"B-9: {bond('IBT', 'G-1', ', length: 3 m')}",
        f"B-11: {bond('G-1', 'IBT', ', length: 3 m')}",
    ]
    assert way(network(*(bonds[index] for index in order)), "G-1") == "B-9 IBT"


def test_length_of_a_way_and_what_is_missing() -> None:
    built = network(
        IBT,
        f"B-1: {bond('G-1', 'IBT', ', length: 9 ft')}",
        f"B-2: {bond('G-2', 'G-1', ', length: 6 in')}",
        f"B-3: {bond('ANT.mast', 'IBT')}",
    )
    path, open_path = built.bond_paths["G-2"], built.bond_paths["ANT.mast"]
    assert path is not None
    assert not isinstance(path.length, Unknown)
    assert path.length.text == "9.5 ft"
    assert open_path is not None
    assert open_path.length == Unknown("conductor without length", ("bonding", "B-3", "length"), {"conductor": "B-3"})


def test_an_abandoned_conductor_or_electrode_leads_nowhere() -> None:
    built = network(IBT, f"B-1: {bond('G-1', 'IBT', ', state: abandoned')}")
    assert way(built, "G-1") is None
    abandoned = "IBT: {kind: intersystem bonding termination, place: wall, state: abandoned}"
    built = network(abandoned, f"B-1: {bond('G-1', 'IBT')}")
    assert way(built, "G-1") is None


def test_a_loop_of_conductors_without_an_electrode_ends() -> None:
    built = network(f"B-1: {bond('G-1', 'G-2')}", f"B-2: {bond('G-2', 'G-1')}", f"B-3: {bond('G-1', 'G-1')}")
    assert way(built, "G-1") is None
    assert built.bonding.loose_end("G-1") is None


def test_from_an_own_rod_on_to_the_building() -> None:
    built = network(GES, ROD, f"B-1: {bond('G-1', 'ROD')}", f"B-2: {bond('ROD', 'GES')}")
    assert way(built, "G-1") == "B-1 ROD"
    onwards = built.bonding.path_to_building("ROD")
    assert onwards is not None
    assert [node.tag for node in onwards.conductors] == ["B-2"]
    assert network(ROD, f"B-1: {bond('G-1', 'ROD')}").bonding.path_to_building("ROD") is None


def test_a_loose_end_here_or_further_on() -> None:
    built = network(IBT, f"B-1: {bond('G-1', 'ITB')}", f"B-2: {bond('G-2', 'G-1')}")
    for thing in ("G-1", "G-2"):
        loose = built.bonding.loose_end(thing)
        assert loose is not None
        assert built.loose_reference(loose) == (("bonding", "B-1", "to"), "ITB")
    assert built.bonding.loose_end("ANT.mast") is None


def test_what_is_bonded_over_a_conductor() -> None:
    built = network(
        IBT, f"B-1: {bond('G-1', 'IBT')}", f"B-2: {bond('G-2', 'G-1')}", f"B-3: {bond('IBT', 'G-2', ', length: 1 m')}"
    )
    assert [bondable.reference for bondable in built.bonded_over("B-1")] == ["G-1"]
    assert built.bonded_over("B-2") == ()
    assert [bondable.reference for bondable in built.bonded_over("B-3")] == ["G-2"]


@pytest.mark.parametrize(
    ("bonds", "expected"),
    [
        ([], None),
        ([ROD], "ROD"),
        ([ROD, "PIPE: {kind: water pipe, place: wall}"], "PIPE"),
        ([ROD, GES], "GES"),
        ([GES, IBT], "IBT"),
        (["T-10: {kind: ground rod, place: wall}", "T-9: {kind: ground rod, place: wall}"], "T-9"),
        (["OLD: {kind: intersystem bonding termination, place: wall, state: abandoned}", ROD], "ROD"),
        (["FAR: {kind: intersystem bonding termination, place: gable}", ROD], "ROD"),
    ],
)
def test_the_best_bonding_point_of_a_building(bonds: list[str], expected: str | None) -> None:
    for order in (bonds, bonds[::-1]):
        node = network("X: {kind: water pipe, place: gable}", *order).bonding_point("house")
        assert (node.tag if node is not None else None) == expected


def test_masts_and_protectors_are_to_be_bonded() -> None:
    body = HEAD.replace("bonding:\n", "").replace("mast: {}", "mast: {metal: false}")
    built = build_network(understand(read_text(body, "bench.coax.yaml")))
    assert [bondable.reference for bondable in built.bondables] == ["G-1", "G-2"]
    body = HEAD.replace("bonding:\n", "")
    built = build_network(understand(read_text(body, "bench.coax.yaml")))
    assert [(bondable.reference, bondable.is_mast) for bondable in built.bondables] == [
        ("ANT.mast", True),
        ("G-1", False),
        ("G-2", False),
    ]


@pytest.mark.parametrize(
    ("lines", "missing"),
    [
        (["IBT: {kind: intersystem bonding termination, place: wall, electrode: service}"], None),
        (["IBT: {kind: intersystem bonding termination, place: wall, electrode: GES}", GES], None),
        (
            [
                "IBT: {kind: intersystem bonding termination, place: wall, electrode: BAR}",
                "BAR: {kind: intersystem bonding termination, place: gable}",
                f"B-2: {bond('BAR', 'GES')}",
                GES,
            ],
            None,
        ),
        (
            ["IBT: {kind: intersystem bonding termination, place: wall}"],
            "IBT states no electrode, and no conductor leads on from it",
        ),
        (
            ["IBT: {kind: intersystem bonding termination, place: wall, electrode: IBT}"],
            "IBT is joined to terminations alone, and to no electrode",
        ),
        (
            ["IBT: {kind: intersystem bonding termination, place: wall, electrode: B-1}"],
            "IBT is joined to 'B-1', which is no electrode in use",
        ),
        (
            [
                "IBT: {kind: intersystem bonding termination, place: wall, electrode: GAS}",
                "GAS: {kind: gas pipe, place: wall}",
            ],
            "IBT is joined to 'GAS', which is no electrode in use",
        ),
        (
            [
                "IBT: {kind: intersystem bonding termination, place: wall, electrode: ROD}",
                "ROD: {kind: ground rod, place: wall, state: abandoned}",
            ],
            "IBT is joined to 'ROD', which is no electrode in use",
        ),
        (
            [
                "IBT: {kind: intersystem bonding termination, place: wall, electrode: BAR}",
                "BAR: {kind: intersystem bonding termination, place: gable}",
            ],
            "BAR states no electrode, and no conductor leads on from it",
        ),
        (
            [
                "IBT: {kind: intersystem bonding termination, place: wall, electrode: BAR}",
                "BAR: {kind: intersystem bonding termination, place: gable, electrode: IBT}",
            ],
            "IBT is joined to terminations alone, and to no electrode",
        ),
    ],
)
def test_a_way_ends_at_an_electrode_and_not_at_what_names_itself(lines: list[str], missing: str | None) -> None:
    built = network(*lines, f"B-1: {bond('G-1', 'IBT')}")
    path = built.bond_paths["G-1"]
    assert path is not None
    found = built.bonding.open_end(path.electrode)
    assert (cause_text(found) if found is not None else None) == missing


@pytest.mark.parametrize("stated", ["IBT", "B-1", "GAS", "ground rod"])
def test_what_is_no_electrode_is_no_electrode_of_a_termination(stated: str) -> None:
    built = network(
        f"IBT: {{kind: intersystem bonding termination, place: wall, electrode: {stated}}}",
        "GAS: {kind: gas pipe, place: wall}",
        f"B-1: {bond('G-1', 'IBT')}",
    )
    assert [(fault.written, fault.known) for fault in built.unknown_references] == [(stated, ("service",))]
    assert built.bonded_beyond("B-1") == ()
