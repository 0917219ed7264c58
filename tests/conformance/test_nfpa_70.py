"""NFPA 70, National Electrical Code: every limit of every edition of ``us`` equals the fact with its clause.

The facts are single figures as secondary publications print them; how each was seen stands in the data file.
"""

from __future__ import annotations

import csv
from pathlib import Path

import pytest

from coaxwright.checks import Limit
from coaxwright.reviewing import judge
from coaxwright.rules import combine, shipped_registry
from coaxwright.source import read_text

DATA = Path(__file__).parent / "data" / "nfpa_70.csv"
ROWS = list(csv.DictReader(DATA.read_text(encoding="utf-8").splitlines()))
EDITIONS = shipped_registry().editions("us")

FACT_OF = {
    ("bonding.conductor-present", "size", "shield", "copper"): "shield-bond-smallest",
    ("bonding.conductor-present", "size", "antenna", "copper"): "antenna-bond-copper",
    ("bonding.conductor-size", "smallest", "shield", "copper"): "shield-bond-smallest",
    ("bonding.conductor-size", "smallest", "termination", "copper"): "termination-joined",
    ("bonding.conductor-size", "ceiling", "shield", "copper"): "shield-bond-ceiling",
    ("bonding.conductor-size", "smallest", "antenna", "copper"): "antenna-bond-copper",
    ("bonding.conductor-size", "smallest", "antenna", "aluminum"): "antenna-bond-aluminum",
    ("bonding.conductor-size", "smallest", "antenna", "copper-clad steel"): "antenna-bond-clad-steel",
    ("bonding.conductor-size", "smallest", "antenna", "bronze"): "antenna-bond-bronze",
    ("bonding.conductor-length", "longest"): "shield-bond-longest",
    ("bonding.conductor-length", "joining", "copper"): "electrodes-joined",
    ("bonding.electrode-shared", "joining", "copper"): "electrodes-joined",
    ("bonding.electrode-rod", "rod"): "rod-length",
    ("bonding.electrode-rod", "rod at the least"): "rod-at-the-least",
    ("bonding.electrode-rod", "pipe"): "pipe-from-entry",
    ("protection.entry-distance", "mobile home"): "mobile-home-apart",
    ("jacket.riser", "most"): "riser-floors",
    ("jacket.listed-indoors", "longest"): "unlisted-longest",
    ("jacket.listed-indoors", "short"): "limited-short",
    ("jacket.listed-indoors", "thin"): "limited-thin",
    ("route.power-separation", "least", "indoors"): "indoor-open-wiring",
    ("route.power-separation", "least", "on the building"): "building-open-wiring",
    ("route.power-raceway", "gap"): "box-gap",
    ("route.aerial-clearance", "power", "drop"): "aerial-power-drop",
    ("route.aerial-clearance", "power", "lead-in"): "lead-in-power",
    ("route.aerial-clearance", "power", "lead-in, higher voltage"): "lead-in-higher-power",
    ("route.aerial-clearance", "higher voltage"): "lead-in-voltage",
    ("route.aerial-clearance", "lightning"): "lightning-apart",
    ("route.aerial-clearance", "roof"): "roof-height",
    ("route.aerial-clearance", "steep roof"): "steep-roof-height",
    ("route.aerial-clearance", "slope"): "steep-roof-slope",
    ("route.aerial-clearance", "overhang"): "overhang-height",
    ("route.aerial-clearance", "reach"): "overhang-reach",
    ("route.buried-separation", "least"): "buried-apart",
}


def limits(edition: str) -> dict[tuple[str, ...], Limit]:
    """The limits that the edition itself sets, by rule, name and keys."""
    rules = combine([f"us {edition}"], shipped_registry()).rules.values()
    return {
        (rule.name, limit.name, *limit.keys): limit
        for rule in rules
        for limit in rule.limits.all()
        if limit.origin == f"us {edition}"
    }


def fact(name: str, edition: str) -> dict[str, str]:
    (row,) = (row for row in ROWS if row["id"] == name and row["edition"] == edition)
    return row


def written(row: dict[str, str]) -> str:
    """A fact as a ruleset writes it: ``14 AWG copper``, ``20 ft (6.0 m)``."""
    values, units = row["value"].split("; "), row["units"].split("; ")
    first, *others = (f"{value} {unit}" for value, unit in zip(values, units, strict=True))
    return f"{first} ({others[0]})" if others else first


@pytest.mark.parametrize("edition", EDITIONS)
@pytest.mark.parametrize("key", FACT_OF, ids=" / ".join)
def test_limit_equals_the_fact(edition: str, key: tuple[str, ...]) -> None:
    limit, row = limits(edition)[key], fact(FACT_OF[key], edition)
    assert limit.value.text == written(row)
    assert limit.source.document == "NFPA 70"
    assert limit.source.edition == edition
    assert limit.source.clause == row["clause"]
    assert limit.source.confidence == row["confidence"]


@pytest.mark.parametrize("edition", EDITIONS)
def test_every_edition_sets_every_limit_itself(edition: str) -> None:
    assert set(limits(edition)) == set(FACT_OF)


