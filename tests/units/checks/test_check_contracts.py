"""Every check keeps what it declares: fields that exist, cases with words, limits of its dimension."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator, Mapping

import pytest

from coaxwright.checks import AnyCheck, all_checks, check_names, find_check
from coaxwright.checks.discovery import NoSuchCheck
from coaxwright.checks.selectors import SELECTORS
from coaxwright.design.value_types import Values
from coaxwright.rules import Rule, combine, shipped_registry
from coaxwright.rules.phrase_book import phrases_of
from coaxwright.rules.wording import faults, unworded
from coaxwright.shipped import shipped

CHECKS = list(all_checks().values())
LABELS = [f"{name} {edition}" for name in shipped_registry().names for edition in shipped_registry().editions(name)]
RULES = [(label, rule) for label in LABELS for rule in combine([label], shipped_registry()).rules.values()]
SCHEMA = json.loads((shipped("schemas") / "design-1.schema.json").read_text(encoding="utf-8"))


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
            assert list(faults(text, rule.check.cases[case])) == []


@pytest.mark.parametrize("check", CHECKS, ids=lambda check: check.name)
def test_the_phrase_book_words_what_a_check_declares_and_nothing_else(check: AnyCheck) -> None:
    book = phrases_of(check.name)
    assert set(book.cannot_be_judged) == set(check.cannot_judge)
    assert set(book.does_not_apply) == set(check.does_not_apply)
    assert set(book.related) == set(check.related)
    related = check.related if isinstance(check.related, Mapping) else {name: {} for name in check.related}
    said = [
        (book.cannot_be_judged, check.cannot_judge),
        (book.does_not_apply, check.does_not_apply),
        (book.related, related),
    ]
    for texts, declared in said:
        for case, text in texts.items():
            assert list(faults(text, declared[case])) == []
            assert list(unworded(declared[case], book.phrases)) == []
    worded = [check.cases[case] for case in check.cases]
    assert [fault for types in worded for fault in unworded(types, book.phrases)] == []
    declared_anywhere = (*worded, *check.cannot_judge.values(), *check.does_not_apply.values())
    named = {name for types in declared_anywhere for name in named_in(types)}
    assert set(book.phrases) <= named


def named_in(types: Values) -> Iterator[str]:
    """The names of values, and of those that parts of sentences hold."""
    for name, of in types.items():
        yield name
        for inner in ((of.items or of).phrases or {}).values():
            yield from named_in(inner)


@pytest.mark.parametrize("check", CHECKS, ids=lambda check: check.name)
def test_what_stands_for_a_former_value_is_worded_with_values_of_today(check: AnyCheck) -> None:
    every_case = [check.cases[case] for case in check.cases]
    for former, text in check.former_values.items():
        assert not any(former in types for types in every_case)
        assert any(list(faults(text, types)) == [] for types in every_case)


@pytest.mark.parametrize("check", CHECKS, ids=lambda check: check.name)
def test_every_value_of_a_check_is_used_by_some_words(check: AnyCheck) -> None:
    """A value that no wording asks for is either dead or forgotten."""
    texts = [
        words.found + words.required + words.remedy
        for _, rule in RULES
        if rule.check is check
        for words in rule.words.values()
    ]
    values = {value for case in check.cases for value in check.cases[case]}
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
        cases = [check.cases[case] for case in check.cases]
        assert any(list(faults(text, types)) == [] for types in cases), f"{check.name}: {name}"
        assert not any(name in types for types in cases)
