"""Many files, faults of ours, and the status of all together."""

from __future__ import annotations

import gc
from collections.abc import Iterator
from dataclasses import replace
from itertools import product
from pathlib import Path

import pytest

from coaxwright.checks import NotMet, Verdict
from coaxwright.findings import Result
from coaxwright.reviewing import WHOLE_DESIGN, Crash, DesignReview, Review, judge, pipeline, review
from coaxwright.reviewing.effective_rules import RuleSources
from coaxwright.reviewing.review_request import ReviewRequest
from coaxwright.rules import EffectiveRules, Rule, combine, shipped_registry
from coaxwright.source import Document, Position, Problem, Span, read_file

EXAMPLE = Path(__file__).parents[3] / "examples" / "tern-cottage"
AS_DRAWN = EXAMPLE / "as-drawn.coax.yaml"
CORRECTED = EXAMPLE / "corrected.coax.yaml"


class CrashingBases(RuleSources):
    """The shipped rules, with one check that yields one verdict and then fails."""

    def of(self, labels: tuple[str, ...], own: tuple[Document, ...] = ()) -> EffectiveRules:
        basis = super().of(labels, own)
        rule = basis.rules["bonding.conductor-length"]

        def judge_once(thing: object, site: object, limits: object) -> Iterator[Verdict]:
            raise KeyError("B-1")
            yield NotMet("", (), {})

        rules = {**basis.rules, rule.name: replace(rule, check=replace(rule.check, judge=judge_once))}
        return replace(basis, rules=rules)


def test_a_crashed_check_is_recorded_and_the_rest_goes_on() -> None:
    document = read_file(AS_DRAWN, AS_DRAWN.name)
    whole = judge(document, shipped_registry())
    told = judge(document, CrashingBases(shipped_registry()))
    (crash,) = told.crashes
    assert (crash.rule, crash.error) == ("bonding.conductor-length", "KeyError: 'B-1'")
    assert crash.subject == "device ANT"
    assert told.findings == tuple(one for one in whole.findings if one.rule != "bonding.conductor-length")
    assert told.result is Result.INCOMPLETE
    assert Review((told, whole)).exit_status == 3


def test_a_fault_in_one_design_hides_no_other(monkeypatch: pytest.MonkeyPatch) -> None:
    def fail_at_the_drawn_one(document: Document, bases: RuleSources, asked: ReviewRequest) -> DesignReview:
        if "as-drawn" in document.name:
            raise RecursionError("too deep")
        return judge(document, bases, asked)

    monkeypatch.setattr(pipeline, "judge", fail_at_the_drawn_one)
    told = review([EXAMPLE])
    assert [design.result for design in told.designs] == [Result.INCOMPLETE, Result.CLEAR]
    assert told.designs[0].crashes == (Crash(WHOLE_DESIGN, "", "RecursionError: too deep"),)
    assert told.exit_status == 3


SPAN = Span(Position(1, 1, 0), Position(1, 1, 0))
ONE_OF_EACH = {
    Result.CLEAR: DesignReview("a"),
    Result.NOT_UNDERSTOOD: DesignReview("c", problems=(Problem("c", SPAN, "x"),)),
    Result.INCOMPLETE: DesignReview("d", crashes=(Crash("r", "s", "e"),)),
}
STATUS = {Result.CLEAR: 0, Result.RETURNED: 1, Result.NOT_UNDERSTOOD: 2, Result.INCOMPLETE: 3}


@pytest.mark.parametrize(("first", "second"), list(product(Result, Result)))
def test_the_worst_result_gives_the_status(first: Result, second: Result) -> None:
    designs = {**ONE_OF_EACH, Result.RETURNED: review([AS_DRAWN]).designs[0]}
    told = Review((designs[first], designs[second]))
    assert told.exit_status == max(STATUS[first], STATUS[second])


def test_nothing_reviewed_is_not_clear() -> None:
    assert Review(()).exit_status == 3


@pytest.mark.parametrize("was_at_work", [True, False])
def test_the_garbage_collector_is_left_as_it_was(was_at_work: bool, monkeypatch: pytest.MonkeyPatch) -> None:
    seen: list[bool] = []

    def look(document: Document, bases: RuleSources, _: object) -> DesignReview:
        seen.append(gc.isenabled())
        raise ValueError

    monkeypatch.setattr(pipeline, "judge", look)
    before = gc.isenabled()
    try:
        (gc.enable if was_at_work else gc.disable)()
        review([CORRECTED])
        assert gc.isenabled() is was_at_work
    finally:
        (gc.enable if before else gc.disable)()
    assert seen == [False]


def test_rules_are_combined_once_for_a_run() -> None:
    bases = RuleSources(shipped_registry())
    assert bases.of(("us 2023",)) is bases.of(("us 2023",))
    assert {name: rule.limits.all() for name, rule in bases.of(("us 2020",)).rules.items()} == {
        name: rule.limits.all() for name, rule in combine(("us 2020",), shipped_registry()).rules.items()
    }


def test_the_order_of_files_does_not_show() -> None:
    one, other = review([AS_DRAWN, CORRECTED]), review([CORRECTED, AS_DRAWN])
    assert [design.file for design in one.designs] == [design.file for design in other.designs]
    assert list(one.findings) == list(other.findings)


def test_every_rule_has_a_tally_that_adds_up() -> None:
    design = review([AS_DRAWN]).designs[0]
    assert [tally.rule for tally in design.tallies] == [rule.name for rule in design.rules]
    assert all(isinstance(rule, Rule) for rule in design.rules)
    for tally in design.tallies:
        subjects = {one.identity.subject + one.identity.second for one in design.unfolded if one.rule == tally.rule}
        assert tally.not_met + tally.cannot_be_judged + tally.needs_a_person == len(subjects)
