"""Which way cables run and which ports they take: decided by the parts, never by the order or the way of writing."""

from __future__ import annotations

from dataclasses import dataclass

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from coaxwright.design import understand
from coaxwright.network import Network, build_network
from coaxwright.source import read_text

HEAD = "coaxwright: 1\ntitle: Bench (invented)\nbasis: {rulesets: [trade 1]}\n"


def network(devices: list[str], cables: list[str]) -> Network:
    text = HEAD + "devices:\n" + "".join(f"  {line}\n" for line in devices)
    text += "cables:\n" + "".join(f"  {line}\n" for line in cables) if cables else ""
    return build_network(understand(read_text(text, "bench.coax.yaml")))


def way(built: Network, cable: str) -> str:
    """The cable in the direction of the signal with its ports: ``SP1.out-1 > TV.in``."""
    link = built.cables[cable]
    ends = []
    for end in link.ends:
        assert end.device is not None
        ends.append(f"{end.device.tag}.{end.port.name if end.port is not None else '?'}")
    return " > ".join(ends)


SPLITTER = ["DROP: {kind: coax drop}", "SP1: {kind: splitter, ways: 2}", "TV: {kind: outlet}", "PC: {kind: outlet}"]


@pytest.mark.parametrize(("start", "end"), [("DROP", "SP1"), ("SP1", "DROP")])
def test_a_source_sends_whichever_end_is_written_first(start: str, end: str) -> None:
    built = network(SPLITTER, [f"C-1: {{from: {start}, to: {end}, type: series 6}}"])
    assert way(built, "C-1") == "DROP.out > SP1.in"


def test_an_outlet_receives_and_ports_go_by_cable_tag() -> None:
    cables = ["C-10: {from: PC, to: SP1, type: series 6}", "C-9: {from: TV, to: SP1, type: series 6}"]
    built = network(SPLITTER, cables)
    assert way(built, "C-9") == "SP1.out-1 > TV.in"
    assert way(built, "C-10") == "SP1.out-2 > PC.in"


def test_a_named_port_is_left_to_the_cable_that_names_it() -> None:
    cables = ["C-1: {from: SP1, to: TV, type: series 6}", "C-2: {from: SP1.out-1, to: PC, type: series 6}"]
    built = network(SPLITTER, cables)
    assert way(built, "C-1") == "SP1.out-2 > TV.in"
    assert way(built, "C-2") == "SP1.out-1 > PC.in"


def test_a_named_port_turns_the_cable() -> None:
    devices = ["SP1: {kind: splitter, ways: 2}", "SP2: {kind: splitter, ways: 2}"]
    built = network(devices, ["C-1: {from: SP2.in, to: SP1, type: series 6}"])
    assert way(built, "C-1") == "SP1.out-1 > SP2.in"


def test_the_rest_of_a_device_follows_from_what_is_known() -> None:
    """The first splitter's input is taken, so what joins the two splitters leaves it, as does the ground block's."""
    devices = [
        "DROP: {kind: coax drop}",
        "GB: {kind: ground block}",
        *(f"SP{n}: {{kind: splitter, ways: 2}}" for n in (1, 2)),
    ]
    cables = [
        "C-1: {from: GB, to: DROP, type: series 6}",
        "C-2: {from: SP1, to: GB, type: series 6}",
        "C-3: {from: SP2, to: SP1, type: series 6}",
    ]
    built = network(devices, cables)
    assert way(built, "C-1").startswith("DROP.out > GB.")
    assert way(built, "C-2").endswith(" > SP1.in")
    assert way(built, "C-3") == "SP1.out-1 > SP2.in"


def test_where_the_parts_leave_it_open_it_runs_as_written() -> None:
    built = network(
        ["G-1: {kind: ground block}", "G-2: {kind: ground block}"], ["C-1: {from: G-2, to: G-1, type: series 6}"]
    )
    assert way(built, "C-1") == "G-2.in > G-1.in"


def test_a_route_is_turned_with_its_cable() -> None:
    text = HEAD + "places: {den: {}, hall: {}}\ndevices: {SP1: {kind: splitter, ways: 2}, TV: {kind: outlet}}\n"
    text += "cables: {C-1: {from: TV, to: SP1, type: series 6, route: [den: 4 ft, hall: 9 ft]}}\n"
    built = build_network(understand(read_text(text, "bench.coax.yaml")))
    assert [segment.tag for segment in built.cables["C-1"].segments] == ["hall", "den"]


