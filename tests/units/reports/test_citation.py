"""A rule as it is cited: what must hold, why, its limits with source and origin, a wrong and a right example."""

from __future__ import annotations

import pytest

from coaxwright.reports.citation import cited
from coaxwright.rules import combine, shipped_registry

SHELF = shipped_registry()
TRADE, US_2017, US_2023 = (combine([label], SHELF) for label in ("trade 1", "us 2017", "us 2023"))


def test_a_limit_is_shown_with_its_source_and_the_ruleset_that_set_it() -> None:
    text = cited("bonding.conductor-length", [US_2017], 120)
    assert "  limit        longest: 20 ft (6.0 m); NFPA 70 (2017), 820.100(A)(4); set by us 2017\n" in text
    assert "  severity     violation, set by us 2017\n" in text
    assert "  checked on   every protector and metal mast\n" in text


def test_what_two_rulesets_say_alike_stands_once() -> None:
    text = cited("jacket.outdoor-rated", [TRADE, US_2023], 100)
    assert text.count("In trade 1 and in us 2023\n") == 1
    assert text.count("severity") == 1
    differing = cited("protection.entry-protector", [TRADE, US_2023], 100)
    assert "In trade 1\n  severity     deficiency, set by trade 1\n" in differing
    assert "In us 2023\n  severity     violation (deficiency in some cases), set by us 2017\n" in differing


def test_a_severity_that_differs_by_case_is_told() -> None:
    text = cited("protection.antenna-end", [TRADE], 100)
    assert "  severity     advice (deficiency in some cases), set by trade 1\n" in text


def test_the_rules_that_a_rule_defers_to_are_named_with_their_cases() -> None:
    text = cited("cable.class-suits-service", [TRADE], 120)
    owner = "  defers to    impedance.port-match, case wrong cable or no class: it is shown beneath what that finds\n"
    assert owner in text
    assert "defers to" not in cited("plan.loop-free", [TRADE], 120)


@pytest.mark.parametrize("rule", US_2023.rules)
def test_every_rule_has_a_wrong_example_before_a_right_one(rule: str) -> None:
    text = cited(rule, [US_2023], 80)
    by_person = rule == "protection.entry-distance"
    wrong, mark = ("\nFor a person to judge: ", "needs a person") if by_person else ("\nWrong: ", "not met")
    assert 0 < text.index(wrong) < text.index("\nRight: ")
    assert f"# here: {mark}" in text[text.index(wrong) : text.index("\nRight: ")]
    words = text[: text.index(wrong)]
    assert max(len(line) for line in words.splitlines()) <= 80
