"""Where coax passes a building's envelope, what it comes from, and what stands there to protect it."""

from __future__ import annotations

import pytest

from coaxwright.design import understand
from coaxwright.network import DeviceNode, Network, Unknown, build_network, length_inside
from coaxwright.rules.phrase_book import cause_text
from coaxwright.source import read_text

HEAD = """\
coaxwright: 1
title: Bench (invented)
basis: {rulesets: [trade 1]}
buildings: {house: {entry: wall}, barn: {entry: gable}}
places:
  wall:  {exposure: outdoors}
  roof:  {building: house, exposure: rooftop}
  gable: {exposure: outdoors}
  yard:  {exposure: buried}
  attic: {building: house, exposure: attic}
  hall:  {building: house}
  loft:  {building: barn}
devices:
  DROP: {kind: coax drop, place: wall}
  ANT:  {kind: antenna, place: roof}
  A-2:  {kind: antenna, place: attic}
  A-3:  {kind: antenna}
  SP1:  {kind: splitter, ways: 4, place: hall}
  SP2:  {kind: splitter, ways: 4, place: wall}
  GBW:  {kind: ground block, place: wall}
  GW2:  {kind: ground block, place: wall}
  CAM:  {kind: camera, place: wall}
  MIX:  {kind: combiner, variant: UHF/VHF, place: wall}
  GBH:  {kind: ground block, place: hall}
  GBG:  {kind: ground block, place: gable}
  GBX:  {kind: ground block, place: hall, state: abandoned}
  TV:   {kind: outlet, place: hall}
  BARN: {kind: outlet, place: loft}
cables:
"""


def network(*cables: str) -> Network:
    lines = "".join(f"  C-{number}: {{{cable}, type: series 6}}\n" for number, cable in enumerate(cables, start=1))
    return build_network(understand(read_text(HEAD + lines, "bench.coax.yaml")))


def entries(built: Network) -> list[tuple[str, str, str, str | None]]:
    return [(entry.cable.tag, entry.building, entry.line, entry.source) for entry in built.entries]


def protector(built: Network) -> str | None:
    (entry,) = built.entries
    found = built.protector_at(entry)
    return found.tag if isinstance(found, DeviceNode) else cause_text(found) if isinstance(found, Unknown) else None


@pytest.mark.parametrize(
    "cable",
    [
        "from: GBW, to: BARN, route: [wall: 1 m, hall: 3 m, loft: 3 m]",
        "from: BARN, to: GBW, route: [loft: 3 m, hall: 3 m, wall: 1 m]",
    ],
)
def test_a_building_is_entered_from_outdoors_before_it_is_from_next_door(cable: str) -> None:
    """Wall to wall, whichever way round the cable is drawn."""
    built = network(cable)
    outside = {entry.building: entry.outside.tag for entry in built.entries if entry.outside is not None}
    assert outside == {"house": "wall", "barn": "hall"}


@pytest.mark.parametrize(
    ("cable", "expected"),
    [
        ("from: DROP, to: TV, length: 9 m", [("C-1", "house", "coax drop", "DROP")]),
        ("from: ANT, to: TV, length: 9 m", [("C-1", "house", "antenna", "ANT")]),
        (
            "from: SP1, to: BARN, route: [wall: 1 m, yard: 9 m]",
            [
                ("C-1", "barn", "inter-building", "house"),
                ("C-1", "house", "inter-building", "barn"),
            ],
        ),
        ("from: SP1, to: TV, route: [hall: 1 m, wall: 9 m, hall: 1 m]", [("C-1", "house", "outdoors", None)]),
        ("from: GBW, to: TV, route: [wall: 1 m, hall: 9 m]", [("C-1", "house", "outdoors", None)]),
        ("from: A-2, to: TV, route: [attic: 4 m, hall: 3 m]", []),
        ("from: SP1, to: TV, length: 9 m", []),
        ("from: DROP, to: GBW, route: [wall: 3 m]", []),
        ("from: A-3, to: TV, length: 9 m", [("C-1", "house", "antenna", "A-3")]),
        ("from: A-3, to: GBW, length: 9 m", []),
        ("from: DROP, to: TV, length: 9 m, state: abandoned", []),
    ],
)
def test_entries_of_a_cable(cable: str, expected: list[tuple[str, str, str, str | None]]) -> None:
    assert entries(network(cable)) == expected


