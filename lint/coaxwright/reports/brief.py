"""The review in one line for each finding, for a terminal, a search or an editor that jumps to ``file:line:column``."""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.findings import Finding
from coaxwright.reports import wording
from coaxwright.reviewing import DesignReview, Review
from coaxwright.rules import Severity

_COLORS = {Severity.VIOLATION: "1;31", Severity.DEFICIENCY: "1;33", Severity.ADVICE: "1;36"}


def render(review: Review, color: bool = False) -> str:
    """The whole review; its lines are as long as they are, and never broken."""
    lines = [line for design in review.designs for line in _design(design, color)]
    return "\n".join([*lines, *wording.closing_lines(review)]) + "\n"


def _design(design: DesignReview, color: bool) -> Iterator[str]:
    for problem in design.problems:
        yield f"{wording.where_mistaken(problem)}: not understood: {wording.one_line(problem.message)}"
    for crash in design.crashes:
        yield f"{wording.one_line(design.file)}: incomplete: {wording.failure(crash)}"
    listed, left = wording.most_serious(design.findings)
    for finding in listed:
        yield _finding(finding, color)
    if left:
        yield f"{wording.one_line(design.file)}: {left} more, none of them more serious than those above"


def _finding(finding: Finding, color: bool) -> str:
    grade = wording.grade(finding)
    if color:
        grade = f"\x1b[{_COLORS[finding.severity]}m{grade}\x1b[0m"
    later = f" (due at the stage {finding.due_later!r})" if finding.due_later else ""
    says = dict(wording.parts(finding))
    also = f" (also in {says['also in']})" if "also in" in says else ""
    about = f"{finding.rule} {wording.name(finding)}"
    said = f"{says['found']}{also}; required: {says['required']}{later}"
    return f"{wording.where(finding.place)}: {grade}: {about}: {said}"
