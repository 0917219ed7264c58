"""Every rule's own examples: findings stand where the examples say and nowhere else, in any order of the file."""

from __future__ import annotations

import json
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from random import Random

import pytest
from _pytest.mark.structures import ParameterSet
from jsonschema import Draft202012Validator

from coaxwright.findings import Finding, Outcome
from coaxwright.reviewing import DesignReview, judge
from coaxwright.rules import Rule, Severity, combine, shipped_registry
from coaxwright.rules.examples import SCHEMA_FILE, Example, example_files, examples_of
from coaxwright.shipped import shipped
from coaxwright.source import read_file, read_text

SECTIONS = ("devices:", "cables:", "bonding:")
NO_FIGURE_CAN_BE_MISSING = {
    "plan.reference-known",
    "plan.port-single-use",
    "plan.dead-end",
    "plan.direction-kept",
    "plan.label-complete",
    "plan.length-stated",
    "plan.outlet-fed",
    "plan.tag-unique",
    "bonding.conductor-size",
    "bonding.termination-present",
    "bonding.termination-used",
    "antenna.service-mast",
    "antenna.booster-kit",
    "bonding.conductor-route",
    "bonding.metals-compatible",
    "protection.accessible",
    "protection.listed",
    "protection.order",
    "cable.conductor-gauge",
    "cable.oversized",
    "cable.sheet-plausible",
    "indata.entry-filter",
    "level.loss-plausible",
    "level.unused-terminated",
    "impedance.application-usual",
    "impedance.geometry-plausible",
    "impedance.path-uniform",
    "level.amplifier-needless",
    "route.drip-loop",
    "satellite.inputs-match",
    "route.power-raceway",
    "variance.current",
    "variance.named",
    "variance.single",
    "variance.used",
}
"""Rules whose check never finds a figure missing: what names nothing is their finding."""


def schema() -> object:
    return json.loads((shipped("schemas") / SCHEMA_FILE).read_text(encoding="utf-8"))


def _runs() -> Iterator[ParameterSet]:
    shelf = shipped_registry()
    for example in EXAMPLES:
        for edition in shelf.editions(example.ruleset):
            label = f"{example.ruleset} {edition}"
            yield pytest.param(example, label, id=f"{label}: {example.rule}: {example.title}")


EXAMPLES = [example for file in example_files() for example in examples_of(file.stem, [f"{file.parent.parent.name} 1"])]
RUNS = list(_runs())
"""Every example under every edition of the ruleset that it stands beside."""


@cache
def reviewed(text: str) -> DesignReview:
    review = judge(read_text(text, "example.coax.yaml"), shipped_registry())
    assert [str(problem) for problem in review.problems] == []
    assert review.crashes == ()
    return review


def of_rule(review: DesignReview, example: Example) -> list[Finding]:
    return [finding for finding in review.findings if finding.rule == example.rule]


def told(review: DesignReview) -> list[tuple[object, ...]]:
    """What must not depend on the order of the file."""
    return sorted((f.identity, f.outcome, f.severity.rank, f.found, f.required, f.remedy) for f in review.findings)


def entries(lines: list[str]) -> list[list[str]]:
    """The entries of one section: a line at the section's own depth with those that belong to it."""
    found: list[list[str]] = []
    for line in lines:
        if not found or not line.startswith("   "):
            found.append([])
        found[-1].append(line)
    return found


def shuffled(text: str, random: Random) -> str:
    """The same design with its devices, its cables and its bonding items in another order."""
    sections: list[list[str]] = []
    for line in text.splitlines():
        if not line.startswith(" "):
            sections.append([])
        sections[-1].append(line)
    for section in sections:
        if section[0] in SECTIONS:
            inner = entries(section[1:])
            random.shuffle(inner)
            section[1:] = [line for entry in inner for line in entry]
    return "\n".join(line for section in sections for line in section) + "\n"


@pytest.mark.parametrize(("example", "label"), RUNS)
def test_findings_stand_exactly_where_the_example_marks_them(example: Example, label: str) -> None:
    text = example.under(label)
    assert label in text
    findings = of_rule(reviewed(text), example)
    found = {(finding.place.span.start.line, str(finding.outcome)) for finding in findings}
    assert found == {(mark.line, mark.outcome) for mark in example.marks}


@pytest.mark.parametrize(("example", "label"), RUNS)
def test_findings_say_what_and_how_much(example: Example, label: str) -> None:
    findings = of_rule(reviewed(example.under(label)), example)
    said = "\n".join(f"{finding.found}\n{finding.required}\n{finding.remedy}" for finding in findings)
    assert [words for words in example.says if words not in said] == []
    assert "{" not in said


