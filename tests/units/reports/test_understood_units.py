"""What is alike in several units is told once; defaults are told once each; what is not used is named."""

from __future__ import annotations

from pathlib import Path

import pytest

from coaxwright.analysis import Analysis
from coaxwright.design import understand, whole
from coaxwright.network import build_network
from coaxwright.reports.excerpt import columns
from coaxwright.reports.network_report import text as text_form
from coaxwright.reports.network_report.parts import NetworkReport, ReadUnit
from coaxwright.reports.network_report.report import network_report
from coaxwright.reports.network_report.units import Units
from coaxwright.reviewing.reading import read_design
from coaxwright.source import Document, read_text

GANNET = Path(__file__).parents[3] / "examples" / "gannet-house" / "corrected.coax.yaml"
WHEATEAR = Path(__file__).parents[3] / "examples" / "wheatear-house" / "corrected.coax.yaml"


def read(text: str | Document) -> NetworkReport:
    document = whole(read_text(text, "row.coax.yaml") if isinstance(text, str) else text)
    network = build_network(understand(document))
    return network_report(document, network, Analysis(network))


def shown(text: str | Document, width: int = 100) -> str:
    return text_form.render(read(text), width)


ROW = """\
coaxwright: 1
title: Dunlin Row 3 (invented)
basis: {rulesets: [trade 1]}
places: {cellar: {}, shed: {exposure: outdoors}}
services: {bb: {kind: cable broadband, from: DROP, down: {band: 54 MHz to 1002 MHz}}}
devices:
  DROP: {kind: coax drop, place: cellar}
  SP0: {kind: splitter, ways: 16, place: cellar}
cables:
  R-1: {from: DROP, to: SP0, type: series 11, route: [cellar: 9 ft]}
typical:
  flat:
    places: {hall: {}, attic: {exposure: attic}}
    devices:
      SP: {kind: splitter, ways: 3, place: hall}
      TV: {kind: outlet, place: hall, serves: [bb]}
      PC: {kind: outlet, place: hall, serves: [bb]}
    cables:
      C: {from: SP0, to: SP, type: series 6, route: [cellar: 9 ft, hall: 20 ft]}
      C-1: {from: SP, to: TV, type: series 6, route: [hall: 9 ft]}
      C-2: {from: SP, to: PC, type: series 6, route: [hall: 19 ft]}
  shop: {devices: {TV: {kind: outlet}}}
units:
  flat-01 to flat-12: {like: flat}
  flat-13: {like: flat, but: {cables: {C-2: {route: [hall: 25 ft]}}}}
  flat-14: {like: flat, leaves out: [C]}
"""


def test_twelve_flats_are_told_once_with_the_ports_that_feed_them() -> None:
    text = shown(ROW)
    assert text.count("flat-01/SP (3-way splitter") == 1
    assert "alike in flat-02 to flat-12, from SP0.out-2 to out-12\n" in text
    assert not any(f"flat-{number:02}/C " in text for number in range(2, 13))
    # What differs is told for itself, whole.
    assert "flat-13/C-2 from flat-13/SP.out-2 to flat-13/PC.in\n" in text
    assert "route   flat-13/hall 25 ft" in " ".join(text.split("flat-13/C-2")[1].split("\n")[2:3])


def test_places_and_free_ports_of_units_are_told_once() -> None:
    text = shown(ROW)
    assert "flat-01/hall   indoors; also in flat-02 to flat-14\n" in text
    assert "flat-01/SP  out-3 (3-way splitter); also in flat-02 to flat-13\n" in text
    assert "flat-14/SP  in and out-3 (3-way splitter)\n" in text
    assert "SP0         out-14 to out-16 (16-way splitter)\n" in text
    assert "  flat  flat-01 to flat-14\n" in text


def test_what_could_not_be_connected_in_a_typical_unit_is_told_once() -> None:
    text = shown(ROW.replace("to: PC,", "to: PCC,")).partition("UNRESOLVED CONNECTIONS")[2]
    assert text.count("is no device") == 1
    assert "'flat-01/PCC' is no device; did you mean 'flat-01/PC'? (also in flat-02 to flat-14)\n" in text


def test_units_fed_by_cables_of_the_site_are_told_once_with_those_cables() -> None:
    feeds = "".join(
        f"  F-{n:02}: {{from: SP0, to: flat-{n:02}/SP, type: series 6, route: [cellar: 9 ft]}}\n" for n in (1, 2, 3)
    )
    text = shown(
        ROW.replace("      C: {from: SP0, to: SP, type: series 6, route: [cellar: 9 ft, hall: 20 ft]}\n", "")
        .replace("  flat-14: {like: flat, leaves out: [C]}\n", "")
        .replace("typical:\n", f"{feeds}typical:\n")
    )
    assert "alike in flat-02 and flat-03, by F-02 and F-03, from SP0.out-2 and out-3\n" in text


def test_a_like_unit_elsewhere_is_told_up_to_where_it_is_the_same() -> None:
    text = shown(read_design(GANNET, GANNET.name))
    assert text.count("splitter, ") == 2  # 401's, and 403's that has two ways
    assert "301/SP and on from there: as in 401\n" in text
    assert "alike in 302 and 303, from TAP-3.tap-2 and tap-3\n" in text
    assert max(columns(line) for line in text.splitlines()) <= 100


