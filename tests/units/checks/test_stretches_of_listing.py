"""Unlisted cable through one building after another, either way round, and without a route. NFPA 70, 800.48."""

from __future__ import annotations

import pytest

from coaxwright.findings import Finding
from coaxwright.reviewing import judge
from coaxwright.rules import shipped_registry
from coaxwright.source import read_text

INDOORS = "jacket.listed-indoors"
SITE = """\
coaxwright: 1
title: Bench (invented)
basis: {rulesets: [us 2023], occupancy: commercial}
buildings: {a: {}, b: {}}
places:
  wall a: {building: a, exposure: outdoors}
  wall b: {building: b, exposure: outdoors}
  room a: {building: a}
  room b: {building: b}
raceways: {R: {kind: rigid metal conduit, bonded: true}}
services:
  video: {kind: camera video, from: CAM, down: {band: 50 Hz to 6 MHz}}
  net: {kind: in-home data, from: CAM, down: {band: 470 MHz to 478 MHz}}
devices:
  G: {kind: ground block, place: wall b}
  H: {kind: ground block, place: wall b}
  P: {kind: ground block, place: room a}
  Q: {kind: ground block, place: room b}
  S: {kind: splitter, ways: 8, place: room a}
  T: {kind: splitter, ways: 8, place: room b}
  D: {kind: coax drop}
  ANT: {kind: antenna}
  X: {kind: splitter, ways: 8}
  CAM: {kind: camera, place: room a}
  REC: {kind: outlet, place: room a, serves: [video, net]}
cables:
"""


def told(*cables: str) -> list[tuple[str, str]]:
    """The facet, which is the building, and the case of each finding of the cable C."""
    return [(finding.identity.facet, finding.case) for finding in findings(*cables)]


def findings(*cables: str) -> list[Finding]:
    text = SITE + "".join(f"  {cable}\n" for cable in cables)
    review = judge(read_text(text, "bench.coax.yaml"), shipped_registry())
    assert [str(problem) for problem in review.problems] == []
    assert review.crashes == ()
    return [finding for finding in review.unfolded if finding.rule == INDOORS and finding.subject.tag == "C"]


def cable(from_: str, to: str, *route: str, tag: str = "C", mark: str = "unlisted") -> str:
    way = f"route: [{', '.join(route)}]" if len(route) > 1 or ":" in route[0] else f"length: {route[0]}"
    return f"{tag}: {{from: {from_}, to: {to}, type: series 6 outdoor, listing: {mark}, {way}}}"


def both_ways(from_: str, to: str, *route: str) -> list[str]:
    return [cable(from_, to, *route), cable(to, from_, *route[::-1])]


def test_a_protector_in_the_next_building_ends_nothing_in_this_one() -> None:
    """Between houses that stand wall to wall a cable comes in from outdoors once, and goes on into the next."""
    for into_a in both_ways("G", "P", "wall b: 1 m", "room b: 3 m", "room a: 3 m"):
        assert sorted(told(into_a)) == [("a", "starts inside"), ("b", "no protector")]
    from_a = cable("H", "G", "room a: 3 m", "room b: 3 m", "wall b: 1 m")
    assert sorted(told(from_a)) == [("a", "no protector"), ("b", "no protector")]


@pytest.mark.parametrize("way", both_ways("G", "Q", "wall b: 1 m", "room b: {length: 9 m, in: R}", "room b: 15 m"))
def test_conduit_counts_from_the_wall_inwards(way: str) -> None:
    """15 m of 50 ft (15 m) are left behind the inner end of the conduit; from the other end they would be 24 m."""
    assert told(way) == []


@pytest.mark.parametrize(
    ("from_", "expected"),
    [("D", []), ("ANT", []), ("X", [("b", "starts inside")]), ("T", [("b", "starts inside")])],
)
def test_a_drop_or_an_aerial_without_a_place_is_outdoors_and_another_part_is_not(
    from_: str, expected: list[tuple[str, str]]
) -> None:
    assert told(cable(from_, "Q", "room b: 3 m")) == expected


def test_where_no_entry_is_drawn_a_protector_is_missed_all_the_same() -> None:
    assert told(cable("D", "T", "room b: 3 m")) == [("b", "no protector")]


@pytest.mark.parametrize(("from_", "to", "building"), [("S", "P", "a"), ("S", "Q", "a"), ("T", "P", "b")])
def test_without_a_route_a_cable_between_two_ends_inside_starts_inside(from_: str, to: str, building: str) -> None:
    assert told(cable(from_, to, "9 m")) == [(building, "starts inside")]


def test_an_unprotected_cable_into_the_same_building_hides_nothing() -> None:
    own = cable("G", "T", "wall b: 1 m", "room b: 2 m")
    other = cable("D", "T", "wall b: 1 m", "room b: 2 m", tag="L", mark="CATV")
    assert told(own) == told(own, other) == [("b", "no protector")]


@pytest.mark.parametrize(("mark", "expected"), [("CL2", [("", "other circuits")]), ("CM", [])])
def test_a_mark_for_other_circuits_is_asked_about_if_anything_but_video_runs_over_it(
    mark: str, expected: list[tuple[str, str]]
) -> None:
    assert told(cable("CAM", "REC", "room a: 9 m", mark=mark)) == expected


@pytest.mark.parametrize(("said", "outcome"), [("", "cannot be judged"), (", return air: true", "not met")])
def test_where_every_place_is_above_a_ceiling_the_air_in_it_is_asked_for(said: str, outcome: str) -> None:
    text = (
        "coaxwright: 1\ntitle: Bench (invented)\nbasis: {rulesets: [us 2023], occupancy: commercial}\n"
        f"places: {{void: {{exposure: plenum{said}}}}}\n"
        "devices: {S: {kind: splitter, ways: 2, place: void}, O: {kind: outlet, place: void}}\n"
        "cables: {C: {from: S, to: O, type: series 6, listing: CATV, route: [void: 9 m]}}\n"
    )
    review = judge(read_text(text, "bench.coax.yaml"), shipped_registry())
    assert [str(one.outcome) for one in review.unfolded if one.rule == "jacket.plenum"] == [outcome]
