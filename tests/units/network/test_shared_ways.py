"""Ways that several services share, ways between stations, and what passes a device on the way to an outlet."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from coaxwright.design import Design
from coaxwright.network import Network, Unknown, build_network
from coaxwright.network.service_overlap import overlaps
from coaxwright.network.stations import always, from_station_to_station, spread, unless_stopped


def network(devices: dict[str, object], cables: dict[str, tuple[str, str]], services: dict[str, object]) -> Network:
    runs = {
        tag: {"from": one, "to": other, "type": "series 6", "length": "9 m"} for tag, (one, other) in cables.items()
    }
    data = {"coaxwright": 1, "title": "x", "basis": {"rulesets": ["trade 1"]}}
    return build_network(Design.model_validate({**data, "devices": devices, "cables": runs, "services": services}))


AERIALS: dict[str, object] = {
    "A": {"kind": "antenna"},
    "B": {"kind": "antenna"},
    "S": {"kind": "splitter", "ways": 2},
    "X": {"kind": "outlet", "serves": ["one", "other"]},
}
JOINED = {"C-1": ("A.out", "S.out-1"), "C-2": ("B.out", "S.out-2"), "C-3": ("S.in", "X")}
EDGES = st.lists(st.integers(5, 1000), min_size=2, max_size=2, unique=True).map(sorted)


@given(EDGES, EDGES)
def test_the_overlap_on_a_plain_coax_is_what_two_bands_have_in_common(one: list[int], other: list[int]) -> None:
    services = {
        name: {"kind": "terrestrial TV", "from": start, "down": {"band": f"{low} MHz to {high} MHz"}}
        for name, start, (low, high) in (("one", "A", one), ("other", "B", other))
    }
    site = network(AERIALS, JOINED, services)
    (pair,) = site.traffic.pairs
    found = overlaps(site, pair)
    assert not isinstance(found, Unknown)
    low, high = max(one[0], other[0]), min(one[1], other[1])
    expected = [(low * 1e6, high * 1e6, "C-3")] if low < high else []
    assert [(overlap.low_hz, overlap.high_hz, overlap.cable.tag) for overlap in found] == expected


def test_services_on_coax_of_their_own_are_no_pair() -> None:
    services = {name: {"kind": "terrestrial TV", "from": start} for name, start in (("one", "A"), ("other", "B"))}
    apart = {"C-1": ("A", "X")}
    assert network(AERIALS, apart, services).traffic.pairs == ()


DATA: dict[str, object] = {"data": {"kind": "in-home data", "from": "A"}}
HOUSE: dict[str, object] = {
    "D": {"kind": "coax drop"},
    "F": {"kind": "filter", "variant": "point-of-entry"},
    "S": {"kind": "splitter", "ways": 3},
    "A": {"kind": "in-home data adapter"},
    "B": {"kind": "in-home data adapter", "serves": ["data"]},
    "X": {"kind": "outlet"},
    "R": {"kind": "in-home data adapter", "state": "reserve"},
}
RUNS = {"C-1": ("D", "F"), "C-2": ("F", "S.in"), "C-3": ("S", "A"), "C-4": ("S", "B"), "C-5": ("S", "X")}


def reached(site: Network, passes: object) -> set[str]:
    node = site.devices["A"]
    return {hop.device.tag for hop in spread(site.graph, node, node.ports[0], passes)}  # type: ignore[arg-type]


def test_stations_are_those_that_name_the_service_and_where_it_begins() -> None:
    site = network(HOUSE, RUNS, DATA)
    assert [node.tag for node in site.traffic.stations("data")] == ["A", "B"]


def test_how_far_in_home_data_goes() -> None:
    site = network(HOUSE, RUNS, DATA)
    assert reached(site, always) == {"A", "S", "F", "D", "B", "X"}
    assert reached(site, unless_stopped((1125e6, 1675e6))) == {"A", "S", "F"}
    assert reached(site, from_station_to_station(1675e6)) == {"A", "S", "F", "B", "X"}


def test_the_way_of_a_hop_goes_from_the_station_on() -> None:
    site = network(HOUSE, RUNS, DATA)
    node = site.devices["A"]
    hops = spread(site.graph, node, node.ports[0], from_station_to_station(1675e6))
    hop = next(hop for hop in hops if hop.device.tag == "B")
    assert [f"{step.device.tag}.{step.port.name}" for step in hop.way] == ["A.in", "S.out-1", "S.out-2", "B.in"]
    assert [step.is_through for step in hop.way] == [False, False, True, False]


def test_a_passage_tells_the_ports_what_is_behind_them_and_what_is_lost() -> None:
    site = network(
        {"D": {"kind": "coax drop"}, "T": {"kind": "tap", "outputs": 1, "value": "12 dB"},
         "X": {"kind": "outlet", "serves": ["net"]}, "Y": {"kind": "outlet", "serves": ["net"]}},
        {"C-1": ("D", "T.in"), "C-2": ("T.tap", "X"), "C-3": ("T.out", "Y")},
        {"net": {"kind": "cable broadband", "from": "D", "down": {"band": "54 MHz to 1218 MHz"}}},
    )  # fmt: skip
    (passage,) = site.passages("net")
    assert passage.device.tag == "T"
    legs = {leg.other.name: ([node.tag for node in leg.wanted], leg.missed_hz) for leg in passage.legs}
    assert legs == {"tap": (["X"], ()), "out": (["Y"], (1218e6,))}


def test_passages_of_in_home_data_lie_between_its_stations() -> None:
    site = network(HOUSE, RUNS, DATA)
    (passage,) = site.passages("data")
    (leg,) = passage.legs
    assert (passage.device.tag, leg.one.name, leg.other.name) == ("S", "out-1", "out-2")
    assert [node.tag for node in leg.wanted] == ["B"]
