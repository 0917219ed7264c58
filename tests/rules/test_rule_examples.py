"""Every rule's own examples: findings stand where the examples say and nowhere else, in any order of the file."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterator
from dataclasses import fields, replace
from functools import cache
from pathlib import Path
from random import Random

import pytest
from _pytest.mark.structures import ParameterSet
from jsonschema import Draft202012Validator

from coaxwright.findings import Finding, Outcome
from coaxwright.reviewing import DesignReview, judge
from coaxwright.rules import EffectiveRules, Rule, Severity, combine, shipped_registry
from coaxwright.rules.examples import SCHEMA_FILE, Example, example_files, examples_of
from coaxwright.shipped import shipped
from coaxwright.source import read_file, read_text

SECTIONS = ("devices:", "cables:", "bonding:")
NO_FIGURE_CAN_BE_MISSING = {
    "plan.reference-known",
    "plan.port-single-use",
    "plan.dead-end",
    "plan.label-complete",
    "plan.length-stated",
    "plan.outlet-fed",
    "plan.tag-unique",
    "bonding.conductor-size",
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


@cache
def contract() -> Draft202012Validator:
    return Draft202012Validator(schema())


EXAMPLES = [example for file in example_files() for example in examples_of(file.stem, [f"{file.parent.parent.name} 1"])]


@cache
def basis(label: str) -> EffectiveRules:
    return combine([label], shipped_registry())


def labels_of(example: Example) -> tuple[str, ...]:
    """The editions under which an example is run, the newest first; one whose rule is the same is left out."""
    labels: list[str] = []
    for edition in reversed(shipped_registry().editions(example.ruleset)):
        label = f"{example.ruleset} {edition}"
        if all(bare(label, example.rule) != bare(known, example.rule) for known in labels):
            labels.append(label)
    return tuple(labels)


@cache
def bare(label: str, name: str) -> tuple[object, ...]:
    """A rule, with the owners that it defers to, without what only says which edition each part comes from."""
    rules = basis(label).rules
    rule = rules[name]
    limits = [replace(limit, origin="") for limit in rule.limits.all()]
    own = [getattr(rule, field.name) for field in fields(rule) if field.name not in {"limits", "origins"}]
    return (*own, limits, *(bare(label, owner.rule) for owner in rule.defers if owner.rule in rules))


def reviewed(text: str) -> DesignReview:
    review = judge(read_text(text, "example.coax.yaml"), shipped_registry())
    assert [str(problem) for problem in review.problems] == []
    assert review.crashes == ()
    return review


def of_rule(review: DesignReview, example: Example) -> list[Finding]:
    """What the rule finds, whether it defers or not; of what it groups, the first."""
    own = [finding for finding in review.unfolded if finding.rule == example.rule]
    return [finding for finding in own if finding.folded_under is None or finding.folded_under.rule != example.rule]


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


def shuffled(text: str, change: Callable[[list[list[str]]], None]) -> str:
    """The same design with its devices, its cables and its bonding items in another order."""
    sections: list[list[str]] = []
    for line in text.splitlines():
        if not line.startswith(" "):
            sections.append([])
        sections[-1].append(line)
    for section in sections:
        if section[0] in SECTIONS:
            inner = entries(section[1:])
            change(inner)
            section[1:] = [line for entry in inner for line in entry]
    return "\n".join(line for section in sections for line in section) + "\n"


def orders(text: str, random: Random) -> set[str]:
    """The same design in other orders: one in which every two entries have changed places, and one at random."""
    return {shuffled(text, list.reverse), shuffled(text, random.shuffle)} - {text}


@pytest.mark.parametrize("example", EXAMPLES, ids=lambda example: f"{example.ruleset}: {example.rule}: {example.title}")
def test_an_example_is_found_as_it_says(example: Example) -> None:
    """Under every edition of its ruleset whose rule is another, and in any order of the file."""
    for label in labels_of(example):
        expected = told(keeps_its_word(example, label))
        for other in orders(example.under(label), Random(example.title)):
            assert told(reviewed(other)) == expected, other


def keeps_its_word(example: Example, label: str) -> DesignReview:
    """What an edition finds in an example is where, what and how much the example says."""
    text = example.under(label)
    assert f"rulesets: [{label}]" in text
    review = reviewed(text)
    findings = of_rule(review, example)
    stand_where_they_are_marked(example, findings, label)
    say_what_and_how_much(example, findings, label)
    is_judged_as_its_kind_is(example, review, label)
    are_violations_of_a_code_alone(example, findings, label)
    return review


def stand_where_they_are_marked(example: Example, findings: list[Finding], label: str) -> None:
    found = {(finding.place.span.start.line, str(finding.outcome)) for finding in findings}
    assert found == {(mark.line, mark.outcome) for mark in example.marks}, label


def say_what_and_how_much(example: Example, findings: list[Finding], label: str) -> None:
    said = "\n".join(f"{finding.found}\n{finding.required}\n{finding.remedy}" for finding in findings)
    assert [words for words in example.says if words not in said] == [], label
    assert "{" not in said, label


def is_judged_as_its_kind_is(example: Example, review: DesignReview, label: str) -> None:
    """What is right is judged and met; what a rule does not apply to is not judged."""
    (tally,) = (tally for tally in review.tallies if tally.rule == example.rule)
    judged = tally.met + tally.not_met + tally.cannot_be_judged + tally.needs_a_person
    if example.kind == "does not apply":
        assert judged == 0, label
    else:
        assert judged >= max(1, len(example.marks)), label
    if example.kind == "right":
        assert judged == tally.met, label


WHERE_PRACTICABLE = {"800.53", "820.44(E)(3)"}
"""Clauses that ask for a distance from lightning conductors where it is practicable."""


def are_violations_of_a_code_alone(example: Example, findings: list[Finding], label: str) -> None:
    """In a code's ruleset, what cites the code is a violation, and what rests on practice alone is none.

    Nor is what a clause asks for only where it is practicable, by its own words.
    """
    for finding in findings:
        if finding.outcome is Outcome.NOT_MET:
            published = [source.clause for source in finding.sources if source.confidence != "common practice"]
            binds = not set(published) <= WHERE_PRACTICABLE
            breaks_a_code = example.ruleset != "trade" and binds
            assert (finding.severity is Severity.VIOLATION) == breaks_a_code, label


def test_other_orders_move_lines_and_lose_none() -> None:
    for example in EXAMPLES:
        others = orders(example.design, Random(1))
        assert all(sorted(other.splitlines()) == sorted(example.design.splitlines()) for other in others)
    assert sum(bool(orders(example.design, Random(1))) for example in EXAMPLES) > len(EXAMPLES) / 2


def _own_rules() -> Iterator[ParameterSet]:
    shelf = shipped_registry()
    for name in shelf.names:
        for rule in basis(shelf.newest(name)).rules.values():
            adds = rule.origins.get("check", rule.origins["title"]).partition(" ")[0] == name
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
    assert [error.message for error in contract().iter_errors(data)] == []
    ruleset = path.parent.parent.name
    assert path.stem in basis(shipped_registry().newest(ruleset)).rules
    own = examples_of(path.stem, [f"{ruleset} 1"])
    assert len({example.title for example in own}) == len(own)
    for example in own:
        is_small_invented_and_of_its_own_ruleset(example)


def is_small_invented_and_of_its_own_ruleset(example: Example) -> None:
    assert len(example.design.splitlines()) <= 40, example.title
    assert "(invented)" in example.design.splitlines()[1], example.title
    assert f"rulesets: [{example.ruleset} " in example.design, example.title


def test_schema_of_examples_is_a_schema() -> None:
    Draft202012Validator.check_schema(schema())
    refused = Draft202012Validator(schema())
    assert refused.is_valid({"rule": "a.b", "examples": [{"kind": "right", "title": "t", "design": "coaxwright: 1\n"}]})
    marked = {"kind": "right", "title": "t", "design": "coaxwright: 1\n# here: not met"}
    assert not refused.is_valid({"rule": "a.b", "examples": [marked]})
    assert not refused.is_valid({"rule": "a.b", "examples": [{**marked, "kind": "needs a person"}]})
    assert refused.is_valid({"rule": "a.b", "examples": [{**marked, "kind": "wrong"}]})
