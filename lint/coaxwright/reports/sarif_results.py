"""SARIF's words for findings: results, their messages and their fixes."""

from __future__ import annotations

from collections.abc import Sequence
from hashlib import sha256

from coaxwright.findings import Amendment, Finding, Outcome
from coaxwright.reports.instances import also_in, changes
from coaxwright.reports.json_report import Json
from coaxwright.reports.sarif_places import Files, Things, message, region
from coaxwright.reports.sarif_rules import LEVELS, UNDERSTOOD, Documents
from coaxwright.reports.variances import granted, remarks
from coaxwright.rules import Severity
from coaxwright.source import Problem

KINDS = {
    Outcome.MET: "pass",
    Outcome.NOT_MET: "fail",
    Outcome.DOES_NOT_APPLY: "notApplicable",
    Outcome.CANNOT_BE_JUDGED: "open",
    Outcome.NEEDS_A_PERSON: "review",
}
"""Source: SARIF 2.1.0, 3.27.9."""
FINGERPRINT = "coaxwrightIdentity/v1"
"""The fingerprint of a finding's identity; the version rises if the identity comes to hold something else."""
PROBLEM_FINGERPRINT = "coaxwrightProblem/v1"
"""The fingerprint of a file's name and what is wrong in it."""


def full(
    finding: Finding, rule_index: int, returns_at: Severity, files: Files, things: Things, documents: Documents
) -> Json:
    """Everything about a finding.

    That one is outstanding, or new in some units, stands among its properties. It has no ``baselineState``: that is
    with respect to some previous run, and of every result of the run (3.27.24), while a punch list holds what was
    recorded of many runs, and nothing of what needs a person or is varied.
    """
    result: dict[str, Json] = {
        "ruleId": finding.rule,
        "ruleIndex": rule_index,
        "kind": KINDS[finding.outcome],
        **_level(finding),
        "message": message(f"{_brief_message(finding)} Why: {ended(finding.reason)}"),
        "locations": [
            {
                "physicalLocation": files.physical(finding.place, with_text=True),
                "logicalLocations": things.of(finding),
            }
        ],
        "partialFingerprints": {FINGERPRINT: finding.identity.fingerprint},
        "suppressions": _suppressions(finding, files),
        "properties": {
            "outcome": finding.outcome,
            "severity": finding.severity.value,
            "returns": finding.returns(returns_at),
            "outstanding": finding.outstanding,
            "instances": finding.instances,
            "new in": finding.new_in,
            "found": finding.found,
            "required": finding.required,
            "remedy": finding.remedy,
            "owner": finding.subject.owner,
            "state": finding.subject.state,
            "remarks": remarks(finding),
        },
    }
    taxa = documents.references(finding.sources)
    if taxa:
        result["taxa"] = taxa
    if finding.related:
        result["relatedLocations"] = [
            {"id": number, "physicalLocation": files.physical(place, with_text=True), "message": message(text)}
            for number, (place, text) in enumerate(finding.related, 1)
        ]
    if finding.amendment is not None:
        result["fixes"] = [_fix(finding.amendment, finding.place.file, files)]
    return result


def _suppressions(finding: Finding, files: Files) -> Sequence[Json]:
    """The variance that covers a finding, rejected where it is not honoured.

    Every result of a run has the list, empty where there is none. Source: SARIF 2.1.0, 3.27.23 and 3.35.
    """
    varied = finding.varied
    if varied is None:
        return []
    return [
        {
            "kind": "inSource",
            "status": "accepted" if varied.honoured else "rejected",
            "justification": granted(varied),
            "location": {"physicalLocation": files.physical(varied.place, with_text=True)},
            "properties": {"reason": varied.reason, "granted by": varied.granted_by, "until": varied.until},
        }
    ]


def brief(finding: Finding, rule_index: int, files: Files) -> Json:
    """A finding that returns its design, for a code host.

    A code host reads no ``kind``. What cannot be judged and returns the design is a problem too: a figure is missing.
    """
    return {
        "ruleId": finding.rule,
        "ruleIndex": rule_index,
        "level": LEVELS[finding.severity],
        "message": message(_brief_message(finding)),
        "locations": [{"physicalLocation": files.physical(finding.place, with_text=False)}],
        "partialFingerprints": {FINGERPRINT: finding.identity.fingerprint},
    }


def not_understood(problem: Problem, rule_index: int, files: Files) -> Json:
    """A mistake of form, for a code host, which shows no notifications.

    Without it a file that cannot be read any more would look as if all of its findings were mended.
    """
    fingerprint = sha256(f"{problem.file}\x1f{problem.what}".encode("utf-8", "surrogateescape")).hexdigest()[:32]
    return {
        "ruleId": UNDERSTOOD,
        "ruleIndex": rule_index,
        "level": "error",
        "message": message(ended(f"Not understood: {problem.message}")),
        "locations": [problem_location(problem, files)],
        "partialFingerprints": {PROBLEM_FINGERPRINT: fingerprint},
    }


def problem_location(problem: Problem, files: Files) -> Json:
    """Where a problem is: a file as a whole has no region."""
    physical: dict[str, Json] = {"artifactLocation": files.location(problem.file)}
    if problem.span.end.index > 0:
        physical["region"] = region(problem.span)
    return {"physicalLocation": physical}


def _level(finding: Finding) -> dict[str, Json]:
    """The severity, of what is not met; no other kind of result has one. Source: SARIF 2.1.0, 3.27.10."""
    return {"level": LEVELS[finding.severity]} if finding.outcome is Outcome.NOT_MET else {}


def _brief_message(finding: Finding) -> str:
    sources = "; ".join(str(source) for source in finding.sources)
    others = (f"Also in {also_in(finding)}",) if len(finding.instances) > 1 else ()
    parts = (finding.found, *others, f"Required: {finding.required}", f"Remedy: {finding.remedy}", *remarks(finding))
    return " ".join(ended(part) for part in (*parts, f"Source: {sources}"))


def ended(text: str) -> str:
    """A text with the full stop that it may already have."""
    return text if text.endswith((".", "?", "!")) else f"{text}."


def _fix(amendment: Amendment, file: str, files: Files) -> Json:
    return {
        "description": message(f"write '{amendment.text}' in place of '{amendment.written}'{changes(amendment)}"),
        "artifactChanges": [
            {
                "artifactLocation": files.location(file),
                "replacements": [
                    {"deletedRegion": region(amendment.span), "insertedContent": {"text": amendment.text}}
                ],
            }
        ],
    }
