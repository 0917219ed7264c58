"""Turns of the checks of routes and jackets that a wrong condition would take, and that no example tells apart.

Each was found by turning a condition of the check round, or leaving a part of it out, and looking what nobody noticed.
"""

from __future__ import annotations

import pytest

from coaxwright.design.sentences import short_length
from coaxwright.findings import Finding, Outcome
from coaxwright.reviewing import DesignReview, judge
from coaxwright.rules import shipped_registry
from coaxwright.source import read_text

PLACES = (
    "buildings: {house: {occupancy: one-family dwelling}, shop: {}}\n"
    "places: {wall: {exposure: outdoors}, roof: {exposure: rooftop}, pit: {exposure: wet}, garden: {exposure: buried}, "
    "cellar: {}, den: {}, kitchen: {building: house}, office: {building: shop}}\n"
)
DEVICES = (
    "devices: {D: {kind: coax drop, place: wall}, G: {kind: ground block, place: wall},"
    " A: {kind: antenna, place: roof}, P: {kind: ground block, place: cellar}, "
    "S: {kind: splitter, ways: 8, place: cellar}, O: {kind: outlet, place: den}}\n"
)


def reviewed(cables: str, more: str = "", basis: str = "us 2023", places: str = "") -> DesignReview:
    text = (
        f"coaxwright: 1\ntitle: Bench (invented)\nbasis: {{rulesets: [{basis}], occupancy: commercial, country: US}}\n"
        f"{places or PLACES}{DEVICES}{more}cables:\n{cables}"
    )
    review = judge(read_text(text, "bench.coax.yaml"), shipped_registry())
    assert [str(problem) for problem in review.problems] == []
    assert review.crashes == ()
    return review


def cable(
    route: str, ends: str = "from: G, to: P", type_: str = "series 6 outdoor", tag: str = "C", also: str = ""
) -> str:
    return f"  {tag}: {{{ends}, type: {type_}{also}, route: [{route}]}}\n"


def of(rule: str, review: DesignReview) -> list[Finding]:
    return [finding for finding in review.unfolded if finding.rule == rule]


def outcomes(rule: str, review: DesignReview) -> list[str]:
    return [str(finding.outcome) for finding in of(rule, review)]


def judged(rule: str, review: DesignReview) -> int:
    """Of how many subjects something was asked."""
    (tally,) = (tally for tally in review.tallies if tally.rule == rule)
    return tally.met + tally.not_met + tally.cannot_be_judged + tally.needs_a_person


SPAN = "jacket.messenger-span"


@pytest.mark.parametrize(
    ("route", "type_", "count", "told"),
    [
        ("wall: {length: 20 m, support: none}", "series 6 outdoor", 1, ["not met"]),
        ("roof: {length: 20 m, support: none}", "series 6 outdoor", 1, ["not met"]),
        ("roof: {length: 20 m, support: none}", "series 6 outdoor messenger", 1, []),
        ("wall: {length: 20 m, support: messenger}", "series 6 outdoor", 1, []),
        ("wall: {length: 20 m, support: clips}", "series 6 outdoor", 0, []),
        ("wall: {length: 20 m, support: none, in: R}", "series 6 outdoor", 0, []),
        ("wall: {length: 20 m, depth: 1 m}", "series 6 outdoor", 0, []),
        ("cellar: {length: 20 m, support: none}", "series 6", 0, []),
        ("celler: {length: 20 m, support: none}", "series 6", 0, []),
        ("wall: 20 m", "series 6 outdoor", 0, []),
    ],
)
def test_what_is_a_span(route: str, type_: str, count: int, told: list[str]) -> None:
    review = reviewed(cable(route, type_=type_), "raceways: {R: {kind: inner duct}}\n")
    assert judged(SPAN, review) == count
    assert outcomes(SPAN, review) == told


CLEAR = "route.aerial-clearance"


@pytest.mark.parametrize(
    ("place", "count"), [("wall", 1), ("roof", 1), ("pit", 1), ("garden", 0), ("cellar", 0), ("celler", 0)]
)
def test_where_the_air_is_open(place: str, count: int) -> None:
    review = reviewed(cable(f"{place}: {{length: 9 ft, beside: power drop at 3 in}}", "from: D, to: G"))
    assert judged(CLEAR, review) == len(outcomes(CLEAR, review)) == count


