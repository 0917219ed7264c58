"""The review as code-quality JSON: one array of objects, which a code host compares between two branches.

The form has no room for a review's result or its cautions; a review in which nothing was found is an empty array.

Source: GitLab documentation, Code Quality, "Implement a custom tool" (doc/ci/testing/code_quality.md): description,
check_name, fingerprint, severity, location.path and location.lines.begin; no byte-order mark. It names the issue type
of the Code Climate engine specification as its model.
"""

from __future__ import annotations

from collections.abc import Iterator
from hashlib import sha256

from coaxwright.findings import Finding, Outcome
from coaxwright.reports import scope, wording
from coaxwright.reports.json_report import Json, write
from coaxwright.reviewing import DesignReview, Review
from coaxwright.rules import Severity

SEVERITIES = {Severity.VIOLATION: "critical", Severity.DEFICIENCY: "major", Severity.ADVICE: "minor"}
"""The form has five grades. Above these stands ``blocker``, for what was not reviewed; below, ``info``."""
UNDERSTOOD = "design.understood"
STOOD = "design.stood"
"""Stands for a rule where findings are left out of a design since they were there before."""


def render(review: Review) -> str:
    """The findings of all designs in their order, with a final newline."""
    fingerprints = _Fingerprints()
    return write([item for design in review.designs for item in _design(design, fingerprints)])


class _Fingerprints:
    """Fingerprints of which no two are alike: a code host shows one finding for each.

    Two files may hold the same design, such as two revisions side by side; the second one's findings are told apart by
    its name.
    """

    def __init__(self) -> None:
        self._given: set[str] = set()

    def unique(self, fingerprint: str, file: str) -> str:
        while fingerprint in self._given:
            fingerprint = _hash(fingerprint, file)
        self._given.add(fingerprint)
        return fingerprint


def _design(design: DesignReview, fingerprints: _Fingerprints) -> list[Json]:
    items: list[Json] = []
    for problem in design.problems:
        fingerprint = fingerprints.unique(_hash(problem.file, problem.what), problem.file)
        text = wording.ended(f"Not understood: {wording.one_line(problem.message)}")
        items.append(_item(text, UNDERSTOOD, fingerprint, "blocker", problem.file, problem.span.start.line))
    for crash in design.crashes:
        fingerprint = fingerprints.unique(_hash(crash.rule, crash.subject), design.file)
        text = wording.ended(f"Review incomplete: {wording.failure(crash)}")
        items.append(_item(text, crash.rule, fingerprint, "blocker", design.file, 1))
    for check, text in _terms(design):
        fingerprint = fingerprints.unique(_hash(check, design.file), design.file)
        items.append(_item(text, check, fingerprint, "info", design.file, 1))
    for finding in design.findings:
        fingerprint = fingerprints.unique(finding.identity.fingerprint, design.file)
        place = finding.place
        items.append(
            _item(_text(finding), finding.rule, fingerprint, _severity(finding), place.file, place.span.start.line)
        )
    if design.stood:
        text = wording.ended(wording.first_upper(wording.left_out(design).removesuffix("; ")))
        fingerprint = fingerprints.unique(_hash(STOOD, design.design), design.file)
        items.append(_item(text, STOOD, fingerprint, "info", design.file, 1))
    return items


def _terms(design: DesignReview) -> Iterator[tuple[str, str]]:
    """What has to be known of a review that is not on the design's terms, or of a part of the rules: an item for each.

    Without it an empty array would look like that of any other review.
    """
    reviewers = [f"{label}: {wording.one_line(text)}" for label, text in scope.head(design)]
    if design.scope.reviewers_terms:
        if design.author_values:
            reviewers.append(f"Author-supplied values: {wording.author_values(design)}")
        yield "review.terms", wording.ended(wording.one_line("; ".join(reviewers)))
    if design.is_nothing_asked or (design.scope.is_part and not design.scope.reviewers_terms):
        yield "review.rules", wording.ended(wording.outcome(design))


def _item(description: str, rule: str, fingerprint: str, severity: str, file: str, line: int) -> Json:
    return {
        "description": description,
        "check_name": rule,
        "fingerprint": fingerprint,
        "severity": severity,
        "location": {"path": file, "lines": {"begin": line}},
    }


def _severity(finding: Finding) -> str:
    """``info`` for what asks nothing of the author: a person has to look, it is due later, varied, outstanding."""
    if finding.outcome is Outcome.NEEDS_A_PERSON or finding.due_later or finding.is_set_aside:
        return "info"
    return SEVERITIES[finding.severity]


def _text(finding: Finding) -> str:
    labels = {
        "found": "",
        "also in": "Also in ",
        "required": "Required: ",
        "remedy": "Remedy: ",
        "reference": "Reference: ",
        "variance": "Variance: ",
    }
    name = wording.name(finding)
    about = "" if name in finding.found else f"{name}: "
    sentences = [wording.ended(f"{labels.get(label, '')}{text}") for label, text in wording.parts(finding)]
    said = about + " ".join(sentences)
    return f"Outstanding, on the punch list: {said}" if finding.outstanding else said


def _hash(*parts: str) -> str:
    return sha256("\x1f".join(parts).encode("utf-8", "surrogatepass")).hexdigest()[:32]
