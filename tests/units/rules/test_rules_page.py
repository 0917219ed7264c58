"""The page of rules: every rule with its limits, sources and two executed examples."""

from __future__ import annotations

from functools import cache

import pytest

from coaxwright.rules import combine, shipped_registry
from coaxwright.rules.reference import rules_page

RULES = dict(sorted(combine([shipped_registry().newest("us")], shipped_registry()).rules.items()))


@cache
def page() -> str:
    return rules_page()


def section(name: str) -> str:
    return page().partition(f"\n## {name}\n")[2].partition("\n## ")[0]


@pytest.mark.parametrize("name", RULES)
def test_every_rule_has_its_section(name: str) -> None:
    rule = RULES[name]
    text = section(name)
    assert f"**{rule.title}.**" in text
    assert rule.reason.strip() in text
    assert all(limit.value.text in text and str(limit.source) in text for limit in rule.limits.all())
    assert all(str(source) in text for source in rule.sources)
    wrong, _, right = text.partition("\nRight: ")
    by_person = name == "protection.entry-distance"
    assert ("\nFor a person to judge: " if by_person else "\nWrong: ") in wrong
    assert f"# here: {'needs a person' if by_person else 'not met'}" in wrong
    assert "```yaml\ncoaxwright: 1\n" in right
    assert "# here" not in right


def test_severities_stand_with_their_rulesets() -> None:
    text = section("protection.entry-protector")
    editions = ", ".join(f"`us {edition}`" for edition in shipped_registry().editions("us"))
    assert f"- deficiency in `trade 1`\n- violation in {editions}\n" in text
    assert "- deficiency in the case 'lightning system'\n" in section("protection.antenna-end")


def test_the_page_is_the_same_each_time_and_holds_no_path() -> None:
    assert rules_page() == page()
    assert page().endswith("\n```\n")
    assert "/" not in page().partition("\n## ")[0]


def test_sections_are_in_order() -> None:
    names = [line.removeprefix("## ") for line in page().splitlines() if line.startswith("## ")]
    assert names == list(RULES)
