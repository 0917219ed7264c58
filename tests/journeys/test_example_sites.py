"""The example sites: each is returned as first drawn, clear as corrected, and told in exactly the words beside it."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from coaxwright.rules import combine, shipped_registry

EXAMPLES = Path(__file__).parents[2] / "examples"
SITES = sorted(path.name for path in EXAMPLES.iterdir() if path.is_dir() and path.name not in ("ci", "plan-repository"))
DESIGNS = {"as-drawn": 1, "corrected": 0}
VARIED = {"gannet-house": 1}
"""Findings of corrected sites for which somebody granted an exception."""


def rules_shipped() -> set[str]:
    shelf = shipped_registry()
    labels = [f"{name} {edition}" for name in shelf.names for edition in shelf.editions(name)]
    return {rule for label in labels for rule in combine([label], shelf).rules}


@pytest.mark.parametrize("name", DESIGNS)
@pytest.mark.parametrize("place", SITES)
def test_a_site_gives_the_review_that_stands_beside_it(coax, without_counts, place: str, name: str) -> None:
    """Brought up to date by: coaxwright review NAME.coax.yaml --width 80 --into NAME.review.txt"""
    told = coax("review", f"{name}.coax.yaml", "--width", "80", cwd=EXAMPLES / place)
    assert (told.returncode, told.stderr) == (DESIGNS[name], "")
    kept = (EXAMPLES / place / f"{name}.review.txt").read_text(encoding="utf-8")
    assert without_counts(told.stdout) == without_counts(kept)


@pytest.mark.parametrize("place", SITES)
def test_a_corrected_site_leaves_nothing_to_a_person_or_to_a_missing_figure(coax, place: str) -> None:
    told = json.loads(coax("review", "corrected.coax.yaml", "--as", "json", cwd=EXAMPLES / place).stdout)
    assert told["result"] == "clear"
    assert [one["rule"] for one in told["designs"][0]["findings"] if one["varied"] is None] == []
    assert told["totals"]["varied"] == VARIED.get(place, 0)


@pytest.mark.parametrize("name", DESIGNS)
@pytest.mark.parametrize("place", SITES)
def test_a_site_is_shown_within_the_width(coax, place: str, name: str) -> None:
    told = coax("show", f"{name}.coax.yaml", "--width", "80", cwd=EXAMPLES / place)
    assert (told.returncode, told.stderr) == (0, "")
    assert [line for line in told.stdout.splitlines() if len(line) > 80] == []


@pytest.mark.parametrize("place", SITES)
def test_both_designs_are_of_the_same_invented_place(place: str) -> None:
    designs = {path.name: path.read_text(encoding="utf-8").splitlines() for path in (EXAMPLES / place).glob("*.yaml")}
    designs = {name: lines for name, lines in designs.items() if not name.endswith(".coax-punch-list.yaml")}
    assert {f"{name}.coax.yaml" for name in DESIGNS} <= set(designs)
    assert [name for name, lines in designs.items() if "invented" not in lines[0]] == []
    titles = {line for lines in designs.values() for line in lines if line.startswith("title: ")}
    assert len(titles) == 1
    assert titles.pop().endswith(" (invented)")


TOPICS_OF_THE_SITES = {"bonding", "cable", "impedance", "jacket", "level", "plan", "protection", "return", "satellite"}
"""What the mistakes of the sites as drawn are about. Every rule is broken by examples of its own (tests/rules)."""


def test_the_sites_as_drawn_break_rules_of_many_topics(coax) -> None:
    files = [f"{place}/as-drawn.coax.yaml" for place in SITES]
    told = json.loads(coax("review", *files, "--as", "json", cwd=EXAMPLES).stdout)
    findings = [finding for design in told["designs"] for finding in design["findings"]]
    broken = {finding["rule"] for finding in findings if finding["outcome"] in ("not met", "needs a person")}
    assert broken <= rules_shipped()
    assert len(broken) >= 16
    assert {rule.partition(".")[0] for rule in broken} == TOPICS_OF_THE_SITES
