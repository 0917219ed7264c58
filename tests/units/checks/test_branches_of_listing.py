"""Turns of the checks of listing, fire classes and raceways that a wrong condition would take unnoticed."""

from __future__ import annotations

import pytest

from coaxwright.findings import Finding
from coaxwright.reviewing import DesignReview, judge
from coaxwright.rules import shipped_registry
from coaxwright.source import read_text

AIR, RISER, INDOORS = "jacket.plenum", "jacket.riser", "jacket.listed-indoors"
FIRE, POWER, FILL = "jacket.reaction-to-fire", "route.power-raceway", "route.raceway-fill"

PLACES = """\
buildings: {tower: {floors: 3}, house: {occupancy: one-family dwelling, floors: 3}, low: {floors: 2}, attic: {}}
places:
  wall: {exposure: outdoors}
  ceiling: {exposure: plenum, return air: true}
  void: {exposure: plenum}
  shaft: {exposure: riser}
  tower shaft: {exposure: riser, building: tower}
  low shaft: {exposure: riser, building: low}
  house shaft: {exposure: riser, building: house}
  stairs: {floors crossed: 2}
  den: {}
"""
DEVICES = (
    "devices: {D: {kind: coax drop, place: wall}, G: {kind: ground block, place: wall}, P: {kind: ground block,"
    " place: den}, S: {kind: splitter, ways: 8, place: den}, O: {kind: outlet, place: den},"
    " A: {kind: antenna}, CAM: {kind: camera, place: den}}\n"
)


def reviewed(cables: str, more: str = "", basis: str = "us 2023", use: str = "occupancy: commercial") -> DesignReview:
    text = (
        f"coaxwright: 1\ntitle: Bench (invented)\nbasis: {{rulesets: [{basis}]{', ' if use else ''}{use}}}\n"
        f"{PLACES}{DEVICES}{more}cables: {{{cables}}}\n"
    )
    review = judge(read_text(text, "bench.coax.yaml"), shipped_registry())
    assert [str(problem) for problem in review.problems] == []
    assert review.crashes == ()
    return review


def cable(route: str, listing: str = "", ends: str = "from: S, to: O", type_: str = "series 6") -> str:
    mark = f", listing: {listing}" if listing else ""
    return f"C: {{{ends}, type: {type_}{mark}, route: [{route}]}}"


def of(rule: str, review: DesignReview) -> list[Finding]:
    return [finding for finding in review.unfolded if finding.rule == rule]


def outcomes(rule: str, review: DesignReview) -> list[str]:
    return [str(finding.outcome) for finding in of(rule, review)]


def judged(rule: str, review: DesignReview) -> int:
    """Of how many subjects something was asked."""
    (tally,) = (tally for tally in review.tallies if tally.rule == rule)
    return tally.met + tally.not_met + tally.cannot_be_judged + tally.needs_a_person


METAL = ("rigid metal conduit", "intermediate metal conduit", "electrical metallic tubing", "flexible metal conduit")
PIPES = ("rigid PVC conduit", "electrical nonmetallic tubing", "inner duct", "surface raceway")


@pytest.mark.parametrize("kind", [*METAL, *PIPES, "cable tray", "sleeve", "box"])
def test_metal_raceway_shuts_a_cable_off_from_air_and_shaft(kind: str) -> None:
    raceways = f"raceways: {{R: {{kind: {kind}}}}}\n"
    for rule, place, told in (
        (AIR, "ceiling", "not met"),
        (AIR, "void", "cannot be judged"),
        (RISER, "shaft", "not met"),
    ):
        review = reviewed(cable(f"{place}: {{length: 9 m, in: R}}", "CATV"), raceways)
        assert outcomes(rule, review) == ([] if kind in METAL else [told])
        assert judged(rule, review) == (kind not in METAL)


@pytest.mark.parametrize("listing", ["", "plenum", "riser", "general use", "unlisted"])
@pytest.mark.parametrize("kind", [*PIPES, "cable tray", "sleeve", "box"])
def test_a_pipe_that_may_burn_is_listed_for_air_itself(kind: str, listing: str) -> None:
    said = f", listing: {listing}" if listing else ""
    raceways = f"raceways: {{R: {{kind: {kind}{said}}}}}\n"
    review = reviewed(cable("ceiling: {length: 9 m, in: R}, ceiling: {length: 1 m, in: R}", "CATVP"), raceways)
    is_wrong = kind in PIPES and listing not in ("", "plenum")
    assert outcomes(AIR, review) == (["not met"] if is_wrong else [])


