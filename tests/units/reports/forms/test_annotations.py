"""Which finding becomes which command, and in which order. The form itself is held to its reader in conformance."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable

from coaxwright.reports.annotations import render
from coaxwright.reviewing import Review
from coaxwright.rules import Severity

Made = Callable[[str], Review]


def commands(review: Review) -> list[str]:
    return [line for line in render(review).splitlines() if line.startswith("::")]


def kinds(review: Review) -> list[str]:
    return [line[2:].partition(" ")[0] for line in commands(review)]


def test_severities_are_mapped_and_the_most_serious_stand_first(made: Made) -> None:
    review = made("returned")
    numbers = Counter(finding.severity for finding in review.findings)
    expected = (
        ["error"] * numbers[Severity.VIOLATION]
        + ["warning"] * numbers[Severity.DEFICIENCY]
        + ["notice"] * numbers[Severity.ADVICE]
    )
    assert kinds(review) == expected
    assert set(numbers) == set(Severity)


def test_what_is_varied_or_for_a_person_is_a_notice(made: Made) -> None:
    plain, told = Counter(kinds(made("returned"))), Counter(kinds(made("varied")))
    assert told.total() == plain.total()
    assert told["notice"] == 3
    assert commands(made("varied"))[-1].startswith("::notice ")


def test_what_was_not_judged_is_an_error(made: Made) -> None:
    assert kinds(made("not-understood")) == ["error"] * len(made("not-understood").designs[0].problems)
    assert kinds(made("incomplete")) == ["error"]
    assert commands(made("failed")) == [
        "::error file=a.coax.yaml,title=Review incomplete::"
        "the program failed at this design, please report it: RecursionError: deep"
    ]


def test_a_clear_design_gives_its_result_and_no_command(made: Made) -> None:
    text = render(made("clear"))
    assert commands(made("clear")) == []
    assert text.startswith("Clear: nothing found; ")


def test_none_are_left_out(long_review: Review) -> None:
    assert len(commands(long_review)) == 1234