def test_unlike_ports_are_undecided_until_only_alike_ones_are_left() -> None:
    devices = ["SP1: {kind: splitter, ways: 3, variant: unbalanced}", "TV: {kind: outlet}", "PC: {kind: outlet}"]
    open_question = network(devices, ["C-1: {from: SP1, to: TV, type: series 6}"])
    (undecided,) = open_question.undecided_ports
    assert undecided.choices == ("low-loss", "out-1", "out-2")
    assert open_question.cables["C-1"].near.port is None
    settled = network(
        devices, ["C-1: {from: SP1, to: TV, type: series 6}", "C-2: {from: SP1.low-loss, to: PC, type: series 6}"]
    )
    assert settled.undecided_ports == ()
    assert way(settled, "C-1") == "SP1.out-1 > TV.in"


def test_too_many_cables_leave_the_last_tag_without_a_port() -> None:
    devices = [*SPLITTER, "DVR: {kind: receiver}"]
    cables = [f"C-{n}: {{from: SP1, to: {tag}, type: series 6}}" for n, tag in ((3, "TV"), (20, "PC"), (1, "DVR"))]
    (conflict,) = network(devices, cables).port_conflicts
    assert conflict.device == "SP1"
    assert conflict.tenants == ("C-1", "C-3", "C-20")
    assert conflict.paths == (("cables", "C-20", "from"),)
    assert conflict.free == ()


def test_a_terminator_takes_what_the_cables_leave_and_an_abandoned_cable_takes_nothing() -> None:
    devices = [*SPLITTER, "T1: {kind: terminator, on: SP1}"]
    old = "C-1: {from: SP1, to: PC, type: series 6, state: abandoned}"
    new = "C-2: {from: SP1, to: TV, type: series 6}"
    assert network(devices, [old, new]).port_conflicts == ()
    (conflict,) = network(devices, [old.replace("abandoned", "reserve"), new]).port_conflicts
    assert conflict.tenants == ("C-1", "C-2", "T1")


def test_a_named_port_that_is_taken_tells_which_alike_ones_are_free() -> None:
    cables = ["C-1: {from: SP1.out-2, to: TV, type: series 6}", "C-2: {from: SP1.out-2, to: PC, type: series 6}"]
    (conflict,) = network(SPLITTER, cables).port_conflicts
    assert (conflict.ports, conflict.free) == (("out-2",), ("out-1",))


@dataclass(frozen=True)
class Tree:
    """A drop, splitters one behind another, and outlets on what outputs are left."""

    devices: tuple[str, ...]
    cables: tuple[tuple[str, str, str], ...]
    """Tag, source's side, other side."""


@st.composite
def trees(draw: st.DrawFn) -> Tree:
    devices, cables, source = ["DROP: {kind: coax drop}"], [], "DROP"
    tags = draw(st.permutations(range(1, 30)))
    for number, ways in enumerate(draw(st.lists(st.sampled_from([2, 3, 4]), min_size=1, max_size=3)), start=1):
        devices.append(f"SP{number}: {{kind: splitter, ways: {ways}}}")
        cables.append((f"C-{tags[len(cables)]}", source, f"SP{number}"))
        source = f"SP{number}"
        for outlet in range(draw(st.integers(0, ways - 1))):
            devices.append(f"O-{number}{outlet}: {{kind: outlet}}")
            cables.append((f"C-{tags[len(cables)]}", source, f"O-{number}{outlet}"))
    return Tree(tuple(devices), tuple(cables))


@settings(max_examples=60, deadline=None)
@given(trees(), st.data())
def test_neither_the_order_of_the_file_nor_the_way_of_writing_shows(tree: Tree, data: st.DataObject) -> None:
    def written(cable: tuple[str, str, str], turned: bool) -> str:
        tag, first, second = cable if not turned else (cable[0], cable[2], cable[1])
        return f"{tag}: {{from: {first}, to: {second}, type: series 6}}"

    plain = network(list(tree.devices), [written(cable, False) for cable in tree.cables])
    turned = data.draw(st.lists(st.booleans(), min_size=len(tree.cables), max_size=len(tree.cables)))
    mixed = [written(cable, turn) for cable, turn in zip(tree.cables, turned, strict=True)]
    other = network(data.draw(st.permutations(tree.devices)), data.draw(st.permutations(mixed)))
    for tag, near, far in tree.cables:
        assert way(plain, tag) == way(other, tag)
        assert way(plain, tag).split(" > ")[0].startswith(f"{near}.")
        assert way(plain, tag).split(" > ")[1].startswith(f"{far}.")
    assert plain.port_conflicts == other.port_conflicts == ()