def test_every_fact_is_used_and_known_for_each_edition_that_is_shipped() -> None:
    assert {row["id"] for row in ROWS} == set(FACT_OF.values())
    assert {row["edition"] for row in ROWS} == set(EDITIONS)
    assert len(ROWS) == len({(row["id"], row["edition"]) for row in ROWS}) == len(EDITIONS) * len(set(FACT_OF.values()))


@pytest.mark.parametrize("edition", EDITIONS)
def test_clauses_follow_the_edition(edition: str) -> None:
    """Articles 800, 820, 830 and 840 shared their common rules from 2020 on; article 810 kept its numbers."""
    bonding = "820.100" if edition == "2017" else "800.100"
    for rule in combine([f"us {edition}"], shipped_registry()).rules.values():
        if not rule.origins["sources"].startswith("us "):
            continue
        assert rule.origins["sources"] == f"us {edition}"
        for source in rule.sources:
            if source.confidence == "common practice" or source.document != "NFPA 70":
                continue
            assert source.edition == edition
            if ".100" in source.clause:
                assert bonding in source.clause
                assert "820.100" not in source.clause or bonding == "820.100"


def found(edition: str, design: str) -> list[tuple[str, str, str]]:
    """The findings of the listing rules on a design of one edition: rule, outcome, what is told."""
    head = f"coaxwright: 1\ntitle: Bench (invented)\nbasis: {{rulesets: [us {edition}], occupancy: commercial}}\n"
    review = judge(read_text(head + design, "bench.coax.yaml"), shipped_registry())
    assert [str(problem) for problem in review.problems] == []
    rules = {"jacket.listed-indoors", "jacket.plenum"}
    return [(one.rule, str(one.outcome), one.found) for one in review.findings if one.rule in rules]


ENTRANCE = """\
places: {{wall: {{exposure: outdoors}}, cellar: {{}}}}
raceways: {{RW: {{kind: {kind}, bonded: true}}}}
devices: {{D: {{kind: coax drop, place: wall}}, G: {{kind: ground block, place: cellar}}}}
cables:
  C: {{from: D, to: G, type: series 6 outdoor, listing: unlisted,
      route: [cellar: {{length: {in_raceway}, in: RW}}, cellar: {rest}]}}
"""


@pytest.mark.parametrize("edition", EDITIONS)
@pytest.mark.parametrize(
    ("kind", "in_raceway", "rest", "is_sound"),
    [
        ("rigid metal conduit", "40 ft", "50 ft", True),
        ("intermediate metal conduit", "40 ft", "50 ft", True),
        ("rigid metal conduit", "40 ft", "50.1 ft", False),
        ("electrical metallic tubing", "40 ft", "50 ft", False),
        ("electrical metallic tubing", "10 ft", "40 ft", True),
        ("rigid PVC conduit", "40 ft", "50 ft", False),
        ("rigid metal conduit", "12 m", "15 m", True),
        ("rigid metal conduit", "12 m", "15.01 m", False),
    ],
)
def test_fifty_feet_count_from_the_inner_end_of_rigid_metal(
    edition: str, kind: str, in_raceway: str, rest: str, is_sound: bool
) -> None:
    """Article 100 and 800.48: rigid or intermediate conduit carries the point of entrance inwards, tubing does not.

    As explained in training material on the 2005 edition (820.50, exception 3) and kept since.
    """
    findings = found(edition, ENTRANCE.format(kind=kind, in_raceway=in_raceway, rest=rest))
    assert [(rule, outcome) for rule, outcome, _ in findings] == (
        [] if is_sound else [("jacket.listed-indoors", "not met")]
    )


AIR = """\
places: {{ceiling: {{exposure: plenum{air}}}, hall: {{}}}}
raceways: {{RW: {{kind: {raceway}}}}}
devices: {{S: {{kind: splitter, ways: 2, place: hall}}, O: {{kind: outlet, place: hall}}}}
cables: {{C: {{from: S, to: O, type: series 6, listing: {mark}, route: [ceiling: {{length: 9 m, in: RW}}, hall: 2 m]}}}}
"""


@pytest.mark.parametrize("edition", EDITIONS)
@pytest.mark.parametrize(
    ("air", "raceway", "mark", "outcomes"),
    [
        (", return air: true", "inner duct", "CATVP", []),
        (", return air: true", "inner duct", "CMP", []),
        (", return air: true", "inner duct", "CATVR", ["not met"]),
        (", return air: true", "inner duct", "CATV", ["not met"]),
        (", return air: true", "electrical metallic tubing", "CATV", []),
        (", return air: false", "inner duct", "CATV", []),
        ("", "inner duct", "CATV", ["cannot be judged"]),
        ("", "inner duct", "CATVP", []),
    ],
)
def test_a_ceiling_with_return_air_takes_plenum_cable(
    edition: str, air: str, raceway: str, mark: str, outcomes: list[str]
) -> None:
    """Table 800.154(a) (820.154(a) until 2017) and 300.22(C), as a trade guide of the 2014 edition gives the table."""
    findings = found(edition, AIR.format(air=air, raceway=raceway, mark=mark))
    assert [outcome for rule, outcome, _ in findings if rule == "jacket.plenum"] == outcomes
