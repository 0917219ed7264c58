"""What is told of a network as a whole: what hangs together, loops, what is fed backwards, rows of splitters."""

from __future__ import annotations

from coaxwright.design import understand
from coaxwright.network import Network, build_network
from coaxwright.source import read_text

HEAD = "coaxwright: 1\ntitle: Bench (invented)\nbasis: {rulesets: [trade 1]}\n"


def network(text: str) -> Network:
    return build_network(understand(read_text(HEAD + text, "x")))


RING = """\
services:
  net: {{kind: cable broadband, from: DROP, down: {{band: 54 to 1002 MHz}}, up: {{band: 5 to 42 MHz}}}}
devices:
  DROP: {{kind: coax drop}}
  SP1:  {{kind: splitter, ways: 2}}
  SP2:  {{kind: splitter, ways: 2}}
  TV:   {{kind: outlet}}
cables:
  C-1: {{from: DROP, to: SP1, type: series 6, length: 2 m}}
  C-2: {{from: SP1.out-1, to: SP2.{first}, type: series 6, length: 2 m}}
  C-3: {{from: SP1.out-2, to: SP2.{second}, type: series 6, length: 2 m}}
  C-4: {{from: SP2.{third}, to: TV, type: series 6, length: 2 m}}
"""


def test_devices_hang_together_over_cables_in_use() -> None:
    site = network("""\
devices:
  A: {kind: splitter, ways: 2}
  B: {kind: outlet}
  C: {kind: outlet}
  T: {kind: terminator, on: A.out-2}
cables:
  K-1: {from: A, to: B, type: series 6, length: 2 m}
  K-2: {from: A, to: C, type: series 6, length: 2 m, state: abandoned}
""")
    assert site.survey.joined_with("B").devices == {"A", "B", "T"}
    assert site.survey.joined_with("B").in_order == ("A", "B", "T")
    assert site.survey.joined_with("C").devices == {"C"}


def test_the_way_between_two_devices_is_the_shortest_and_the_first_in_tag_order() -> None:
    site = network("""\
devices:
  S-1:  {kind: splitter, ways: 4}
  S-2:  {kind: splitter, ways: 4}
  S-10: {kind: splitter, ways: 4}
  TV:   {kind: outlet}
cables:
  K-1: {from: S-1.out-1, to: S-10.in, type: series 6, length: 2 m}
  K-2: {from: S-1.out-2, to: S-2.in, type: series 6, length: 2 m}
  K-3: {from: S-10.out-1, to: TV, type: series 6, length: 2 m}
  K-4: {from: S-2.out-1, to: TV, type: series 6, length: 2 m}
""")
    assert site.survey.way("S-1", "TV") == ("S-1", "S-2", "TV")
    assert site.survey.way("TV", "S-1") == ("TV", "S-2", "S-1")
    assert site.survey.way("TV", "TV") == ("TV",)


def test_a_ring_is_one_loop_however_many_services_and_directions_run_in_it() -> None:
    site = network(RING.format(first="out-1", second="out-2", third="in"))
    loops = [loop for tag in site.cables if (loop := site.survey.loop_closed_by(tag)) is not None]
    (loop,) = loops
    assert loop.closing.tag == "C-3"
    assert set(loop.around) == {"C-2", "C-3"}
    assert loop.hertz == (54e6, 1002e6)
    assert not loop.comes_round
    assert loop.unknown is None


def test_a_ring_that_comes_back_to_the_same_splitter_is_a_loop_as_well() -> None:
    """C-2 leads into the second splitter, and C-3 back out of it to the first."""
    site = network(RING.format(first="in", second="out-1", third="out-2"))
    (loop,) = [loop for tag in site.cables if (loop := site.survey.loop_closed_by(tag)) is not None]
    assert set(loop.around) == {"C-2", "C-3"}


def test_without_frequencies_a_loop_is_not_known_to_be_one() -> None:
    text = RING.format(first="out-1", second="out-2", third="in")
    bare = text.replace(", down: {band: 54 to 1002 MHz}, up: {band: 5 to 42 MHz}", "")
    loop = network(bare).survey.loop_closed_by("C-3")
    assert loop is not None
    assert loop.unknown is not None
    assert loop.unknown.root == ("services", "net", "down")


