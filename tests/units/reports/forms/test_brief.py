"""One line for each finding."""

from __future__ import annotations

import re
from collections.abc import Callable

from coaxwright.reports.brief import render
from coaxwright.reports.wording import MOST_ITEMS
from coaxwright.reviewing import Review

Made = Callable[[str], Review]
LINE = re.compile(
    r"(.+?):(\d+):(\d+): (violation|deficiency|advice|needs a person)(, under variance)?: (\S+) (.+?): (.+)"
)


def test_each_finding_is_one_line_that_leads_to_its_place(made: Made) -> None:
    for name in ("returned", "varied"):
        review = made(name)
        lines = [found.groups() for line in render(review).splitlines() if (found := LINE.fullmatch(line))]
        places = [(finding.place.file, finding.place.span.start, finding.rule) for finding in review.findings]
        assert [(file, int(row), int(column), rule) for file, row, column, _, _, rule, *_ in lines] == [
            (file, start.line, start.column, rule) for file, start, rule in places
        ]


def test_a_mistake_and_a_failed_check_are_lines_too(made: Made) -> None:
    problems = made("not-understood").designs[0].problems
    assert [line.count(": not understood: ") for line in render(made("not-understood")).splitlines()] == [
        *[1] * len(problems),
        0,
        0,
    ]
    assert "plans/site.coax.yaml: incomplete: the check behind bonding.conductor-length failed at device GB1" in render(
        made("incomplete")
    )
    assert render(made("nothing")) == "Review incomplete: nothing was reviewed\n"


def test_hostile_texts_make_no_line_of_their_own(made: Made) -> None:
    tame, hostile = render(made("returned")).splitlines(), render(made("hostile")).splitlines()
    assert len(hostile) == len(tame) + 1, "one more for the check that failed"


def test_very_many_findings_end_with_their_number_the_most_serious_kept(long_review: Review) -> None:
    lines = render(long_review).splitlines()
    listed = [line for line in lines if LINE.fullmatch(line)]
    assert len(listed) == MOST_ITEMS
    assert not any(": advice: " in line for line in listed)
    assert (
        lines[MOST_ITEMS]
        == f"plans/site.coax.yaml: {1234 - MOST_ITEMS} more, none of them more serious than those above"
    )


def test_color_changes_nothing_but_color(made: Made) -> None:
    for name in ("returned", "varied"):
        painted = render(made(name), color=True)
        assert "\x1b[1;31mviolation\x1b[0m" in painted
        assert re.sub("\x1b\\[[0-9;]*m", "", painted) == render(made(name))