def test_a_cable_in_no_space_with_air_is_not_asked() -> None:
    assert judged(AIR, reviewed(cable("den: 9 m"))) == 0
    assert judged(AIR, reviewed(cable("ceiling: 9 m", "CATVP"))) == 1


@pytest.mark.parametrize(
    ("route", "count", "told"),
    [
        ("shaft: 9 m", 1, ["not met"]),
        ("tower shaft: 9 m", 1, ["not met"]),
        ("low shaft: 9 m", 0, []),
        ("house shaft: 9 m", 0, []),
        ("house shaft: 9 m, tower shaft: 9 m", 1, ["not met"]),
        ("stairs: 9 m", 1, ["not met"]),
        ("stairs: {length: 9 m, floors crossed: 1}", 0, []),
        ("den: {length: 9 m, floors crossed: 2}", 1, ["not met"]),
        ("den: {length: 9 m, floors crossed: 1}", 0, []),
        ("tower shaft: {length: 9 m, floors crossed: 1}", 0, []),
        ("tower shaft: {length: 9 m, firestopped: true}", 1, ["needs a person"]),
        ("tower shaft: {length: 9 m, firestopped: true}, shaft: 3 m", 1, ["not met"]),
        ("shaft: 9 m, ceiling: 3 m", 1, ["not met"]),
        ("shfat: 9 m", 0, []),
    ],
)
def test_what_counts_as_more_than_one_floor(route: str, count: int, told: list[str]) -> None:
    """A shaft between two stories passes one floor; what the stretch says goes before its place, that before both."""
    review = reviewed(cable(route, "CATV"))
    assert judged(RISER, review) == count
    assert outcomes(RISER, review) == told


def test_the_floors_passed_are_told_where_they_are_known() -> None:
    (known,) = of(RISER, reviewed(cable("tower shaft: 9 m, stairs: 2 m", "CATV")))
    assert "upright through two floors (" in known.found
    (unknown,) = of(RISER, reviewed(cable("shaft: 9 m", "CATV")))
    assert "upright (" in unknown.found


def test_a_shaft_in_a_building_of_unknown_use_cannot_be_judged() -> None:
    assert outcomes(RISER, reviewed(cable("shaft: 9 m", "CATV"), use="")) == ["cannot be judged"]
    assert outcomes(RISER, reviewed(cable("shaft: 9 m", "CATVR"), use="")) == []


VIDEO = "services: {one: {kind: camera video, from: CAM, down: {band: 50 Hz to 6 MHz}}}\n"
RF = "services: {one: {kind: in-home data, from: CAM, down: {band: 470 MHz to 478 MHz}}}\n"


@pytest.mark.parametrize(("services", "told"), [(VIDEO, []), (RF, ["needs a person"]), ("", [])])
def test_a_mark_for_other_circuits_may_carry_video(services: str, told: list[str]) -> None:
    review = reviewed(cable("den: 9 m", "CL2", "from: CAM, to: O"), services)
    assert outcomes(INDOORS, review) == told


CONDUIT = "raceways: {{R: {{kind: {kind}{more}}}}}\n"


@pytest.mark.parametrize(
    ("kind", "more", "rest", "told"),
    [
        ("rigid metal conduit", ", bonded: true", "15 m", []),
        ("intermediate metal conduit", ", bonded: true", "15 m", []),
        ("rigid metal conduit", ", bonded: false", "15 m", ["not met"]),
        ("rigid metal conduit", "", "15 m", ["cannot be judged"]),
        ("rigid metal conduit", "", "6 m", []),
        ("rigid metal conduit", ", bonded: true, places: [wall, den]", "15 m", []),
        ("rigid metal conduit", ", bonded: true, places: [wall]", "15 m", ["not met"]),
        ("flexible metal conduit", ", bonded: true", "15 m", ["not met"]),
    ],
)
def test_what_moves_the_point_of_entrance(kind: str, more: str, rest: str, told: list[str]) -> None:
    text = cable(
        f"wall: 1 m, den: {{length: 9 m, in: R}}, den: {rest}", "unlisted", "from: G, to: P", "series 6 outdoor"
    )
    assert outcomes(INDOORS, reviewed(text, CONDUIT.format(kind=kind, more=more))) == told


def test_conduit_deeper_in_moves_nothing() -> None:
    text = cable("wall: 1 m, den: 15 m, den: {length: 9 m, in: R}", "unlisted", "from: G, to: P", "series 6 outdoor")
    more = CONDUIT.format(kind="rigid metal conduit", more=", bonded: true")
    assert outcomes(INDOORS, reviewed(text, more)) == ["not met"]


