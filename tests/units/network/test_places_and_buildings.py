"""Which building a place belongs to, and what a building is used as."""

from __future__ import annotations

import pytest

from coaxwright.design import understand
from coaxwright.design.words import SUN_OR_RAIN
from coaxwright.network import Network, Unknown, build_network
from coaxwright.rules.phrase_book import cause_text
from coaxwright.source import read_text

HEAD = "coaxwright: 1\ntitle: Bench (invented)\n"


def network(body: str, basis: str = "{rulesets: [trade 1]}") -> Network:
    return build_network(understand(read_text(f"{HEAD}basis: {basis}\n{body}", "bench.coax.yaml")))


ONE = "buildings: {house: {}}\n"
ONE_WITH_ENTRY = "buildings: {house: {entry: wall}}\n"
TWO = "buildings: {house: {entry: wall}, barn: {}}\n"


@pytest.mark.parametrize(
    ("buildings", "place", "building"),
    [
        ("", "hall: {}", ""),
        ("", "wall: {exposure: outdoors}", ""),
        ("", "yard: {exposure: buried}", None),
        (ONE, "hall: {}", "house"),
        (ONE, "attic: {exposure: attic}", "house"),
        (ONE, "roof: {exposure: rooftop}", "house"),
        (ONE, "yard: {exposure: buried}", None),
        (ONE_WITH_ENTRY, "wall: {exposure: outdoors}", "house"),
        (ONE_WITH_ENTRY, "wall: {}\n  pole: {exposure: outdoors}", None),
        (TWO, "wall: {exposure: outdoors}", "house"),
        (TWO, "wall: {}\n  hall: {}", ""),
        (TWO, "wall: {}\n  loft: {building: barn}", "barn"),
        (TWO, "wall: {}\n  pole: {exposure: outdoors, building: barn}", "barn"),
        (ONE, "hall: {building: hose}", ""),
        (ONE, "wall: {building: hose, exposure: outdoors}", None),
    ],
)
def test_building_of_a_place(buildings: str, place: str, building: str | None) -> None:
    built = network(f"{buildings}places:\n  {place}\n")
    last = place.rpartition("\n")[2].strip().partition(":")[0]
    assert built.places[last].building == building


@pytest.mark.parametrize(
    ("exposure", "outside"),
    [
        ("indoors", False),
        ("attic", False),
        ("crawl space", False),
        ("plenum", False),
        ("riser", False),
        ("outdoors", True),
        ("rooftop", True),
        ("wet", True),
        ("buried", True),
    ],
)
def test_an_attic_is_inside_and_the_ground_is_not(exposure: str, outside: bool) -> None:
    assert network(f"places: {{x: {{exposure: {exposure}}}}}\n").places["x"].is_outside is outside


def test_occupancy_of_a_building_comes_before_the_basis() -> None:
    built = network(
        "buildings: {house: {occupancy: one-family dwelling}, barn: {}}\n",
        "{rulesets: [trade 1], occupancy: commercial}",
    )
    assert built.occupancy("house") == "one-family dwelling"
    assert built.occupancy("barn") == built.occupancy(None) == built.occupancy("nowhere") == "commercial"


def test_occupancy_that_nobody_states_is_unknown_at_the_basis() -> None:
    assert network("buildings: {barn: {}}\n").occupancy("barn") == Unknown("no occupancy", ("basis", "occupancy"))


PLACES = "places: {hall: {}, roof: {exposure: rooftop}, yard: {exposure: buried}}\n"
PLACES += "devices: {SP1: {kind: splitter, ways: 2, place: hall}, TV: {kind: outlet, place: hall}, X: {kind: outlet}}\n"


@pytest.mark.parametrize(
    ("cable", "exposed"),
    [
        ("{from: SP1, to: TV, type: series 6, route: [hall: 1 m, roof: 2 m, yard: 3 m]}", ["roof"]),
        ("{from: SP1, to: TV, type: series 6, length: 9 m}", []),
        ("{from: SP1, to: X, type: series 6, length: 9 m}", "C-1 has no route"),
        ("{from: SP1, to: Y, type: series 6, length: 9 m}", "'Y' names no device"),
        ("{from: SP1, to: TV, type: series 6, route: [hall: 1 m, rof: 2 m]}", "'rof' names no place"),
    ],
)
def test_exposed_segments(cable: str, exposed: list[str] | str) -> None:
    built = network(f"{PLACES}cables: {{C-1: {cable}}}\n")
    found = built.exposed_segments(built.cables["C-1"], SUN_OR_RAIN)
    if isinstance(found, Unknown):
        assert cause_text(found) == exposed
    else:
        assert [segment.tag for segment in found] == exposed


def test_a_length_alone_between_two_buildings_says_nothing_of_its_way() -> None:
    body = "buildings: {house: {}, barn: {}}\nplaces: {hall: {building: house}, loft: {building: barn}}\n"
    body += "devices: {SP1: {kind: splitter, ways: 2, place: hall}, TV: {kind: outlet, place: loft}}\n"
    built = network(body + "cables: {C-1: {from: SP1, to: TV, type: series 6, length: 40 m}}\n")
    assert isinstance(built.exposed_segments(built.cables["C-1"], SUN_OR_RAIN), Unknown)