@pytest.mark.parametrize(("example", "label"), RUNS)
def test_right_is_judged_and_met_and_does_not_apply_is_not_judged(example: Example, label: str) -> None:
    (tally,) = (tally for tally in reviewed(example.under(label)).tallies if tally.rule == example.rule)
    judged = tally.met + tally.not_met + tally.cannot_be_judged + tally.needs_a_person
    if example.kind == "does not apply":
        assert judged == 0
    else:
        assert judged >= max(1, len(example.marks))
    if example.kind == "right":
        assert judged == tally.met


@pytest.mark.parametrize(("example", "label"), RUNS)
def test_order_of_the_file_does_not_show(example: Example, label: str) -> None:
    text = example.under(label)
    random = Random(example.title)
    expected = told(reviewed(text))
    for _ in range(3):
        assert told(reviewed(shuffled(text, random))) == expected


@pytest.mark.parametrize("example", EXAMPLES, ids=lambda example: f"{example.rule}: {example.title}")
def test_shuffling_moves_lines_and_loses_none(example: Example) -> None:
    assert sorted(shuffled(example.design, Random(1)).splitlines()) == sorted(example.design.splitlines())


WHERE_PRACTICABLE = {"800.53", "820.44(E)(3)"}
"""Clauses that ask for a distance from lightning conductors where it is practicable."""


@pytest.mark.parametrize(("example", "label"), RUNS)
def test_only_a_ruleset_with_a_code_makes_violations(example: Example, label: str) -> None:
    """In a code's ruleset, what cites the code is a violation, and what rests on practice alone is none.

    Nor is what a clause asks for only where it is practicable, by its own words.
    """
    for finding in of_rule(reviewed(example.under(label)), example):
        if finding.outcome is Outcome.NOT_MET:
            published = [source.clause for source in finding.sources if source.confidence != "common practice"]
            binds = not set(published) <= WHERE_PRACTICABLE
            breaks_a_code = example.ruleset != "trade" and binds
            assert (finding.severity is Severity.VIOLATION) == breaks_a_code


def _own_rules() -> Iterator[ParameterSet]:
    shelf = shipped_registry()
    for name in shelf.names:
        for rule in combine([shelf.newest(name)], shelf).rules.values():
            adds = rule.origins["check"].partition(" ")[0] == name
            hardens = rule.severity is Severity.VIOLATION
            if adds or hardens:
                yield pytest.param(rule, name, id=f"{name}: {rule.name}")


LEFT_TO_A_PERSON = {"protection.entry-distance"}
"""Rules that no number decides, in any edition: somebody has to look."""
OWN_RULES = list(_own_rules())
"""Each rule with the ruleset that adds it, and with each that makes it a violation."""


@pytest.mark.parametrize(("rule", "ruleset"), OWN_RULES)
def test_every_rule_has_right_wrong_and_boundary_examples(rule: Rule, ruleset: str) -> None:
    own = examples_of(rule.name, [f"{ruleset} 1"])
    kinds = {example.kind for example in own}
    wrong, not_met = ("needs a person",) * 2 if rule.name in LEFT_TO_A_PERSON else ("wrong", "not met")
    assert {"right", wrong, "boundary"} <= kinds
    boundaries = [example.marks for example in own if example.kind == "boundary"]
    assert any(not marks for marks in boundaries), "a boundary that is met"
    assert any(mark.outcome == not_met for marks in boundaries for mark in marks), "a boundary that is not met"
    if rule.name not in NO_FIGURE_CAN_BE_MISSING:
        assert "cannot be judged" in kinds


@pytest.mark.parametrize("path", example_files(), ids=lambda path: f"{path.parent.parent.name}/{path.name}")
def test_files_of_examples_keep_the_contract(path: Path) -> None:
    data = read_file(path, path.name).data
    assert [error.message for error in Draft202012Validator(schema()).iter_errors(data)] == []
    ruleset = path.parent.parent.name
    assert path.stem in combine([shipped_registry().newest(ruleset)], shipped_registry()).rules
    own = examples_of(path.stem, [f"{ruleset} 1"])
    assert len({example.title for example in own}) == len(own)


@pytest.mark.parametrize("example", EXAMPLES, ids=lambda example: f"{example.rule}: {example.title}")
def test_an_example_is_small_invented_and_of_its_own_ruleset(example: Example) -> None:
    assert len(example.design.splitlines()) <= 40
    assert "(invented)" in example.design.splitlines()[1]
    assert f"rulesets: [{example.ruleset} " in example.design


def test_schema_of_examples_is_a_schema() -> None:
    Draft202012Validator.check_schema(schema())
    refused = Draft202012Validator(schema())
    assert refused.is_valid({"rule": "a.b", "examples": [{"kind": "right", "title": "t", "design": "coaxwright: 1\n"}]})
    marked = {"kind": "right", "title": "t", "design": "coaxwright: 1\n# here: not met"}
    assert not refused.is_valid({"rule": "a.b", "examples": [marked]})
    assert not refused.is_valid({"rule": "a.b", "examples": [{**marked, "kind": "needs a person"}]})
    assert refused.is_valid({"rule": "a.b", "examples": [{**marked, "kind": "wrong"}]})
