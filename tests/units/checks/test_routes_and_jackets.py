"""Where cables run and what they are jacketed in: what the examples beside the rules leave open."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coaxwright.analysis import Analysis
from coaxwright.catalogue import CableType, load_catalogue
from coaxwright.checks import CheckContext, NotMet
from coaxwright.checks.route.bend_radius import bend_radius
from coaxwright.design import understand
from coaxwright.findings import Finding, Outcome
from coaxwright.network import build_network
from coaxwright.reviewing import judge
from coaxwright.rules import Severity, combine, shipped_registry
from coaxwright.source import read_text

DEVICES = (
    "devices: {D: {kind: coax drop, place: wall}, G: {kind: ground block, place: wall}, "
    "P: {kind: ground block, place: cellar}, S: {kind: splitter, ways: 8, place: cellar}, "
    "O: {kind: outlet, place: den}, A: {kind: antenna, place: roof}}\n"
)
PLACES = (
    "places: {wall: {exposure: outdoors}, roof: {exposure: rooftop}, garden: {exposure: buried}, cellar: {}, den: {}"
)


def findings(
    rule: str, cables: str, places: str = "", more: str = "", basis: str = "us 2023", use: str = "commercial"
) -> list[Finding]:
    text = (
        f"coaxwright: 1\ntitle: Bench (invented)\nbasis: {{rulesets: [{basis}], occupancy: {use}}}\n"
        f"{PLACES}{places}}}\n{DEVICES}{more}cables: {{{cables}}}\n"
    )
    review = judge(read_text(text, "bench.coax.yaml"), shipped_registry())
    assert [str(problem) for problem in review.problems] == []
    assert review.crashes == ()
    return [finding for finding in review.unfolded if finding.rule == rule]


def outcomes(rule: str, cables: str, places: str = "", more: str = "", use: str = "commercial") -> list[str]:
    return [str(finding.outcome) for finding in findings(rule, cables, places, more, use=use)]


def cable(route: str, ends: str = "from: S, to: O", type_: str = "series 6", also: str = "") -> str:
    return f"C: {{{ends}, type: {type_}, route: [{route}]{also}}}"


@pytest.mark.parametrize(
    ("also", "ends", "route", "expected"),
    [
        ("", "from: G, to: S", "wall: 1 m, cellar: 15 m", []),  # an outdoor jacket tells no mark, and it is short
        ("", "from: G, to: S", "wall: 1 m, cellar: 15.01 m", ["cannot be judged"]),
        ("", "from: S, to: O", "cellar: 2 m, den: 2 m", ["cannot be judged"]),
        (", listing: CM", "from: S, to: O", "cellar: 40 m, den: 2 m", []),
        (", listing: unlisted", "from: S, to: O", "cellar: 2 m", ["not met"]),
        (", listing: unlisted", "from: G, to: P", "cellar: 2 m", []),
        (", listing: unlisted", "from: P, to: G", "cellar: 2 m, wall: 1 m", []),  # drawn the other way round
        (", listing: unlisted", "from: G, to: G", "wall: 1 m, cellar: 2 m, wall: 1 m", ["not met"]),
        (
            ", listing: unlisted",
            "from: D, to: S",
            "wall: 1 m, cellar: 2 m",
            ["not met"],
        ),  # folded under the missing block
        (", listing: unlisted", "from: D, to: G", "wall: 1 m", []),
        (", listing: unlisted", "from: D, to: nobody", "wall: 1 m, cellar: 2 m", ["cannot be judged"]),
        (", listing: unlisted", "from: G, to: P", "wall: 1 m, celler: 2 m", ["cannot be judged"]),
    ],
)
def test_unlisted_cable(also: str, ends: str, route: str, expected: list[str]) -> None:
    assert outcomes("jacket.listed-indoors", cable(route, ends, "series 6 outdoor", also)) == expected


@pytest.mark.parametrize(
    ("ends", "also", "expected"),
    [
        ("from: S, to: O", ", length: 9 m", ["not met"]),
        ("from: G, to: P", ", length: 9 m", ["cannot be judged"]),
        ("from: G, to: D", ", length: 9 m", []),
        ("from: S, to: O", "", ["cannot be judged"]),
    ],
)
def test_unlisted_cable_without_a_route(ends: str, also: str, expected: list[str]) -> None:
    text = f"C: {{{ends}, type: series 6 outdoor, listing: unlisted{also}}}"
    assert outcomes("jacket.listed-indoors", text) == expected


def test_listed_cable_needs_no_route() -> None:
    assert outcomes("jacket.listed-indoors", "C: {from: G, to: P, type: series 6, length: 90 m}") == []


def test_an_air_space_a_shaft_and_a_room_each_ask_for_their_mark() -> None:
    places = ", ceiling: {exposure: plenum, return air: true}, shaft: {exposure: riser}"
    text = cable("ceiling: 9 m, shaft: 9 m", type_="series 6 flooded", also=", listing: unlisted")
    told = [name for name in ("plenum", "riser", "listed-indoors") if findings(f"jacket.{name}", text, places)]
    assert told == ["plenum", "riser", "listed-indoors"]
    only = cable("shaft: 9 m", type_="series 6 flooded", also=", listing: unlisted")
    told = [name for name in ("plenum", "riser", "listed-indoors") if findings(f"jacket.{name}", only, places)]
    assert told == ["riser", "listed-indoors"]


def test_a_firestopped_shaft_excuses_nothing_of_an_unlisted_cable_in_a_room() -> None:
    """Somebody has to look at the shaft; the room is a violation with it and without it."""
    shaft = ", shaft: {exposure: riser}"
    way = "cellar: 2 m, shaft: {length: 9 m, firestopped: true}, den: 2 m"
    text = cable(way, type_="series 6 riser", also=", listing: unlisted")
    (in_shaft,), (in_room,) = findings("jacket.riser", text, shaft), findings("jacket.listed-indoors", text, shaft)
    assert (str(in_shaft.outcome), str(in_room.outcome)) == ("needs a person", "not met")
    assert in_room.severity is Severity.VIOLATION
    assert in_room.folded_under is None


@pytest.mark.parametrize(("type_", "expected"), [("serious 6", ["cannot be judged"]), ("series 6 plenum", [])])
@pytest.mark.parametrize("rule", ["jacket.plenum", "jacket.riser"])
def test_a_type_that_is_not_understood(rule: str, type_: str, expected: list[str]) -> None:
    places = ", ceiling: {exposure: plenum, return air: true}, shaft: {exposure: riser}"
    place = "ceiling" if rule == "jacket.plenum" else "shaft"
    assert outcomes(rule, cable(f"{place}: 9 m", type_=type_), places) == expected


def test_existing_listing_is_advice() -> None:
    places = ", ceiling: {exposure: plenum, return air: true}"
    (finding,) = findings("jacket.plenum", cable("ceiling: 9 m", also=", state: existing"), places)
    assert finding.severity is Severity.ADVICE


def test_plenum_cable_in_place_of_an_outdoor_one_is_offered_only_where_it_suits() -> None:
    places = ", ceiling: {exposure: plenum, return air: true}"
    (inside,) = findings("jacket.plenum", cable("ceiling: 9 m"), places)
    assert inside.mend is not None
    assert inside.mend.text == "series 6 plenum"
    (outside,) = findings("jacket.plenum", cable("wall: 1 m, ceiling: 9 m", type_="series 6 outdoor"), places)
    assert outside.mend is None
    assert "change to a cable marked CATVP or CMP for that stretch" in outside.remedy
    (stated,) = findings("jacket.plenum", cable("ceiling: 9 m", also=", listing: CATV"), places)
    assert stated.mend is None


@pytest.mark.parametrize(
    ("neighbor", "expected"),
    [
        ("{what: power cable, by: open conductors, at: 1 in, barrier: true}", []),
        ("{what: telephone cable, at: 0 in}", []),
        ("{what: power cable, by: metal-clad cable, at: 0 in}", []),
        ("{what: power cable, by: raceway, at: 1 in}", []),
        ("{what: fire alarm power circuit, by: service-entrance cable, at: 1 in}", []),
        ("{what: fire alarm power circuit, by: open conductors, at: 1 in}", ["violation"]),
        ("{what: power cable, by: open conductors, at: 1 in, crossing: true}", ["violation"]),
        ("{what: power cable, by: open conductors, at: 3 in}", ["advice"]),
        ("{what: power cable, by: service-entrance cable, at: 3 in}", ["advice"]),
    ],
)
def test_beside_power_indoors(neighbor: str, expected: list[str]) -> None:
    found = findings("route.power-separation", cable(f"cellar: {{length: 9 ft, beside: [{neighbor}]}}"))
    assert [str(finding.severity.value) for finding in found] == expected


def test_of_several_neighbors_in_one_place_the_worst_is_told() -> None:
    near = "{what: lighting circuit, by: open conductors, at: 1 in}"
    beside = f"[{near}, {{what: power cable, by: UF cable, at: 3 in}}, {{what: Class 1 circuit, at: 0.5 in}}]"
    (finding,) = findings("route.power-separation", cable(f"cellar: {{length: 9 ft, beside: {beside}}}"))
    assert finding.outcome is Outcome.NOT_MET
    assert "1 in from a lighting circuit" in finding.found


def test_an_open_question_goes_before_advice() -> None:
    beside = "[{what: Class 1 circuit, at: 0.5 in}, {what: power cable, by: UF cable, at: 3 in}]"
    (finding,) = findings("route.power-separation", cable(f"cellar: {{length: 9 ft, beside: {beside}}}"))
    assert finding.outcome is Outcome.CANNOT_BE_JUDGED


def test_a_neighbor_of_a_place_holds_for_each_cable_there() -> None:
    places = ", shop: {beside: [{what: power cable, by: open conductors, at: 1 in}]}"
    one = "{from: S, to: O, type: series 6, route: [shop: 9 ft]}"
    told = findings("route.power-separation", f"C: {one}, B: {one}", places)
    assert sorted(finding.identity.subject for finding in told) == ["B", "C"]


def test_power_in_one_tray_keeps_the_distance_and_in_one_conduit_is_the_raceways() -> None:
    tray = "raceways: {R: {kind: cable tray, holds: [{what: power cable, by: open conductors, at: 1 in}]}}\n"
    pipe = tray.replace("cable tray", "inner duct")
    text = cable("cellar: {length: 9 ft, in: R}")
    assert len(findings("route.power-separation", text, more=tray)) == 1
    assert findings("route.power-raceway", text, more=tray) == []
    assert findings("route.power-separation", text, more=pipe) == []
    assert len(findings("route.power-raceway", text, more=pipe)) == 1


@pytest.mark.parametrize(
    ("wiring", "expected"),
    [
        (", by: raceway", []),
        (", by: UF cable", []),
        (", by: USE cable", []),
        (", by: armored cable", []),
        (", by: metal-clad cable", []),
        (", by: nonmetallic-sheathed cable", ["not met"]),
        (", by: open conductors", ["not met"]),
        ("", ["cannot be judged"]),
    ],
)
def test_buried_beside_power(wiring: str, expected: list[str]) -> None:
    leg = f"garden: {{length: 9 ft, beside: [{{what: power cable, at: 6 in{wiring}}}]}}"
    assert outcomes("route.buried-separation", cable(leg, "from: G, to: P", "series 6 flooded")) == expected


@pytest.mark.parametrize(
    ("voltage", "distance", "expected"),
    [
        ("", "1.9 ft", ["not met"]),
        ("", "2 ft", ["cannot be judged"]),
        ("", "10 ft", []),
        (", voltage: 250 V", "2 ft", []),
        (", voltage: 251 V", "9.9 ft", ["not met"]),
        (", voltage: 251 V", "3.0 m", []),
        (", voltage: 251 V", "2.9 m", ["not met"]),
    ],
)
def test_lead_in_of_an_aerial_beside_a_power_line(voltage: str, distance: str, expected: list[str]) -> None:
    leg = f"roof: {{length: 9 ft, beside: [{{what: overhead power line, at: {distance}{voltage}}}]}}"
    assert outcomes("route.aerial-clearance", cable(leg, "from: A, to: G", "series 6 outdoor")) == expected


def test_where_practicable_is_no_violation() -> None:
    leg = "roof: {length: 9 ft, beside: lightning conductor at 5 ft}"
    (finding,) = findings("route.aerial-clearance", cable(leg, "from: A, to: G", "series 6 outdoor"))
    assert finding.severity is Severity.DEFICIENCY
    assert [source.clause for source in finding.sources] == ["800.53"]


def test_a_barrier_or_an_indoor_place_ends_the_question_of_clearance() -> None:
    leg = "den: {length: 9 ft, beside: power drop at 2 in}"
    assert outcomes("route.aerial-clearance", cable(leg)) == []


def test_rising_fill_is_told_from_the_first_percent_above() -> None:
    """Area of the cables over that of the raceway (textbook)."""
    (finding,) = findings(
        "route.raceway-fill",
        cable("cellar: {length: 9 ft, in: R}"),
        more="raceways: {R: {kind: rigid PVC conduit, inner diameter: 0.3 in}}\n",
    )
    made = load_catalogue().cable_type("series 6")
    assert isinstance(made, CableType)
    assert made.outer_diameter_m is not None
    share = (made.outer_diameter_m / (0.3 * 0.0254)) ** 2
    assert f"fill {share * 100:.0f} %" in finding.found
    assert finding.severity is Severity.ADVICE


@given(st.integers(1, 8), st.integers(60, 500))
def test_the_diameter_that_is_advised_is_wide_enough(number: int, inner_hundredths: int) -> None:
    cables = ", ".join(
        f"C{index}: {{from: S, to: O, type: series 6, route: [cellar: {{length: 9 ft, in: R}}]}}"
        for index in range(number)
    )

    def told(inner: str) -> list[Finding]:
        more = f"raceways: {{R: {{kind: inner duct, inner diameter: {inner}}}}}\n"
        return findings("route.raceway-fill", cables, more=more, basis="trade 1")

    found = told(f"{inner_hundredths / 100} in")
    share = {1: 0.53, 2: 0.31}.get(number, 0.40)
    least_in = 0.272 * math.sqrt(number / share)
    assert bool(found) == (inner_hundredths / 100 < least_in)
    for finding in found:
        advised = finding.remedy.rpartition("at least ")[2].strip(".")
        assert float(advised.removesuffix(" in")) == pytest.approx(least_in, abs=0.001)
        assert told(advised) == []


@pytest.mark.parametrize(
    ("size", "expected"),
    [("1/2", []), ("16", []), ('1/2"', []), ("1 1/4", []), ("41", []), ("7/8", ["cannot be judged"])],
)
def test_trade_sizes_are_read_as_they_are_written(size: str, expected: list[str]) -> None:
    more = f"raceways: {{R: {{kind: rigid metal conduit, trade size: '{size}'}}}}\n"
    assert outcomes("route.raceway-fill", cable("cellar: {length: 9 ft, in: R}"), more=more) == expected


def test_a_raceway_of_no_width_is_not_divided_by() -> None:
    more = "raceways: {R: {kind: inner duct, inner diameter: 0 in}}\n"
    assert outcomes("route.raceway-fill", cable("cellar: {length: 9 ft, in: R}"), more=more) == ["cannot be judged"]


def test_firestops_in_a_small_dwelling_are_judged_only_where_they_are_spoken_of() -> None:
    through = cable("cellar: {length: 9 ft, floors crossed: 1}")
    assert outcomes("route.firestop", through, use="one-family dwelling") == []
    assert outcomes("route.firestop", through) == ["cannot be judged"]
    left_open = cable("cellar: {length: 9 ft, firestopped: false}")
    assert outcomes("route.firestop", left_open, use="one-family dwelling") == ["not met"]


def test_a_data_sheet_of_ones_own_says_how_far_it_bends() -> None:
    own = "catalogue: {classes: {shop 6: {like: series 6, source: bench, bend radius: 1 in}}}\n"
    text = "C: {from: S, to: O, type: %s, route: [cellar: {length: 9 ft, bend radius: 2 in}]}"
    assert [str(one.outcome) for one in findings("route.bend-radius", text % "shop 6", more=own)] == []
    assert [str(one.outcome) for one in findings("route.bend-radius", text % "series 6", more=own)] == ["not met"]


@pytest.mark.parametrize(
    ("bend", "cases"), [("2.72 in", []), ("2.71 in", ["tight"]), ("69.1 mm", []), ("69 mm", ["tight"])]
)
def test_a_class_without_a_radius_is_held_to_ten_diameters(bend: str, cases: list[str]) -> None:
    """Ten times 0.272 in (69.088 mm), as is common practice; the shipped classes all state a radius of their own."""
    shipped = load_catalogue()
    made = replace(shipped.classes["series 6"], bend_radius_m=None)
    words = replace(shipped.words, classes={**shipped.words.classes, "series 6": made})
    text = (
        "coaxwright: 1\ntitle: Bench (invented)\nbasis: {rulesets: [trade 1]}\n"
        f"{PLACES}}}\n{DEVICES}cables: {{{cable(f'cellar: {{length: 9 ft, bend radius: {bend}}}')}}}\n"
    )
    network = build_network(understand(read_text(text, "x")), replace(shipped, words=words))
    rule = combine(["trade 1"], shipped_registry()).rules["route.bend-radius"]
    verdicts = bend_radius(network.cables["C"], CheckContext(network, Analysis(network)), rule.limits)
    assert [verdict.case for verdict in verdicts if isinstance(verdict, NotMet)] == cases


@pytest.mark.parametrize("said", [("false", "true"), ("true", "false"), ("false", "false")])
@pytest.mark.parametrize("word", ["firestopped", "drip loop"])
def test_of_several_stretches_in_one_place_the_one_that_lacks_it_is_told(word: str, said: tuple[str, str]) -> None:
    rule = f"route.{'firestop' if word == 'firestopped' else 'drip-loop'}"
    stretches = ", ".join(f"cellar: {{length: 9 ft, {word}: {one}}}" for one in said)
    assert outcomes(rule, cable(stretches)) == ["not met"]
    assert outcomes(rule, cable(stretches.replace("false", "true"))) == []


@pytest.mark.parametrize(("other", "outcome"), [("true", "cannot be judged"), ("false", "not met")])
def test_of_several_holes_in_one_place_the_worst_is_told(other: str, outcome: str) -> None:
    """A sealed one answers for no other, and an open one need not wait for what is said of others."""
    said = [f"cellar: {{length: 9 ft, firestopped: {other}}}", "cellar: {length: 9 ft, floors crossed: 1}"]
    assert outcomes("route.firestop", cable(", ".join(said))) == [outcome]
    assert outcomes("route.firestop", cable(", ".join(said[::-1]))) == [outcome]


def test_how_far_a_route_is_beyond_its_limit_is_told() -> None:
    """Series 6 bends to 3 in, and a motor is kept 4 ft off; common practice."""
    (bent,) = findings("route.bend-radius", cable("cellar: {length: 9 ft, bend radius: 2 in}"))
    assert bent.excess == pytest.approx(1 * 0.0254)
    (near,) = findings("route.interference", cable("attic: 9 ft"), places=", attic: {beside: motor at 1 ft}")
    assert near.excess == pytest.approx(3 * 0.3048)


def test_of_several_stretches_the_most_floors_are_told() -> None:
    stretches = "cellar: {length: 9 ft, floors crossed: 3}, den: {length: 9 ft, floors crossed: 2}"
    (finding,) = findings("jacket.riser", cable(stretches, also=", listing: CATV"))
    assert " through 3 floors" in finding.found