def test_a_cable_beside_nothing_is_not_asked_for_clearance() -> None:
    assert judged(CLEAR, reviewed(cable("wall: 9 ft"))) == 0


def test_a_drop_beside_a_line_of_unknown_voltage_keeps_a_foot() -> None:
    """The higher distance is the lead-in's alone: 810.18(A), and 800.44(A)(4) for the drop."""
    leg = "wall: {{length: 9 ft, beside: [{{what: overhead power line, at: {}}}]}}"
    assert outcomes(CLEAR, reviewed(cable(leg.format("3 ft"), "from: D, to: G"))) == []
    assert outcomes(CLEAR, reviewed(cable(leg.format("11 in"), "from: D, to: G"))) == ["not met"]
    assert outcomes(CLEAR, reviewed(cable(leg.format("3 ft"), "from: A, to: G"))) == ["cannot be judged"]


def test_only_the_cable_from_an_aerial_is_a_lead_in() -> None:
    """Another cable's aerial makes no lead-in of the drop."""
    drop = cable("wall: {length: 9 ft, beside: power drop at 14 in}", "from: D, to: G")
    lead = cable("roof: 9 ft, cellar: 2 ft", "from: A, to: P", tag="L")
    assert outcomes(CLEAR, reviewed(drop + lead)) == []
    further = cable("wall: {length: 9 ft, beside: power drop at 14 in}, cellar: 9 ft", "from: G, to: P", tag="M")
    beyond = cable("roof: 9 ft", "from: A, to: G", tag="L")
    assert outcomes(CLEAR, reviewed(further + beyond)) == ["not met"]


def test_below_both_heights_the_lower_one_is_told() -> None:
    """Over a roof of unknown slope: below 3 ft (900 mm) it is too low whatever the slope is."""
    (finding,) = of(CLEAR, reviewed(cable("roof: {length: 9 m, over: roof, height: 899 mm}")))
    assert finding.required.startswith("at least 900 mm")
    assert outcomes(CLEAR, reviewed(cable("roof: {length: 9 m, over: roof, height: 2.5 m}"))) == []


def test_what_the_designer_of_the_lightning_system_asks_counts_where_it_is_more() -> None:
    places = (
        "buildings: {{house: {{lightning system: {{separation: {}}}}}}}\n"
        "places: {{wall: {{exposure: outdoors, building: house}}, "
        "roof: {{exposure: rooftop}}, cellar: {{}}, den: {{}}}}\n"
    )
    text = cable("wall: {length: 9 m, beside: lightning conductor at 2 m}", "from: D, to: G")
    assert outcomes(CLEAR, reviewed(text, places=places.format("1 m"))) == []
    assert outcomes(CLEAR, reviewed(text, places=places.format("2 m"))) == []
    (finding,) = of(CLEAR, reviewed(text, places=places.format("2.5 m")))
    assert finding.required.startswith("at least 2.5 m")


@pytest.mark.parametrize(
    ("place", "told"), [("kitchen", []), ("office", ["cannot be judged"]), ("den", ["cannot be judged"])]
)
def test_holes_are_asked_for_by_the_use_of_the_building(place: str, told: list[str]) -> None:
    review = reviewed(cable(f"{place}: {{length: 9 ft, floors crossed: 1}}", "from: S, to: O", "series 6"))
    assert outcomes("route.firestop", review) == told


def test_of_two_bends_alike_the_first_is_told() -> None:
    legs = "den: {length: 9 ft, bend radius: 1 in}, den: {length: 8 ft, bend radius: 1 in}"
    text = cable(legs, "from: S, to: O", "series 6")
    (finding,) = of("route.bend-radius", reviewed(text))
    assert finding.outcome is Outcome.NOT_MET
    assert finding.place.span.start.column == text.index("1 in") + 1


POWER = "route.power-separation"
BURIED = "route.buried-separation"
OPEN = "{what: Class 1 circuit, by: open conductors, at: 1 in}"


