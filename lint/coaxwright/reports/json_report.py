"""The review as JSON for programs: everything that was found, in our own words and in a fixed order.

The form is described by ``schemas/review-1.schema.json``. Lines and columns count from 1, columns in code points.
"""

from __future__ import annotations

import json
import re
from collections.abc import Mapping, Sequence
from typing import TypeAlias

from coaxwright.checks import Citation
from coaxwright.findings import Amendment, Finding, Identity, Outcome, Place, Result, Varied
from coaxwright.reviewing import Crash, DesignReview, Review, RuleTally
from coaxwright.rules import Caution, Rule, Severity
from coaxwright.source import Problem, Span
from coaxwright.version import VERSION

FORMAT = 1
"""Rises when a program that reads the form would have to change; a key that the schema marks deprecated stays until
then, beside the one that takes its place."""

Json: TypeAlias = "str | int | Sequence[Json] | Mapping[str, Json] | None"

_UNSEEN = re.compile("[\x7f-\x9f\u061c\u200b-\u200f\u2028-\u202e\u2060-\u206f\ufeff]")
"""Control and direction characters, which could make a terminal or an editor show another text than is there."""
_HALVES = re.compile("[\ud800-\udfff]")
"""Halves of surrogate pairs, left of a file name that is not UTF-8: not every reader takes them (RFC 8259, 8.2)."""


def render(review: Review) -> str:
    """The whole review as one JSON object, with a final newline."""
    return write(_review(review))


def write(data: Json, *, compact: bool = False) -> str:
    """JSON in the order in which it was built: UTF-8 as it is, except for characters that cannot be seen."""
    text = _compact(data) if compact else _indented(data)
    return _UNSEEN.sub(lambda found: f"\\u{ord(found.group()):04x}", text) + "\n"


def _indented(data: Json) -> str:
    """JSON on lines of its own, by the fast writer that comes with pydantic; what it refuses, by the reference one."""
    from pydantic_core import PydanticSerializationError, to_json

    try:
        text = to_json(data, indent=2).decode()
    except (PydanticSerializationError, UnicodeError):
        text = "NaN"
    if "NaN" in text or "Infinity" in text:  # in a text it is right, as a number the reference writer refuses it
        return _HALVES.sub("\N{REPLACEMENT CHARACTER}", json.dumps(data, ensure_ascii=False, allow_nan=False, indent=2))
    return text


def _compact(data: Json) -> str:
    text = json.dumps(data, ensure_ascii=False, allow_nan=False, separators=(",", ":"))
    return _HALVES.sub("\N{REPLACEMENT CHARACTER}", text)


def citation(source: Citation) -> Json:
    """A source, in its parts and as it is printed."""
    return {
        "document": source.document,
        "title": source.title,
        "edition": source.edition,
        "clause": source.clause,
        "confidence": source.confidence,
        "printed": str(source),
    }


def tally(counted: RuleTally) -> Mapping[str, int]:
    """How often a rule came out which way, by outcome."""
    return {
        Outcome.MET: counted.met,
        Outcome.NOT_MET: counted.not_met,
        Outcome.DOES_NOT_APPLY: counted.does_not_apply,
        Outcome.CANNOT_BE_JUDGED: counted.cannot_be_judged,
        Outcome.NEEDS_A_PERSON: counted.needs_a_person,
    }


def _review(review: Review) -> Json:
    return {
        "coaxwright review": FORMAT,
        "version": VERSION,
        "result": review.result,
        "exit status": review.exit_status,
        "totals": _totals(review),
        "since": since(review),
        "punch lists": punch_lists(review),
        "designs": [_design(design) for design in review.designs],
        "left out": left_out(review),
    }


def _totals(review: Review) -> Json:
    results = [design.result for design in review.designs]
    findings = tuple(review.findings)
    return {
        "files": len(results),
        "results": {result: results.count(result) for result in Result},
        "findings": len(findings),
        "not met": {severity.value: review.count(severity) for severity in reversed(Severity)},
        "cannot be judged": review.count_not_judged,
        "needs a person": sum(
            finding.outcome is Outcome.NEEDS_A_PERSON and not finding.is_set_aside for finding in findings
        ),
        "outstanding": review.count_outstanding,
        "under variance": review.count_varied,
        "varied": review.count_varied,
        "stood already": review.count_stood,
        "problems": sum(len(design.problems) for design in review.designs),
        "crashes": sum(len(design.crashes) for design in review.designs),
    }


def _design(design: DesignReview) -> Json:
    rules = {rule.name: rule for rule in design.rules}
    return {
        "file": design.file,
        "result": design.result,
        "returns at": design.returns_at.value,
        "design": design.design,
        "title": design.title,
        "sheet": design.sheet,
        "revision": design.revision,
        "stage": design.stage,
        "rulesets": {"named": design.named_rulesets, "in effect": design.rulesets},
        "terms": terms(design),
        "selection": selection(design),
        "author-supplied values": author_values(design),
        "own figures": author_values(design),
        "as of": design.as_of,
        "problems": [_problem(problem) for problem in design.problems],
        "findings": [_finding(finding, design.returns_at) for finding in design.findings],
        "folded": [_finding(finding, design.returns_at) for finding in design.folded],
        "stood already": len(design.stood),
        "tallies": [_tally(counted, rules[counted.rule]) for counted in design.tallies],
        "not asked": skipped_rules(design),
        "crashes": [_crash(crash) for crash in design.crashes],
        "cautions": [_caution(caution) for caution in design.cautions],
    }