def test_a_certain_loop_stands_before_one_of_a_service_without_frequencies() -> None:
    text = RING.format(first="out-1", second="out-2", third="in")
    both = text.replace("services:\n", "services:\n  a: {kind: cable broadband, from: DROP}\n")
    loop = network(both).survey.loop_closed_by("C-3")
    assert loop is not None
    assert loop.service == "net"


def test_a_splitter_fed_at_an_output_leaves_the_others_empty() -> None:
    site = network("""\
services:
  net: {kind: cable broadband, from: DROP, down: {band: 54 to 1002 MHz}}
devices:
  DROP: {kind: coax drop}
  SP:   {kind: splitter, ways: 3}
  A:    {kind: outlet, serves: [net]}
  B:    {kind: outlet}
  C:    {kind: outlet, serves: [net], state: reserve}
cables:
  C-1: {from: DROP, to: SP.out-1, type: series 6, length: 2 m}
  C-2: {from: SP.out-2, to: A, type: series 6, length: 2 m}
  C-3: {from: SP.out-3, to: C, type: series 6, length: 2 m}
  C-4: {from: SP.in, to: B, type: series 6, length: 2 m}
""")
    found = site.survey.backward("SP")
    assert found is not None
    assert (found.port.name, found.right.name, found.cable.tag, found.left_out) == ("out-1", "in", "C-1", ("A",))


def test_an_in_home_data_service_runs_from_output_to_output() -> None:
    site = network("""\
services:
  data: {kind: in-home data, from: A, down: {band: 1125 to 1675 MHz}}
devices:
  SP: {kind: splitter, ways: 2}
  A:  {kind: in-home data adapter}
  B:  {kind: in-home data adapter, serves: [data]}
cables:
  C-1: {from: A, to: SP.out-1, type: series 6, length: 2 m}
  C-2: {from: SP.out-2, to: B, type: series 6, length: 2 m}
""")
    assert site.survey.backward("SP") is None


def test_splitters_in_a_row_and_what_each_feeds_itself() -> None:
    site = network("""\
services:
  net: {kind: cable broadband, from: DROP}
devices:
  DROP: {kind: coax drop}
  SP1:  {kind: splitter, ways: 2}
  AMP:  {kind: drop amplifier, outputs: 1, variant: return path}
  SP2:  {kind: splitter, ways: 2}
  SP3:  {kind: splitter, ways: 2}
  A:    {kind: outlet}
  B:    {kind: outlet}
  C:    {kind: outlet}
cables:
  C-1: {from: DROP, to: SP1, type: series 6, length: 2 m}
  C-2: {from: SP1, to: A, type: series 6, length: 2 m}
  C-3: {from: SP1, to: AMP, type: series 6, length: 2 m}
  C-4: {from: AMP, to: SP2, type: series 6, length: 2 m}
  C-5: {from: SP2, to: B, type: series 6, length: 2 m}
  C-6: {from: SP2, to: SP3, type: series 6, length: 2 m}
  C-7: {from: SP3, to: C, type: series 6, length: 2 m}
""")
    splits = {tag: site.survey.split(tag) for tag in ("SP1", "SP2", "SP3", "AMP")}
    assert splits["AMP"] is None
    told = {
        tag: (
            [one.tag for one in split.ahead],
            [one.tag for one in split.unamplified],
            [(link.tag, one.tag) for link, one in split.feeds],
        )
        for tag, split in splits.items()
        if split is not None
    }
    assert told == {
        "SP1": ([], [], [("C-2", "A")]),
        "SP2": (["SP1"], [], [("C-5", "B")]),
        "SP3": (["SP1", "SP2"], ["SP2"], [("C-7", "C")]),
    }


def test_things_tagged_alike_whatever_their_section() -> None:
    site = network("""\
devices: {G-1: {kind: outlet}, g-1: {kind: outlet}}
cables: {G-1: {from: G-1, to: g-1, type: series 6, length: 2 m}}
""")
    assert site.survey.namesakes("cables", "G-1") == (("devices", "G-1"), ("devices", "g-1"), ("cables", "G-1"))
