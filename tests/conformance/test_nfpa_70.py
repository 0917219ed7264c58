"""NFPA 70, National Electrical Code: every limit of every edition of ``us`` equals the fact with its clause.

The facts are single figures as secondary publications print them; how each was seen stands in the data file.
"""

from __future__ import annotations

import csv
from pathlib import Path

import pytest

from coaxwright.checks import Limit
from coaxwright.rules import combine, shipped_shelf

DATA = Path(__file__).parent / "data" / "nfpa_70.csv"
ROWS = list(csv.DictReader(DATA.read_text(encoding="utf-8").splitlines()))
EDITIONS = ("2017", "2020", "2023")

FACT_OF = {
    ("bonding.conductor-present", "size", "shield", "copper"): "shield-bond-smallest",
    ("bonding.conductor-present", "size", "antenna", "copper"): "antenna-bond-copper",
    ("bonding.conductor-size", "smallest", "shield", "copper"): "shield-bond-smallest",
    ("bonding.conductor-size", "smallest", "termination", "copper"): "termination-joined",
    ("bonding.conductor-size", "ceiling", "shield", "copper"): "shield-bond-ceiling",
    ("bonding.conductor-size", "smallest", "antenna", "copper"): "antenna-bond-copper",
    ("bonding.conductor-size", "smallest", "antenna", "aluminium"): "antenna-bond-aluminium",
    ("bonding.conductor-size", "smallest", "antenna", "copper-clad steel"): "antenna-bond-clad-steel",
    ("bonding.conductor-size", "smallest", "antenna", "bronze"): "antenna-bond-bronze",
    ("bonding.conductor-length", "longest"): "shield-bond-longest",
    ("bonding.conductor-length", "joining", "copper"): "electrodes-joined",
    ("bonding.electrode-shared", "joining", "copper"): "electrodes-joined",
}


def limits(edition: str) -> dict[tuple[str, ...], Limit]:
    """The limits that the edition itself sets, by rule, name and keys."""
    rules = combine([f"us {edition}"], shipped_shelf()).rules.values()
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


def test_every_fact_is_used_and_the_editions_are_those_shipped() -> None:
    assert {row["id"] for row in ROWS} == set(FACT_OF.values())
    assert tuple(shipped_shelf().editions("us")) == EDITIONS
    assert len(ROWS) == len({(row["id"], row["edition"]) for row in ROWS}) == len(EDITIONS) * len(set(FACT_OF.values()))


@pytest.mark.parametrize("edition", EDITIONS)
def test_clauses_follow_the_edition(edition: str) -> None:
    """Articles 800, 820, 830 and 840 shared their common rules from 2020 on; article 810 kept its numbers."""
    bonding = "820.100" if edition == "2017" else "800.100"
    for rule in combine([f"us {edition}"], shipped_shelf()).rules.values():
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
