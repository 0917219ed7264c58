"""Every check keeps what it declares: fields that exist, cases with words, limits of its dimension."""

from __future__ import annotations

import json
import re
from typing import Any

import pytest

from coaxwright.checks import AnyCheck, all_checks, check_names, find_check, value_types
from coaxwright.checks.discovery import NoSuchCheck
from coaxwright.checks.selectors import SELECTORS
from coaxwright.rules import Rule, combine, shipped_registry
from coaxwright.rules.phrase_book import phrases_of
from coaxwright.rules.wording import faults, unworded
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


def test_every_check_has_a_rule_and_every_selector_a_check() -> None:
    assert {rule.check.name for _, rule in RULES} == {check.name for check in CHECKS}
    assert {check.each for check in CHECKS} == set(SELECTORS)


@pytest.mark.parametrize("name", check_names())
def test_a_check_is_called_as_its_file(name: str) -> None:
    check = find_check(name)
    assert check.name == name
    assert check.judge.__name__ == name.partition(".")[2].replace("-", "_")
    assert find_check(name) is check


@pytest.mark.parametrize(("former", "name"), [("booster-kit", "antenna.booster-kit")])
def test_a_check_is_found_by_the_name_of_earlier_versions(former: str, name: str) -> None:
    assert find_check(former) is find_check(name)
    with pytest.raises(NoSuchCheck):
        find_check("no-such-check")


@pytest.mark.parametrize(("label", "rule"), RULES, ids=[f"{label}: {rule.name}" for label, rule in RULES])
def test_every_case_has_words_for_values_of_their_types(label: str, rule: Rule) -> None:
    assert set(rule.words) == set(rule.check.cases), label
    for case, words in rule.words.items():
        for text in (words.found, words.required, words.remedy):
            assert list(faults(text, value_types(rule.check, case))) == []


@pytest.mark.parametrize("check", CHECKS, ids=lambda check: check.name)
def test_the_phrase_book_words_what_a_check_declares_and_nothing_else(check: AnyCheck) -> None:
    book = phrases_of(check.name)
    assert set(book.cannot_be_judged) == set(check.cannot_judge)
    assert set(book.does_not_apply) == set(check.does_not_apply)
    assert set(book.related) == set(check.related)
    said = [(book.cannot_be_judged, check.cannot_judge), (book.does_not_apply, check.does_not_apply)]
    for texts, declared in said:
        for case, text in texts.items():
            assert list(faults(text, declared[case])) == []
            assert list(unworded(declared[case], book.phrases)) == []
    worded = [value_types(check, case) for case in check.cases]
    assert [fault for types in worded for fault in unworded(types, book.phrases)] == []
    named = {
        name for types in (*worded, *check.cannot_judge.values(), *check.does_not_apply.values()) for name in types
    }
    assert set(book.phrases) <= named


@pytest.mark.parametrize("check", CHECKS, ids=lambda check: check.name)
def test_every_value_of_a_check_is_used_by_some_words(check: AnyCheck) -> None:
    """A value that no wording asks for is either dead or forgotten."""
    texts = [
        words.found + words.required + words.remedy
        for _, rule in RULES
        if rule.check is check
        for words in rule.words.values()
    ]
    values = {value for case in check.cases for value in value_types(check, case)}
    assert {value for value in values if not any(re.search(rf"[{{ ]{value}[:}}]", text) for text in texts)} <= UNUSED


UNUSED = {"kind", "ordinal"}
"""Values that firms may want in their own words: what a device is, and the number of a cable that is one too many."""


@pytest.mark.parametrize(("label", "rule"), RULES, ids=[f"{label}: {rule.name}" for label, rule in RULES])
def test_limits_are_those_declared_and_tabled_as_declared(label: str, rule: Rule) -> None:
    assert {limit.name for limit in rule.limits.all()} == set(rule.check.limits), label
    for limit in rule.limits.all():
        kind = rule.check.limits[limit.name]
        assert isinstance(limit.value, kind.dimension)
        assert len(limit.keys) == len(kind.by)


@pytest.mark.parametrize("check", CHECKS, ids=lambda check: check.name)
def test_what_stands_for_a_value_of_earlier_versions_is_sound_in_some_case(check: AnyCheck) -> None:
    for name, text in check.former_values.items():
        cases = [value_types(check, case) for case in check.cases]
        assert any(list(faults(text, types)) == [] for types in cases), f"{check.name}: {name}"
        assert not any(name in types for types in cases)