@pytest.mark.parametrize(
    ("rule", "leg", "count"),
    [
        (POWER, f"cellar: {{length: 9 ft, beside: [{OPEN}]}}", 1),
        (POWER, f"garden: {{length: 9 ft, beside: [{OPEN}]}}", 0),
        (BURIED, f"garden: {{length: 9 ft, beside: [{OPEN}]}}", 1),
        (BURIED, f"cellar: {{length: 9 ft, beside: [{OPEN}]}}", 0),
        (BURIED, "garden: {length: 9 ft, depth: 1 ft}", 1),
        (BURIED, "garden: 9 ft", 0),
        (BURIED, f"garden: {{length: 9 ft, in: R, beside: [{OPEN}]}}", 0),
        (POWER, f"cellar: {{length: 9 ft, in: R, beside: [{OPEN}]}}", 0),
        (POWER, f"cellar: {{length: 9 ft, in: SLEEVE, beside: [{OPEN}]}}", 1),
        (POWER, f"cellar: {{length: 9 ft, in: TRAY, beside: [{OPEN}]}}", 1),
    ],
)
def test_power_beside_is_asked_for_by_one_rule(rule: str, leg: str, count: int) -> None:
    raceways = "raceways: {R: {kind: inner duct}, SLEEVE: {kind: sleeve}, TRAY: {kind: cable tray}}\n"
    assert judged(rule, reviewed(cable(leg, type_="series 6 flooded"), raceways)) == count


@pytest.mark.parametrize("what", ["power cable", "lighting circuit"])
def test_mains_in_parallel_is_power_and_light(what: str) -> None:
    leg = f"cellar: {{length: 9 ft, beside: [{{what: {what}, by: UF cable, at: 3 in}}]}}"
    (finding,) = of(POWER, reviewed(cable(leg)))
    assert "in parallel" in finding.found


def test_of_two_neighbors_as_near_the_first_is_told() -> None:
    wires = [f"{{what: {what}, by: open conductors, at: 1 in}}" for what in ("lighting circuit", "Class 1 circuit")]
    for first, other in (wires, wires[::-1]):
        (finding,) = of(POWER, reviewed(cable(f"cellar: {{length: 9 ft, beside: [{first}, {other}]}}")))
        assert f"a {first.partition('what: ')[2].partition(',')[0]}" in finding.found


def test_what_the_same_duct_holds_is_no_neighbor_and_what_runs_along_is() -> None:
    raceways = "raceways: {R: {kind: inner duct, holds: [dimmer]}}\n"
    rule = "route.interference"
    assert judged(rule, reviewed(cable("cellar: {length: 9 ft, in: R}"), raceways)) == 0
    assert judged(rule, reviewed(cable("cellar: {length: 9 ft, in: R, beside: dimmer at 1 in}"), raceways)) == 1


@pytest.mark.parametrize(
    ("length_m", "is_metric", "text"),
    [
        (1.0, True, "1 m"),
        (0.999, True, "999 mm"),
        (0.6, False, "2 ft"),
        (0.5999, False, "23.62 in"),
    ],
)
def test_a_lack_is_told_in_a_unit_of_its_size(length_m: float, is_metric: bool, text: str) -> None:
    """1 ft is 0.3048 m, 1 in 25.4 mm."""
    assert short_length(length_m, is_metric) == text


OUTDOORS, CONDUIT = "jacket.outdoor-rated", "jacket.uv-conduit"


@pytest.mark.parametrize(
    ("route", "rules"),
    [
        ("wall: {length: 9 ft, in: R}, cellar: 3 ft", [OUTDOORS, CONDUIT]),
        ("wall: {length: 9 ft, in: R}, wall: 2 ft, cellar: 3 ft", [OUTDOORS]),
        ("wall: {length: 9 ft, in: SLEEVE}, cellar: 3 ft", [OUTDOORS]),
        ("wall: {length: 9 ft, in: TRAY}, cellar: 3 ft", [OUTDOORS]),
    ],
)
def test_conduit_outdoors_counts_where_all_of_it_is_in_conduit(route: str, rules: list[str]) -> None:
    raceways = "raceways: {R: {kind: inner duct}, SLEEVE: {kind: sleeve}, TRAY: {kind: cable tray}}\n"
    review = reviewed(cable(route, type_="series 6"), raceways)
    told = of(OUTDOORS, review) + of(CONDUIT, review)
    assert [finding.rule for finding in told] == rules
    assert {finding.mend.text for finding in told if finding.mend is not None} == {"series 6 outdoor"}
