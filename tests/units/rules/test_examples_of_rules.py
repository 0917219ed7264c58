"""Reading examples: their marks, their order, and the edition they are judged by."""

from __future__ import annotations

import pytest

from coaxwright.rules import RulesetError
from coaxwright.rules.examples import Mark, _marks, examples_of


def test_marks_are_counted_from_one_and_stand_at_the_end_of_a_line() -> None:
    text = "a: 1   # here: not met\nb: 2\nc: 3 # here: cannot be judged\nd: 4 # not here\n# here: needs a person"
    assert tuple(_marks(text, "x")) == (
        Mark(1, "not met"),
        Mark(3, "cannot be judged"),
        Mark(5, "needs a person"),
    )


@pytest.mark.parametrize(
    "line", ["a: 1 # here: wrong", "a: 1 # here", "a: 1 # here: not met, or is it?", "a: 1 #here: not met"]
)
def test_a_mark_that_is_none_is_refused(line: str) -> None:
    with pytest.raises(RulesetError, match="line 2: write '# here: not met'"):
        tuple(_marks(f"x: 1\n{line}", "x"))


def test_the_most_special_ruleset_comes_first_and_each_once() -> None:
    found = examples_of("bonding.conductor-present", ["trade 1", "us 2017", "us 2020", "us 2023"])
    assert list(dict.fromkeys(example.ruleset for example in found)) == ["us", "trade"]
    assert len({(example.ruleset, example.title) for example in found}) == len(found)
    assert {example.ruleset for example in examples_of("bonding.conductor-present", ["trade 1"])} == {"trade"}


def test_a_rule_without_examples_has_none() -> None:
    assert examples_of("zzz.zzz", ["trade 1"]) == ()


def test_another_edition_replaces_the_one_in_the_basis_and_nothing_else() -> None:
    example = examples_of("bonding.conductor-size", ["us 2023"])[0]
    changed = example.under("us 2017")
    assert "rulesets: [us 2017]" in changed
    assert changed.replace("us 2017", "us 2023") == example.design