@pytest.mark.parametrize(
    ("cables", "expected"),
    [
        (["from: DROP, to: TV, length: 9 m"], None),
        (["from: DROP, to: GBW, length: 1 m", "from: GBW, to: TV, length: 9 m"], "GBW"),
        (["from: DROP, to: GBH, length: 1 m", "from: GBH, to: TV, length: 9 m"], "GBH"),
        (["from: DROP, to: GBX, length: 1 m"], None),
        (["from: DROP, to: SP1, length: 1 m", "from: SP1, to: GBH, length: 1 m"], None),
        (
            ["from: DROP, to: GBW, length: 1 m", "from: GBW, to: SP2, length: 1 m", "from: SP2, to: TV, length: 9 m"],
            "GBW",
        ),
        (["from: DROP, to: GBG, length: 9 m", "from: GBG, to: TV, length: 9 m"], None),
        (["from: ELSE, to: TV, route: [wall: 1 m]"], "'ELSE' names no device"),
        (["from: DROP, to: ELSE, route: [wall: 1 m, hall: 1 m]"], "'ELSE' names no device"),
        (["from: A-3, to: TV, length: 9 m"], "A-3 has no place"),
        (["from: A-3, to: GBH, length: 9 m"], "GBH"),
        # A ground block in another branch of a splitter on the wall protects that branch alone.
        (
            ["from: DROP, to: SP2, length: 1 m", "from: SP2, to: TV, length: 9 m", "from: SP2, to: GBW, length: 1 m"],
            None,
        ),
        # Out of the house with the signal: every branch on the wall has its own, or the entry has none.
        (
            ["from: SP1, to: SP2, length: 1 m", "from: SP2, to: GBW, length: 1 m", "from: SP2, to: CAM, length: 1 m"],
            None,
        ),
        (
            ["from: SP1, to: SP2, length: 1 m", "from: SP2, to: GBW, length: 1 m", "from: SP2, to: GW2, length: 1 m"],
            "GBW",
        ),
        (
            ["from: SP1, to: SP2, length: 1 m", "from: SP2, to: GBW, length: 1 m", "from: SP2, to: ELSE, length: 1 m"],
            "'ELSE' names no device",
        ),
        # Two antennas meet on the wall: one way against the signal will do.
        (
            ["from: ANT, to: GBW, length: 9 m", "from: GBW, to: MIX, length: 1 m", "from: MIX, to: TV, length: 1 m"],
            "GBW",
        ),
    ],
)
def test_protector_of_an_entry(cables: list[str], expected: str | None) -> None:
    assert protector(network(*cables)) == expected


def test_an_antenna_beyond_a_ground_block_makes_the_block_an_antennas() -> None:
    built = network(
        "from: ANT, to: GBW, length: 9 m", "from: GBW, to: TV, length: 9 m", "from: DROP, to: GBH, length: 2 m"
    )
    lines = {bondable.reference: bondable.line for bondable in built.bondables}
    assert lines == {"GBG": "outdoors", "GBH": "coax drop", "GBW": "antenna", "GW2": "outdoors"}


@pytest.mark.parametrize(
    ("cable", "expected"),
    [
        ("from: DROP, to: GBH, route: [wall: 5 m, attic: 3 m, hall: 1 m]", "4 m"),
        ("from: GBH, to: DROP, route: [hall: 1 m, attic: 3 m, wall: 5 m]", "4 m"),
        ("from: DROP, to: GBH, route: [wall: 5 m]", "0 m"),
        ("from: DROP, to: GBH, route: [wall: 5 m, hal: 1 m]", "'hal' names no place"),
        ("from: DROP, to: GBH, length: 9 m", "C-1 has no route"),
    ],
)
def test_how_far_a_cable_runs_inside(cable: str, expected: str) -> None:
    entry = network(cable).entries[0]
    length = length_inside(entry)
    assert (cause_text(length) if isinstance(length, Unknown) else length.text) == expected
