"""Every check keeps what it declares: fields that exist, cases with words, limits of its dimension."""

from __future__ import annotations

import json
import re
from typing import Any

import pytest

from coaxwright.checks import TOPICS, AnyCheck, all_checks
from coaxwright.checks.selectors import SELECTORS
from coaxwright.rules import Rule, combine, shipped_registry
from coaxwright.shipped import shipped

CHECKS = list(all_checks().values())
LABELS = [f"{name} {edition}" for name in shipped_registry().names for edition in shipped_registry().editions(name)]
RULES = [(label, rule) for label in LABELS for rule in combine([label], shipped_registry()).rules.values()]
SCHEMA = json.loads((shipped("schemas") / "design-1.schema.json").read_text(encoding="utf-8"))


def below(part: dict[str, Any], step: str) -> dict[str, Any] | None:
    """What the schema says of a field (or, for ``*``, of every entry); None where there is none of that name."""
    part = part.get("allOf", [part])[0] if "$ref" not in part else part
    if "$ref" in part:
        part = SCHEMA["$defs"][part["$ref"].rpartition("/")[2]]
    found = part.get("additionalProperties") if step == "*" else part.get("properties", {}).get(step)
    return found if isinstance(found, dict) else None


@pytest.mark.parametrize("check", CHECKS, ids=lambda check: check.name)
def test_every_field_read_is_in_the_schema(check: AnyCheck) -> None:
    for path in check.reads:
        part: dict[str, Any] | None = SCHEMA
        for step in path.split("."):
            assert part is not None
            part = below(part, step)
            assert part is not None, f"{check.name} reads {path}, and there is no {step!r}"
    assert len(set(check.reads)) == len(check.reads)


def test_a_field_that_is_not_there_is_noticed() -> None:
    assert below(SCHEMA, "cables") is not None
    assert below(SCHEMA, "cabels") is None
    assert below(SCHEMA["properties"]["cables"], "type") is None


def test_names_are_unique_and_every_check_has_a_rule() -> None:
    listed = [check.name for topic in TOPICS for check in topic.CHECKS]
    assert len(set(listed)) == len(listed) == len(CHECKS)
    assert {rule.check.name for _, rule in RULES} == set(listed)
    assert {check.each for check in CHECKS} == set(SELECTORS)


@pytest.mark.parametrize(("label", "rule"), RULES, ids=[f"{label}: {rule.name}" for label, rule in RULES])
def test_every_case_has_words_that_use_its_values_only(label: str, rule: Rule) -> None:
    assert set(rule.words) == set(rule.check.cases), label
    for case, words in rule.words.items():
        used = set(re.findall(r"\{(\w+)\}", words.found + words.required + words.remedy))
        assert used <= set(rule.check.cases[case])


@pytest.mark.parametrize("check", CHECKS, ids=lambda check: check.name)
def test_every_value_of_a_check_is_used_by_some_words(check: AnyCheck) -> None:
    """A value that no wording asks for is either dead or forgotten."""
    texts = [
        words.found + words.required + words.remedy
        for _, rule in RULES
        if rule.check is check
        for words in rule.words.values()
    ]
    values = {value for case in check.cases.values() for value in case}
    assert {value for value in values if not any(f"{{{value}}}" in text for text in texts)} <= UNUSED


UNUSED = {"kind", "ordinal"}
"""Values that firms may want in their own words: what a device is, and the number of a cable that is one too many."""


@pytest.mark.parametrize(("label", "rule"), RULES, ids=[f"{label}: {rule.name}" for label, rule in RULES])
def test_limits_are_those_declared_and_tabled_as_declared(label: str, rule: Rule) -> None:
    assert {limit.name for limit in rule.limits.all()} == set(rule.check.limits), label
    for limit in rule.limits.all():
        kind = rule.check.limits[limit.name]
        assert isinstance(limit.value, kind.dimension)
        assert len(limit.keys) == len(kind.by)
