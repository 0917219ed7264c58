"""Which case gets which mark: nothing that was not judged looks as if it were."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from xml.etree import ElementTree

import pytest

from coaxwright.reports.junit import render
from coaxwright.reviewing import Review
from coaxwright.rules import Severity

Made = Callable[[str], Review]


def cases(review: Review) -> dict[str, ElementTree.Element]:
    root = ElementTree.fromstring(render(review))
    found = {str(case.get("name")): case for case in root.iter("testcase")}
    assert len(found) == sum(1 for _ in root.iter("testcase")) or len(review.designs) > 1
    return found


def mark(case: ElementTree.Element) -> str:
    return case[0].tag if len(case) else ""


def test_a_case_for_each_rule_that_was_asked(made: Made) -> None:
    (design,) = made("returned").designs
    assert list(cases(made("returned"))) == [tally.rule for tally in design.tallies]


def test_what_returns_the_design_fails_and_only_that(made: Made) -> None:
    for returns_at in Severity:
        review = made("returned").returning_at(returns_at)
        returning = {finding.rule for finding in review.findings if finding.returns(returns_at)}
        failed = {rule for rule, case in cases(review).items() if mark(case) == "failure"}
        assert failed == returning


def test_a_case_has_no_mark_only_where_everything_met_the_rule(made: Made) -> None:
    for name in ("returned", "clear", "varied"):
        review = made(name)
        (design,) = review.designs
        for tally in design.tallies:
            all_met = tally.met > 0 and not any(finding.rule == tally.rule for finding in review.findings)
            assert (mark(cases(review)[tally.rule]) == "") is all_met, tally


def test_why_a_case_is_skipped(made: Made) -> None:
    review = made("varied")
    varied, _, person, later, *_ = review.findings
    alone = [replace(review.designs[0], findings=(finding,)) for finding in (varied, person, later)]
    told = [cases(Review((design,)))[design.findings[0].rule][0].get("message") for design in alone]
    assert told == ["1 under variance", "1 for a person to look at", "1 open until a later stage"]
    advice = next(one for one in made("returned").findings if one.severity is Severity.ADVICE)
    assert cases(made("returned"))[advice.rule][0].get("message") == "1 not met, as advice"


@pytest.mark.parametrize(
    ("applying", "message"), [(0, "the design holds nothing that it is asked of"), (3, "applies to none of 3 items")]
)
def test_a_rule_that_has_nothing_to_judge_is_skipped(applying: int, message: str, made: Made) -> None:
    (design,) = made("clear").designs
    tally = replace(design.tallies[0], met=0, does_not_apply=applying)
    case = cases(Review((replace(design, tallies=(tally,)),)))[tally.rule]
    assert (mark(case), case[0].get("message")) == ("skipped", message)


def test_what_could_not_be_judged_at_all_is_an_error(made: Made) -> None:
    problems = made("not-understood").designs[0].problems
    assert [mark(case) for case in cases(made("not-understood")).values()] == ["error"] * len(problems)
    assert mark(cases(made("incomplete"))["bonding.conductor-length"]) == "error"
    assert [mark(case) for case in cases(made("failed")).values()] == ["error"]
    assert [mark(case) for case in cases(made("nothing")).values()] == ["error"]


def test_every_finding_stands_in_full_somewhere(made: Made) -> None:
    for name in ("returned", "varied"):
        text = "".join(ElementTree.fromstring(render(made(name))).itertext())
        for finding in made(name).findings:
            assert f"  found: {finding.found}\n  " in text
            assert f"  remedy: {finding.remedy}\n  reference: {'; '.join(map(str, finding.sources))}\n" in text


def test_none_are_left_out(long_review: Review) -> None:
    text = "".join("".join(case.itertext()) for case in cases(long_review).values())
    assert text.count("  reference: ") == 1234