def terms(design: DesignReview) -> Mapping[str, Json]:
    """On whose terms a design was reviewed, and what settings had to do with it."""
    scope = design.scope
    return {
        "whose": "the reviewer's" if scope.reviewers_terms else "the design's",
        "reviewer's rulesets": scope.reviewers_terms,
        "also judged by": [{"ruleset": ruleset.label, "origin": ruleset.origin} for ruleset in scope.also_asked],
        "settings": scope.settings,
        "returns at from": scope.returns_at_from,
        "not used": scope.set_aside,
    }


def selection(design: DesignReview) -> Mapping[str, Json]:
    """Whether a part of the rules was asked only, and which part."""
    scope = design.scope
    return {"is a part": scope.is_part, "only": scope.only, "without": scope.leave_out}


def skipped_rules(design: DesignReview) -> Sequence[Json]:
    """The rules that were not asked, by whom and why."""
    return [
        {
            "rule": skipped_rule.rule,
            "by": skipped_rule.by.value,
            "reason": skipped_rule.reason,
            "origin": skipped_rule.origin,
        }
        for skipped_rule in design.scope.skipped_rules
    ]


def left_out(review: Review) -> Sequence[Json]:
    """The designs that settings leave out."""
    return [{"file": design.name, "reason": design.reason, "origin": design.origin} for design in review.left_out]


def author_values(design: DesignReview) -> Sequence[Json]:
    """What is taken on the author's word."""
    return [
        {
            "name": author_value.name,
            "kind": author_value.kind,
            "file": author_value.file,
            "document": author_value.document,
            "used by": list(author_value.used_by),
        }
        for author_value in design.author_values
    ]


def _problem(problem: Problem) -> Json:
    return {
        "file": problem.file,
        **_span(problem.span),
        "what": problem.what,
        "expected": problem.expected,
        "nearest": problem.nearest,
        "message": problem.message,
    }


def _finding(finding: Finding, returns_at: Severity) -> Json:
    identity, subject = finding.identity, finding.subject
    return {
        "fingerprint": identity.fingerprint,
        "identity": _identity(identity),
        "rule": finding.rule,
        "title": finding.title,
        "severity": finding.severity.value,
        "outcome": finding.outcome,
        "returns": finding.returns(returns_at) and finding.folded_under is None,
        "subject": {
            "kind": subject.kind,
            "tag": subject.tag,
            "second": subject.second,
            "where": subject.where,
            "owner": subject.owner,
            "state": subject.state,
        },
        "instances": finding.instances,
        "outstanding": finding.outstanding,
        "new in": finding.new_in,
        "place": _place(finding.place),
        "found": finding.found,
        "required": finding.required,
        "reason": finding.reason,
        "remedy": finding.remedy,
        "sources": [citation(source) for source in finding.sources],
        "remarks": finding.remarks,
        "related": [{"place": _place(place), "text": text} for place, text in finding.related],
        "root": finding.root,
        "amendment": _amendment(finding.amendment),
        "under variance": _varied(finding.varied),
        "varied": _varied(finding.varied),
        "folded under": None if finding.folded_under is None else _identity(finding.folded_under),
    }


def _identity(identity: Identity) -> Json:
    return {
        "design": identity.design,
        "rule": identity.rule,
        "kind": identity.kind,
        "subject": identity.subject,
        "second": identity.second,
        "facet": identity.facet,
    }


def since(review: Review) -> Json:
    """The revision that a review is compared with; None where it is not."""
    if review.since is None:
        return None
    return {
        "revision": review.since.revision,
        "commit": review.since.commit,
        "unchanged designs": review.since.unchanged,
        "not understood then": review.since.not_understood,
    }


def punch_lists(review: Review) -> Sequence[Json]:
    """The punch lists that its designs were held against."""
    return [
        {
            "file": held.name,
            "no longer found": [
                {"identity": _identity(item.identity), "severity": item.gravity.severity.value} for item in held.gone
            ],
        }
        for held in review.punch_lists
    ]


def _varied(varied: Varied | None) -> Json:
    if varied is None:
        return None
    return {
        "reason": varied.reason,
        "granted by": varied.granted_by,
        "until": varied.until,
        "honoured": varied.honoured,
        "place": _place(varied.place),
    }


def _place(place: Place) -> Json:
    return {"file": place.file, **_span(place.span), "text": place.line_text}


def _span(span: Span) -> Mapping[str, int]:
    return {
        "line": span.start.line,
        "column": span.start.column,
        "end line": span.end.line,
        "end column": span.end.column,
    }


def _amendment(amendment: Amendment | None) -> Json:
    if amendment is None:
        return None
    return {**_span(amendment.span), "written": amendment.written, "text": amendment.text, "changes": amendment.changes}


def _tally(counted: RuleTally, rule: Rule) -> Json:
    return {"rule": counted.rule, "title": rule.title, "severity": rule.severity.value, **tally(counted)}


def _crash(crash: Crash) -> Json:
    return {"rule": crash.rule, "subject": crash.subject, "error": crash.error}


def _caution(caution: Caution) -> Json:
    return {"name": caution.name, "when": caution.when, "text": caution.text, "source": citation(caution.source)}
