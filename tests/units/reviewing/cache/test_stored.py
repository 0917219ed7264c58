"""The stored form of a review: an equal object, and the same bytes in every form of a report."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from coaxwright.cli.forms import Form, Paper, rendered
from coaxwright.findings import Result
from coaxwright.reviewing import Crash, DesignReview, Review, review
from coaxwright.reviewing.cache.input_digests import Ingredients
from coaxwright.reviewing.cache.rule_serialization import rules_read, rules_written
from coaxwright.reviewing.cache.serialization import Kept, NotStored, made, read, text_of, written
from coaxwright.rules import combine, shipped_registry
from coaxwright.source import Position, Problem, Span

EXAMPLES = Path(__file__).parents[4] / "examples"
SPAN = Span(Position(1, 2, 3), Position(4, 5, 6))


@pytest.fixture(scope="module")
def examples() -> tuple[DesignReview, ...]:
    return review([EXAMPLES], with_amendments=True).designs


def again(design: DesignReview, kept: Kept | None = None) -> DesignReview:
    return read(written(design), rules_read(rules_written(design.rules)), kept)


def test_every_example_comes_back_equal_and_reads_the_same_in_every_form(examples: tuple[DesignReview, ...]) -> None:
    kept = Kept()
    back = tuple(again(design, kept) for design in examples)
    assert back == examples
    for form in Form:
        paper = Paper(100, color=True, dated="2026-11-25")
        assert rendered(form, Review(back), paper) == rendered(form, Review(examples), paper), form
    assert {finding.amendment is None for finding in Review(back).findings} == {True, False}


@pytest.mark.parametrize(
    "design",
    [
        DesignReview("caf\u00e9 \U0001f4e1 \udcff.coax.yaml", problems=(Problem("a", SPAN, "b", "c", "d"),)),
        DesignReview("a", crashes=(Crash("rule", "subject", "error\n\x00"),)),
        DesignReview("a", design="d", as_of="2026-11-25", named_rulesets=("us 2023", "trade 1")),
    ],
    ids=["a name that is not UTF-8", "incomplete", "judged"],
)
def test_other_designs_come_back_equal(design: DesignReview) -> None:
    assert again(design) == design
    written(design).encode("ascii")


def test_of_what_is_alike_in_many_designs_there_is_one_object(examples: tuple[DesignReview, ...]) -> None:
    kept = Kept()
    first, second = again(examples[0], kept), again(examples[0], kept)
    assert first.tallies is second.tallies
    assert first.findings[0].sources is second.findings[0].sources
    assert first.findings[0].reason is second.findings[0].reason


@pytest.mark.parametrize("label", ["trade 1", "us 2017", "us 2023"])
def test_the_rules_of_a_basis_come_back_equal(label: str) -> None:
    rules = tuple(combine((label,), shipped_registry()).rules.values())
    back = rules_read(rules_written(rules))
    assert back == rules
    assert [rule.limits.all() for rule in back] == [rule.limits.all() for rule in rules]
    assert all(one.check is other.check for one, other in zip(back, rules, strict=True))


def test_rules_that_differ_are_not_equal() -> None:
    older, newer = (
        combine((label,), shipped_registry()).rules["bonding.conductor-length"] for label in ("us 2017", "us 2023")
    )
    assert older != newer
    assert older.limits != combine(("trade 1",), shipped_registry()).rules["cable.run-length"].limits
    assert older.limits != object()


def test_a_rule_with_a_check_of_somebody_else_is_not_stored() -> None:
    (rule, *_) = combine(("trade 1",), shipped_registry()).rules.values()
    with pytest.raises(NotStored, match=rule.name):
        rules_written([replace(rule, check=replace(rule.check))])


@pytest.mark.parametrize(
    "text",
    ["", "{", "null", "[]", "[1]", '["a"]', '[["a"]]', "9" * 5000, "[" * 5000, '{"file": "a"}'],
    ids=range(10),
)
def test_what_is_no_stored_review_is_refused(text: str) -> None:
    with pytest.raises(NotStored):
        made(DesignReview, text)


def test_a_word_that_is_none_of_its_set_is_refused(examples: tuple[DesignReview, ...]) -> None:
    with pytest.raises(NotStored):
        made(DesignReview, written(examples[0]).replace('"violation"', '"hazard"'))


@pytest.mark.parametrize("text", ["", "[]x", "[[1]]", "7", '[["a", "b"]]'])
def test_what_are_no_stored_rules_is_refused(text: str) -> None:
    with pytest.raises(NotStored):
        rules_read(text)


def test_what_has_no_stored_form_says_so() -> None:
    with pytest.raises(TypeError, match="object has no stored form"):
        text_of([object()])


def test_equal_sets_give_equal_texts() -> None:
    names = [f"tag {number}" for number in range(50)]
    assert text_of(frozenset(names)) == text_of(frozenset(reversed(names)))


def test_pairs_in_a_row_come_back_as_pairs() -> None:
    made_of = Ingredients((("a.coax.yaml", "1"), ("/p", "2")), (("/l", "/p"),), "/")
    back = made(Ingredients, text_of(made_of))
    assert back == made_of
    assert {*back.files, *back.links} == {("a.coax.yaml", "1"), ("/p", "2"), ("/l", "/p")}


def test_a_crash_keeps_its_result() -> None:
    assert again(DesignReview("a", crashes=(Crash("r", "s", "e"),))).result is Result.INCOMPLETE
