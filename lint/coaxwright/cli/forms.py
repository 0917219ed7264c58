"""The forms of a review, and the function of each, loaded when it is asked for."""

from __future__ import annotations

from dataclasses import replace
from enum import StrEnum
from typing import TYPE_CHECKING

from coaxwright.frozen_value import frozen_value

if TYPE_CHECKING:
    from coaxwright.reviewing import Review


class Form(StrEnum):
    """The forms of a report: those for people first."""

    TEXT = "text"
    BRIEF = "brief"
    NOTICE = "notice"
    CHECKLIST = "checklist"
    JSON = "json"
    SARIF = "sarif"
    SARIF_CODE_HOST = "sarif-code-host"
    JUNIT = "junit"
    CODE_QUALITY = "code-quality"
    ANNOTATIONS = "annotations"


WITH_AMENDMENTS = frozenset({Form.JSON, Form.SARIF, Form.SARIF_CODE_HOST})
"""The forms that tell exact amendments, for which a design is judged once more for each; the others tell the remedy."""


@frozen_value
class Paper:
    """What a form for people is written on."""

    width: int
    """Columns."""
    color: bool = False
    dated: str = ""
    """The date to print; where it is empty, forms that have one leave a blank for it."""


def rendered(form: Form, review: Review, paper: Paper) -> str:
    """A review in one form: the same bytes whichever other forms are asked for in the same run."""
    if form not in WITH_AMENDMENTS:
        review = _without_amendments(review)
    match form:
        case Form.TEXT:
            from coaxwright.reports import text

            return text.render(review, paper.width, paper.color)
        case Form.BRIEF:
            from coaxwright.reports import brief

            return brief.render(review, paper.color)
        case Form.NOTICE:
            from coaxwright.reports import notice

            return notice.render(review, paper.width, paper.dated)
        case Form.CHECKLIST:
            from coaxwright.reports import checklist

            return checklist.render(review, paper.width, paper.dated)
        case Form.JSON:
            from coaxwright.reports import json_report

            return json_report.render(review)
        case Form.SARIF:
            from coaxwright.reports import sarif

            return sarif.render(review, "full")
        case Form.SARIF_CODE_HOST:
            from coaxwright.reports import sarif

            return sarif.render(review, "code host")
        case Form.JUNIT:
            from coaxwright.reports import junit

            return junit.render(review)
        case Form.CODE_QUALITY:
            from coaxwright.reports import code_quality

            return code_quality.render(review)
        case Form.ANNOTATIONS:
            from coaxwright.reports import annotations

            return annotations.render(review)


def _without_amendments(review: Review) -> Review:
    if all(finding.amendment is None for finding in review.findings):
        return review
    designs = [
        replace(design, findings=tuple(replace(finding, amendment=None) for finding in design.findings))
        for design in review.designs
    ]
    return replace(review, designs=tuple(designs))
