"""Raceways with their contents, what runs beside a cable, ties between buildings, routes of bonds."""

from coaxwright.design import understand
from coaxwright.network import Network, build_network
from coaxwright.source import read_text

SITE = """\
coaxwright: 1
title: x (invented)
basis: {rulesets: [trade 1]}
buildings:
  house:  {entry: wall}
  studio: {entry: studio wall, tied to: [shed]}
  shed:   {lightning system: {electrode: L-1}}
places:
  wall:        {building: house, exposure: outdoors, beside: lightning conductor at 2 m}
  studio wall: {building: studio, exposure: outdoors}
  cellar:      {building: house}
  shed floor:  {building: shed}
devices:
  GB: {kind: ground block, place: wall}
  SP: {kind: splitter, ways: 2, place: cellar, ports: {out-1: {impedance: 50 ohm}, out-9: {}}}
raceways:
  RW-1: {kind: electrical metallic tubing, places: [wall, celler], holds: [power cable, {what: motor, by: raceway}]}
  RW-2: {kind: inner duct, state: abandoned}
cables:
  C-1:
    from: GB
    to: SP
    type: series 6
    route:
      - wall: {length: 3 ft, in: RW-1}
      - cellar: {length: 12 ft, beside: [power cable at 12 in, {what: dimmer, at: 1 ft, crossing: true}], in: RW-7}
bonding:
  IBT: {kind: intersystem bonding termination, place: wall, electrode: service}
  GES: {kind: grounding electrode system, place: wall}
  S-GES: {kind: grounding electrode system, place: studio wall}
  L-1: {kind: lightning electrode system, place: shed floor}
  B-1: {from: GB, to: IBT, conductor: 10 AWG copper, route: [wall: 3 ft, cellar: {length: 2 ft}]}
  B-2: {from: GES, to: S-GES, conductor: 6 AWG copper}
records: {R-1: {by: the installer, on: 2026-05-31}}
"""


def network(text: str = SITE) -> Network:
    return build_network(understand(read_text(text, "x")))


def test_a_raceway_knows_what_it_holds() -> None:
    site = network()
    ((link, segment),) = site.contents("RW-1")
    assert (link.tag, segment.tag) == ("C-1", "wall")
    assert site.contents("RW-2") == ()
    raceway = site.raceways["RW-1"]
    assert (raceway.is_metal, raceway.in_use, site.raceways["RW-2"].in_use) == (True, True, False)
    assert [(held.what, held.wiring) for held in raceway.holds] == [("power cable", None), ("motor", "raceway")]


def test_a_stretch_has_its_own_neighbors_those_of_its_place_and_those_of_its_raceway() -> None:
    wall, cellar = network().cables["C-1"].segments
    assert [held.what for held in wall.neighbors] == ["lightning conductor", "power cable", "motor"]
    assert wall.neighbors[0].path == ("places", "wall", "beside")
    power, dimmer = cellar.neighbors
    assert power.distance is not None
    assert round(power.distance.length_m, 4) == 0.3048
    assert (dimmer.what, dimmer.only_crosses, dimmer.path[-2:]) == ("dimmer", True, ("beside", 1))


def test_tags_in_the_new_places_are_looked_up() -> None:
    unknown = {fault.path: (fault.written, fault.meant) for fault in network().unknown_references}
    assert unknown == {
        ("raceways", "RW-1", "places", 1): ("celler", "cellar"),
        ("cables", "C-1", "route", 1, "cellar", "in"): ("RW-7", "RW-1"),
        ("devices", "SP", "ports", "out-9"): ("out-9", "out-1"),
    }


def test_what_a_design_says_of_a_port_takes_the_place_of_the_catalogue() -> None:
    ports = {port.name: port.impedance_ohm for port in network().devices["SP"].ports}
    assert ports == {"in": 75, "out-1": 50, "out-2": 75}


def test_buildings_are_joined_by_conductors_and_by_what_they_say() -> None:
    site = network()
    assert site.joined_buildings["house"] == {"house", "studio", "shed"}
    assert site.are_joined("house", "shed")
    apart = network(SITE.replace("tied to: [shed]", "note: x"))
    assert not apart.are_joined("house", "shed")
    assert apart.are_joined("house", "studio")
    assert apart.are_joined("shed", "shed")


def test_a_conductor_is_as_long_as_its_route() -> None:
    bonds = network().bonds
    assert str(bonds["B-1"].length) == "5 ft"
    assert bonds["B-2"].length is None