@pytest.mark.parametrize(
    ("route", "type_", "use", "told"),
    [
        ("den: 4 m", "series 6", "occupancy: commercial", ["not met"]),
        ("den: 4 m", "series 6", "occupancy: multifamily dwelling", []),
        ("den: 4 m", "series 6", "occupancy: two-family dwelling", []),
        ("den: 4 m", "series 6", "occupancy: mobile home", []),
        ("den: 4 m", "series 11", "occupancy: mobile home", ["not met"]),
        ("den: 4 m", "series 6", "", ["cannot be judged"]),
        ("den: 4 m", "series 11", "", ["not met"]),
        ("den: {length: 4 m, in: R}", "series 6", "occupancy: commercial", []),
        ("den: {length: 4 m, in: R}, den: 3 m", "series 6", "occupancy: commercial", []),
        ("den: 2 m, den: 2 m", "series 6", "occupancy: commercial", ["not met"]),
    ],
)
def test_cable_of_limited_use(route: str, type_: str, use: str, told: list[str]) -> None:
    more = CONDUIT.format(kind="inner duct", more="")
    assert outcomes(INDOORS, reviewed(cable(route, "CATVX", type_=type_), more, use=use)) == told


@pytest.mark.parametrize(
    ("ends", "told"),
    [
        ("from: A, to: P", []),  # an aerial without a place is taken to stand outdoors
        ("from: S, to: O", ["not met"]),
    ],
)
def test_an_aerial_without_a_place_is_outdoors(ends: str, told: list[str]) -> None:
    text = cable("den: 9 m", "unlisted", ends, "series 6 outdoor")
    assert outcomes(INDOORS, reviewed(text)) == told


@pytest.mark.parametrize(
    ("kind", "holds", "told"),
    [
        ("inner duct", "power cable", ["not met"]),
        ("inner duct", "{what: power cable, at: 2 in}", ["not met"]),
        ("inner duct", "{what: power cable, barrier: true}", []),
        ("inner duct", "telephone cable", []),
        ("cable tray", "power cable", []),
        ("box", "power cable", ["not met"]),
        ("box", "lighting circuit", ["not met"]),
        ("box", "Class 1 circuit", ["not met"]),
        ("box", "fire alarm power circuit", ["not met"]),
        ("box", "{what: power cable, at: 0.2 in}", ["not met"]),
        ("box", "{what: power cable, at: 2 in}", ["needs a person"]),
        ("box", "{what: power cable, at: 2 in}, power cable", ["not met"]),
    ],
)
def test_power_in_a_raceway(kind: str, holds: str, told: list[str]) -> None:
    review = reviewed(cable("den: {length: 9 ft, in: R}"), f"raceways: {{R: {{kind: {kind}, holds: [{holds}]}}}}\n")
    assert outcomes(POWER, review) == told
    assert judged(POWER, review) == (kind != "cable tray" and "telephone" not in holds)


def test_a_raceway_without_coax_is_not_asked_and_the_nearest_power_is_told() -> None:
    empty = reviewed(cable("den: 9 ft"), "raceways: {R: {kind: box, holds: [power cable]}}\n")
    assert (judged(POWER, empty), judged(FILL, empty)) == (0, 0)
    holds = "{what: power cable, at: 0.2 in}, {what: lighting circuit, at: 0.1 in}"
    (found,) = of(
        POWER, reviewed(cable("den: {length: 9 ft, in: R}"), f"raceways: {{R: {{kind: box, holds: [{holds}]}}}}\n")
    )
    assert "0.1 in apart" in found.found
    assert "0.15 in further off" in found.remedy


@pytest.mark.parametrize(
    ("number", "inner", "told"),
    [
        # Areas of circles of 0.272 in over that of the duct: 53, 31 and 40 % of chapter 9, table 1.
        (1, "0.374 in", []),
        (1, "0.373 in", ["not met"]),
        (2, "0.691 in", []),
        (2, "0.690 in", ["not met"]),
        (3, "0.745 in", []),
        (3, "0.744 in", ["not met"]),
        (4, "0.861 in", []),
        (4, "0.860 in", ["not met"]),
    ],
)
def test_shares_of_a_raceway(number: int, inner: str, told: list[str]) -> None:
    cables = ", ".join(
        f"C{index}: {{from: S, to: O, type: series 6, route: [{', '.join(['den: {length: 9 ft, in: R}'] * 2)}]}}"
        for index in range(number)
    )
    assert outcomes(FILL, reviewed(cables, f"raceways: {{R: {{kind: inner duct, inner diameter: {inner}}}}}\n")) == told


