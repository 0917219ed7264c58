"""Tags as written to the things they name; what names nothing is noted and left out."""

from __future__ import annotations

import pytest

from coaxwright.design import understand
from coaxwright.network import Network, build_network, nearest_tag, tag_order
from coaxwright.source import read_text

HEAD = "coaxwright: 1\ntitle: Bench (invented)\nbasis: {rulesets: [trade 1]}\n"


def network(body: str) -> Network:
    return build_network(understand(read_text(HEAD + body, "bench.coax.yaml")))


def noted(built: Network) -> list[tuple[str, str, str | None]]:
    return [(".".join(map(str, fault.path)), fault.written, fault.meant) for fault in built.unknown_references]


def test_a_whole_tag_with_a_dot_wins_over_a_tag_with_a_port() -> None:
    devices = "devices: {SP1: {kind: splitter, ways: 2}, SP1.out-2: {kind: outlet}, TV: {kind: outlet}}\n"
    built = network(devices + "cables: {C-1: {from: TV, to: SP1.out-2, type: series 6}}\n")
    (end,) = (end for end in built.cables["C-1"].ends if end.written == "SP1.out-2")
    assert end.device is not None
    assert end.device.tag == "SP1.out-2"
    assert noted(built) == []


def test_the_last_dot_parts_the_port_from_a_tag_with_dots() -> None:
    devices = "devices: {flat.2: {kind: splitter, ways: 2}, TV: {kind: outlet}}\n"
    link = network(devices + "cables: {C-1: {from: flat.2.out-2, to: TV, type: series 6}}\n").cables["C-1"]
    assert link.near.device is not None
    assert link.near.port is not None
    assert (link.near.device.tag, link.near.port.name) == ("flat.2", "out-2")


def test_a_port_that_is_not_there_keeps_its_device() -> None:
    devices = "devices: {SP1: {kind: splitter, ways: 2}, TV: {kind: outlet}}\n"
    built = network(devices + "cables: {C-1: {from: SP1.out-3, to: TV, type: series 6}}\n")
    assert noted(built) == [("cables.C-1.from", "SP1.out-3", "SP1.out-1")]
    assert built.cables["C-1"].near.device is not None


@pytest.mark.parametrize(
    ("body", "expected"),
    [
        ("buildings: {house: {entry: wal}}\nplaces: {wall: {}}\n", ("buildings.house.entry", "wal", "wall")),
        (
            "buildings: {house: {entry: [wall, gabel]}}\nplaces: {wall: {}, gable: {}}\n",
            ("buildings.house.entry.1", "gabel", "gable"),
        ),
        ("buildings: {house: {}}\nplaces: {hall: {building: hose}}\n", ("places.hall.building", "hose", "house")),
        ("services: {tv: {kind: terrestrial TV, from: ANT}}\n", ("services.tv.from", "ANT", None)),
        ("devices: {TV: {kind: outlet, place: hall}}\n", ("devices.TV.place", "hall", None)),
        ("devices: {TV: {kind: outlet, serves: [tv]}}\n", ("devices.TV.serves.0", "tv", None)),
        ("devices: {T1: {kind: terminator, on: SP1}}\n", ("devices.T1.on", "SP1", None)),
        ("devices: {SP1: {kind: splitter, ways: 5}}\n", ("devices.SP1.ways", "5", None)),
        (
            "places: {wall: {}}\n"
            "bonding: {IBT: {kind: intersystem bonding termination, place: wall, electrode: GES}}\n",
            ("bonding.IBT.electrode", "GES", None),
        ),
        (
            "places: {wall: {}}\nbonding: {GES: {kind: grounding electrode system, place: wal}}\n",
            ("bonding.GES.place", "wal", "wall"),
        ),
    ],
)
def test_what_names_nothing_is_noted_where_it_is_written(body: str, expected: tuple[str, str, str | None]) -> None:
    assert noted(network(body)) == [expected]


def test_the_service_is_an_electrode_that_needs_no_tag() -> None:
    body = "places: {wall: {}}\n"
    body += "bonding: {IBT: {kind: intersystem bonding termination, place: wall, electrode: service}}\n"
    assert noted(network(body)) == []


def test_a_mast_is_a_thing_to_bond_only_where_there_is_one() -> None:
    devices = "devices: {A-1: {kind: antenna, mast: {}}, A-2: {kind: antenna}}\n"
    bonds = "bonding:\n  B-1: {from: A-1.mast, to: A-2.mast, conductor: 10 AWG copper}\n"
    assert noted(network(devices + bonds)) == [("bonding.B-1.to", "A-2.mast", "A-1.mast")]


@pytest.mark.parametrize(
    ("tag", "known", "nearest"),
    [
        ("KITCHN", ["KITCHEN", "BED"], "KITCHEN"),
        ("kitchen", ["KITCHENS", "KITCHEN"], "KITCHEN"),
        ("C-1O", ["C-10", "C-11"], "C-10"),
        ("loft", ["closet", "den"], None),
        ("A-3", ["A-10", "A-2", "A-1"], "A-1"),
        ("x", [], None),
        ("flat-03/hal", ["flat-02/hall", "flat-03/hall", "hal"], "flat-03/hall"),
        ("flat-03/XX", ["flat-03/SP", "flat-03/TV", "XX"], None),
        ("flat-3/SP", ["flat-02/SP", "flat-03/SP"], "flat-03/SP"),
    ],
)
def test_nearest_tag(tag: str, known: list[str], nearest: str | None) -> None:
    assert nearest_tag(tag, known) == nearest
    assert nearest_tag(tag, known[::-1]) == nearest


def test_tags_are_ordered_as_people_count() -> None:
    tags = ["C-10", "C-9", "c-9", "C-09", "A", "10", "9", "C-9a"]
    assert sorted(tags, key=tag_order) == ["9", "10", "A", "C-09", "C-9", "c-9", "C-9a", "C-10"]