def test_a_second_service_over_the_same_way_repeats_nothing_either() -> None:
    text = shown(ROW.replace("services: {", "services: {am: {kind: FM radio, from: DROP}, "))
    assert "alike in flat-02 to flat-12, from SP0.out-2 to out-12\n" in text
    assert "alike in flat-02 to flat-13, from SP0.out-2 to out-13\n" in text  # nothing of a route is told again
    assert "flat-02/" not in text


def test_defaults_are_told_once_each_with_what_they_hold_for() -> None:
    text = " ".join(shown(ROW).partition("ASSUMED")[2].split())
    assert "exposure: indoors, for cellar; hall in flat-01 to flat-14 " in text
    assert "jacket: indoor, for every cable " in text
    assert text.count("20 °C") == 1
    assert "temperature, for the loss: 20 °C, for every place that a cable runs through " in text
    assert " by default" not in shown(ROW)
    wheatear = " ".join(shown(read_design(WHEATEAR, WHEATEAR.name)).split())
    assert "20 °C, for every place that a cable runs through but loft and roof " in wheatear


def test_what_is_described_and_not_used() -> None:
    text = " ".join(shown(ROW).partition("DEFINED BUT NOT USED")[2].split())
    assert "typical unit shop, which no unit is like " in text
    assert "unit flat-14, which no cable joins to the rest of the network " in text
    assert "places shed; attic in flat-01 to flat-14, where nothing stands and nothing runs through " in text
    used = ROW.replace(", shed: {exposure: outdoors}", "").replace(", attic: {exposure: attic}", "")
    used = used.replace("  shop: {devices: {TV: {kind: outlet}}}\n", "").replace(", leaves out: [C]", "")
    assert "DEFINED BUT NOT USED\n  nothing\n" in shown(used)


def test_a_place_is_used_where_anything_names_it() -> None:
    # The entry of a building, the place of an electrode, a stretch of a route: each is use enough.
    text = """\
coaxwright: 1
title: Dunlin Row 5 (invented)
basis: {rulesets: [trade 1]}
buildings: {house: {entry: wall}}
places: {wall: {exposure: outdoors}, cellar: {}, hall: {}, den: {}}
devices: {A: {kind: outlet, place: den}, B: {kind: outlet}}
cables: {C: {from: A, to: B, type: series 6, route: [hall: 3 m]}}
bonding: {ROD: {kind: ground rod, place: cellar}}
"""
    assert read(text).unused == ()
    assert [one.tag for one in read(text.replace("[hall: 3 m]", "[den: 3 m]")).unused] == ["hall"]


def test_a_dish_belongs_to_the_service_of_its_converter_and_a_socket_is_no_free_port() -> None:
    text = shown(read_design(WHEATEAR, WHEATEAR.name))
    assert "REACHED BY NO SERVICE" not in text
    assert "FREE PORTS\n  none\n" in text
    alone = WHEATEAR.read_text(encoding="utf-8").replace("    from: LNB\n", "    from: UHF\n")
    assert "DISH (dish, roof)" in shown(alone).partition("REACHED BY NO SERVICE")[2]


@pytest.mark.parametrize(
    ("band", "words"),
    [("50 Hz to 5.5 MHz", "at 50 Hz"), ("10 kHz to 5.5 MHz", "at 10 kHz"), ("5 MHz to 1002 MHz", "at 1002 MHz")],
)
def test_frequencies_as_a_person_writes_them(band: str, words: str) -> None:
    text = shown(ROW.replace("54 MHz to 1002 MHz", band))
    assert words in text
    assert "e-0" not in text


def test_tags_of_units_are_listed_by_what_they_are_called_there() -> None:
    units = Units([ReadUnit(f"flat-{n}", "flat") for n in range(1, 5)])
    tags = [f"flat-{n}/{own}" for n in range(1, 5) for own in ("den", "hall")]
    assert units.listed(["C-1", "C-2", "C-3", *tags, "x/y"]) == "C-1 to C-3 and x/y; den and hall in flat-1 to flat-4"
    assert (units.of("flat-1/den"), units.of("x/y"), units.own("x/y")) == ("flat-1", "", "x/y")
    assert units.without("flat-1", "flat-1/den aflat-1/den") == "/den aflat-1/den"


def test_a_raceway_is_used_where_a_cable_runs_in_it() -> None:
    text = """\
coaxwright: 1
title: Dunlin Row 7 (invented)
basis: {rulesets: [trade 1]}
places: {den: {}}
devices: {A: {kind: outlet, place: den}, B: {kind: outlet, place: den}}
raceways:
  RW-1: {kind: rigid PVC conduit, trade size: 3/4}
  RW-2: {kind: rigid PVC conduit, trade size: 3/4}
cables: {C: {from: A, to: B, type: series 6, route: [den: {length: 3 m, in: RW-1}]}}
"""
    assert [(one.kind, one.tag) for one in read(text).unused] == [("raceway", "RW-2")]
    assert "raceway RW-2, in which nothing runs\n" in shown(text)
