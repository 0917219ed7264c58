"""The review as lines that a CI system takes out of a job's log and shows beside the lines of a change.

Each is a workflow command, ``::error file=…,line=…,col=…,title=…::message``. All findings are told, the most serious
first, since some systems show the first few of a kind only. Other lines of the log stay as they are: the last ones here
are plain, and begin with words of ours.

Source: the commands and their escapes as the runner that reads them takes them apart (actions/runner,
src/Runner.Common/ActionCommand.cs): per cent, carriage return and line feed; in properties also colon and comma.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from coaxwright.findings import Finding, Outcome
from coaxwright.reports import wording
from coaxwright.reviewing import DesignReview, Review
from coaxwright.rules import Severity
from coaxwright.source import Problem

COMMANDS = {Severity.VIOLATION: "error", Severity.DEFICIENCY: "warning", Severity.ADVICE: "notice"}
"""The command for each severity. What a file was not understood for, and a check that failed, are errors."""
_LABELS = {
    "found": "",
    "also in": "Also in ",
    "required": "Required: ",
    "remedy": "Remedy: ",
    "reference": "Reference: ",
    "variance": "Variance: ",
}


def render(review: Review) -> str:
    """The whole review, the most serious findings of all designs first."""
    lines = [line for design in review.designs for line in _stopped(design)]
    findings = sorted(review.findings, key=lambda finding: -_rank(finding))
    lines += [_finding(finding) for finding in findings]
    return "\n".join([*lines, *wording.closing_lines(review)]) + "\n"


def _stopped(design: DesignReview) -> Iterator[str]:
    """What kept a design from being judged."""
    for problem in design.problems:
        yield _command("error", _mistaken(problem), "Not understood", [wording.one_line(problem.message)])
    if design.is_nothing_asked:
        at = {"file": wording.one_line(design.file)}
        yield _command("error", at, "Review incomplete", [wording.nothing_asked(design)])
    for crash in design.crashes:
        at = {"file": wording.one_line(design.file)}
        yield _command("error", at, "Review incomplete", [wording.failure(crash)])


def _mistaken(problem: Problem) -> dict[str, str]:
    at = {"file": wording.one_line(problem.file)}
    if problem.span.end.index > 0:
        at |= {"line": str(problem.span.start.line), "col": str(problem.span.start.column)}
    return at


def _finding(finding: Finding) -> str:
    start = finding.place.span.start
    at = {"file": wording.one_line(finding.place.file), "line": str(start.line), "col": str(start.column)}
    title = f"{wording.first_upper(wording.grade(finding))}: {finding.rule} {wording.name(finding)}"
    lines = [wording.ended(f"{_LABELS.get(label, '')}{text}") for label, text in wording.parts(finding)]
    return _command(_kind(finding), at, title, lines)


def _kind(finding: Finding) -> str:
    return COMMANDS[finding.severity] if _presses(finding) else "notice"


def _rank(finding: Finding) -> int:
    return finding.severity.rank if _presses(finding) else -1


def _presses(finding: Finding) -> bool:
    """Whether a finding asks something of the author: not where it is for a person, varied or outstanding."""
    return finding.outcome is not Outcome.NEEDS_A_PERSON and not finding.is_set_aside


def _command(kind: str, at: dict[str, str], title: str, lines: Iterable[str]) -> str:
    properties = ",".join(f"{name}={_property(value)}" for name, value in {**at, "title": title}.items())
    return f"::{kind} {properties}::{_message(chr(10).join(lines))}"


def _message(text: str) -> str:
    return text.replace("%", "%25").replace("\r", "%0D").replace("\n", "%0A")


def _property(text: str) -> str:
    return _message(text).replace(":", "%3A").replace(",", "%2C")