def test_a_larger_size_is_of_the_same_kind_and_wide_enough() -> None:
    """Chapter 9, table 4, from memory: electrical metallic tubing of 1/2 has 0.622 in, of 3/4 0.824; two cables
    want 0.691."""
    cables = ", ".join(
        f"C{i}: {{from: S, to: O, type: series 6, route: [den: {{length: 9 ft, in: R}}]}}" for i in (1, 2)
    )
    sized = "raceways: {R: {kind: electrical metallic tubing, trade size: 1/2}}\n"
    (found,) = of(FILL, reviewed(cables, sized))
    assert "take trade size 3/4" in found.remedy
    (found,) = of(FILL, reviewed(cables, "raceways: {R: {kind: inner duct, inner diameter: 0.5 in}}\n"))
    assert "take a larger raceway" in found.remedy


@pytest.mark.parametrize(
    ("basis", "building", "use", "stated", "told"),
    [
        ("country: DE", "", "one-family dwelling", "Eca", []),
        ("country: DE", "", "one-family dwelling", "Fca", ["deficiency"]),
        ("country: DE", "", "commercial", "Dca", ["advice"]),
        ("country: DE", "", "commercial", "Cca", []),
        ("country: DE", "", "commercial", "Fca", ["deficiency"]),
        ("country: US", "", "commercial", "Fca", []),
        ("country: US", "country: FR", "one-family dwelling", "Fca", ["deficiency"]),
        ("country: DE", "country: US", "one-family dwelling", "Fca", []),
    ],
)
@pytest.mark.parametrize("route", ["route: [room: 9 m]", "length: 9 m"])
def test_the_class_of_the_country(
    basis: str, building: str, use: str, stated: str, told: list[str], route: str
) -> None:
    """EN 50575, from memory: Aca burns least; Eca is the common minimum, Cca is usual in offices."""
    text = (
        f"coaxwright: 1\ntitle: Bench (invented)\nbasis: {{rulesets: [trade 1], {basis}, occupancy: {use}}}\n"
        f"buildings: {{b: {{{building}}}}}\nplaces:\n  room: {{building: b}}\n"
        "  wall: {building: b, exposure: outdoors}\n"
        "devices: {S: {kind: splitter, ways: 2, place: room}, O: {kind: outlet, place: room}, G: {kind: ground block,"
        " place: wall}, H: {kind: ground block, place: wall}}\n"
        f"cables: {{C: {{from: S, to: O, type: series 6, fire class: {stated}, {route}}},"
        " W: {from: G, to: H, type: series 6 outdoor, fire class: Fca, route: [wall: 9 m]}}\n"
    )
    review = judge(read_text(text, "bench.coax.yaml"), shipped_registry())
    assert review.crashes == ()
    assert [one.severity.value for one in of(FIRE, review)] == told
    assert judged(FIRE, review) == (0 if "US" in (building or basis) else 1)


UNLISTED = ("unlisted", "from: G, to: S", "series 6 outdoor")


def test_another_cable_without_a_protector_does_not_hide_this_one() -> None:
    own = cable("wall: 1 m, den: 2 m", *UNLISTED)
    other = "L: {from: D, to: O, type: series 6 outdoor, listing: CATV, route: [wall: 1 m, den: 2 m]}"
    assert outcomes(INDOORS, reviewed(own)) == outcomes(INDOORS, reviewed(f"{own}, {other}")) == ["not met"]


def test_what_lies_in_bonded_conduit_from_the_wall_to_its_end_is_not_inside() -> None:
    more = CONDUIT.format(kind="rigid metal conduit", more=", bonded: true")
    assert outcomes(INDOORS, reviewed(cable("wall: 1 m, den: {length: 9 m, in: R}", *UNLISTED), more)) == []


def test_of_two_stretches_in_one_building_the_longer_is_told() -> None:
    text = cable("den: 20 m, wall: 1 m, den: 3 m", "unlisted", "from: S, to: O", "series 6 outdoor")
    (found,) = of(INDOORS, reviewed(text))
    assert "20 m" in found.found


def test_a_listed_type_is_offered_for_one_of_limited_use() -> None:
    (found,) = of(INDOORS, reviewed(cable("den: 9 m", "CATVX")))
    assert "take 'series 6 riser'" in found.remedy
