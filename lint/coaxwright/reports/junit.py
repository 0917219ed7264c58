"""The review as JUnit XML, which CI servers read as the results of tests.

One suite for each design, named by its file; one case for each rule that was asked, named by the rule. A case

- has a ``failure`` where a finding of its rule returns the design,
- has an ``error`` where its check failed, or where the file was not understood,
- is ``skipped``, with the reason, where the rule applies to nothing here, a person has to look, the figure is due at a
  later stage, the finding is advice, varied, outstanding, or left out since it was there before, or the rule was not
  asked,
- has nothing in it only where everything that the rule was asked of met it.

So a server that counts cases without a mark counts nothing that was not judged. The findings stand in full in the mark
and in the suite's ``system-out``, before the cautions. Times are nought: what a review says depends on none.

Source: the report schema of the CI server plug-in jenkinsci/xunit-plugin (junit-10.xsd), and the narrower one of the
format's first writer, Ant, as published by windyroad/JUnit-Schema; of both what both allow, but for the times and the
host's name that the latter asks for. Characters: XML 1.0, fifth edition, 2.2, all of which ``one_line`` keeps to.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from xml.etree import ElementTree

from coaxwright.findings import Finding
from coaxwright.frozen_value import frozen_value
from coaxwright.reports import scope, wording
from coaxwright.reports.wording import Standing
from coaxwright.reviewing import Crash, DesignReview, Review, RuleTally
from coaxwright.rules import Severity

UNDERSTOOD = "design.understood"
"""The case of a file that was not understood."""


@frozen_value
class _Case:
    rule: str
    mark: str = ""
    """``failure``, ``error`` or ``skipped``; empty where everything met the rule."""
    kind: str = ""
    message: str = ""
    lines: tuple[str, ...] = ()


def render(review: Review) -> str:
    """The whole review as one document, with a final newline."""
    suites = [_suite(design.file, _cases(design), design) for design in review.designs]
    if not suites and not review.nothing_changed:
        nothing = _Case("review.designs", "error", "incomplete", "nothing was reviewed")
        suites = [_suite("nothing", [nothing], None)]
    said = tuple(wording.compared(review))
    if said:
        suites.append(_suite("review", [_Case("review.compared", "skipped", "compared", " ".join(said), said)], None))
    for left in review.left_out:
        told = wording.one_line(f"left out by settings: {left.reason} ({left.origin})")
        suites.append(_suite(left.name, [_Case("review.designs", "skipped", "left out", told)], None))
    root = ElementTree.Element("testsuites", name="coaxwright")
    for total in ("tests", "failures", "errors"):
        root.set(total, str(sum(int(suite.get(total, "0")) for suite in suites)))
    root.set("time", "0")
    root.extend(suites)
    ElementTree.indent(root)
    return f'<?xml version="1.0" encoding="UTF-8"?>\n{ElementTree.tostring(root, encoding="unicode")}\n'


def _cases(design: DesignReview) -> Iterator[_Case]:
    for number, problem in enumerate(design.problems, 1):
        rule = UNDERSTOOD if number == 1 else f"{UNDERSTOOD} {number}"
        line = f"{wording.where_mistaken(problem)}: {wording.one_line(problem.message)}"
        yield _Case(rule, "error", "not understood", wording.one_line(problem.message), (line,))
    of_rule: dict[str, list[Finding]] = {}
    for finding in design.findings:
        of_rule.setdefault(finding.rule, []).append(finding)
    crashes = {crash.rule: crash for crash in design.crashes}
    for tally in design.tallies:
        stood = sum(finding.rule == tally.rule for finding in design.stood)
        before = wording.one_line(f"{stood} stood at {design.since} already") if stood else ""
        yield _case(tally, of_rule.get(tally.rule, []), crashes.pop(tally.rule, None), design.returns_at, before)
    for skipped_rule in design.scope.skipped_rules:
        yield _Case(skipped_rule.rule, "skipped", "not asked", wording.one_line(scope.why_not_asked(skipped_rule)))
    if design.is_nothing_asked:
        yield _Case("review.rules", "error", "incomplete", wording.nothing_asked(design))
    for crash in crashes.values():
        yield _Case(crash.rule, "error", "incomplete", wording.failure(crash))


def _case(
    tally: RuleTally, findings: Sequence[Finding], crash: Crash | None, returns_at: Severity, left_out: str
) -> _Case:
    lines = tuple(line for finding in findings for line in _finding(finding))
    if crash is not None:
        return _Case(tally.rule, "error", "incomplete", wording.failure(crash), lines)
    returning = [finding for finding in findings if wording.standing(finding, returns_at) is Standing.RETURNS]
    if returning:
        first = max(returning, key=lambda finding: finding.severity.rank)
        more = f" ({len(returning) - 1} more)" if len(returning) > 1 else ""
        return _Case(tally.rule, "failure", first.severity.value, f"{wording.one_line(first.found)}{more}", lines)
    if findings or left_out:
        standings = [wording.standing(finding, returns_at) for finding in findings]
        numbers = [(standings.count(standing), words) for standing, words in _SKIPPED.items()]
        counted = [f"{number} {words}" for number, words in numbers if number]
        told = ", ".join([*counted, left_out] if left_out else counted)
        return _Case(tally.rule, "skipped", "does not return the design", told, lines)
    if not tally.met:
        return _Case(tally.rule, "skipped", "does not apply", _not_applying(tally))
    return _Case(tally.rule)


_SKIPPED = {
    Standing.PERSON: "for a person to look at",
    Standing.FURTHER: "below the severity that returns",
    Standing.ADVICE: "not met, as advice",
    Standing.LATER: "open until a later stage",
    Standing.OUTSTANDING: "outstanding",
    Standing.VARIED: "under variance",
}


def _not_applying(tally: RuleTally) -> str:
    if tally.does_not_apply:
        return f"applies to none of {wording.counted(tally.does_not_apply, 'item')}"
    return "the design holds nothing that it is asked of"


def _finding(finding: Finding) -> Iterator[str]:
    yield f"{wording.where(finding.place)}: {wording.grade(finding)}: {wording.name(finding)}"
    for label, text in wording.parts(finding):
        yield f"  {label}: {text}"


def _suite(file: str, cases: Iterable[_Case], design: DesignReview | None) -> ElementTree.Element:
    cases = list(cases)
    suite = ElementTree.Element("testsuite", name=wording.one_line(file))
    suite.set("tests", str(len(cases)))
    for total, mark in (("failures", "failure"), ("errors", "error"), ("skipped", "skipped")):
        suite.set(total, str(sum(case.mark == mark for case in cases)))
    suite.set("time", "0")
    if design is not None:
        properties = ElementTree.SubElement(suite, "properties")
        for name, value in _properties(design):
            ElementTree.SubElement(properties, "property", name=name, value=wording.one_line(value))
    for case in cases:
        topic = case.rule.partition(".")[0]
        # Servers group cases by what stands before the last point, and keep one of each name in a group.
        element = ElementTree.SubElement(
            suite, "testcase", name=wording.one_line(case.rule), classname=wording.one_line(f"{file}.{topic}"), time="0"
        )
        if case.mark:
            said = ElementTree.SubElement(element, case.mark, type=case.kind, message=wording.one_line(case.message))
            said.text = _lines(case.lines)
    out = [f"Caution: {wording.one_line(caution.text)}" for caution in wording.cautions([design] if design else [])]
    skipped = [line for case in cases if case.mark == "skipped" for line in case.lines]
    ElementTree.SubElement(suite, "system-out").text = _lines([*skipped, *out])
    ElementTree.SubElement(suite, "system-err").text = None
    return suite


def _properties(design: DesignReview) -> Iterator[tuple[str, str]]:
    for name, value in (
        ("title", design.title),
        ("job", design.job),
        ("sheet", design.sheet),
        ("revision", design.revision),
        ("stage", design.stage),
        ("judged by", scope.judged_by(design)),
        *((f"{label[0].lower()}{label[1:]}", text) for label, text in scope.head(design)),
        ("author-supplied values", wording.author_values(design)),
        ("left out", wording.left_out(design).removesuffix("; ")),
    ):
        if value:
            yield name, value


def _lines(lines: Sequence[str]) -> str | None:
    """Lines of text between two tags; None where there are none."""
    return "".join(f"\n{line}" for line in lines) + "\n" if lines else None
