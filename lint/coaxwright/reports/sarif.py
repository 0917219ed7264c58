"""The review in the Static Analysis Results Interchange Format, in two profiles.

``full`` is for audit: every finding of every outcome, the rules with their limits and sources, the documents, the
tallies. ``code host`` is for what a code host shows beside the lines of a change: exactly the findings that return a
design, and the mistakes for which a file was not understood.

Source: OASIS Standard SARIF Version 2.1.0, 2020, with errata 01, 2023; a bare number in a comment is a section of it.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Literal, TypeAlias

from coaxwright.findings import Finding, Result
from coaxwright.reports import sarif_results, scope, wording
from coaxwright.reports.json_report import (
    Json,
    author_values,
    citation,
    left_out,
    punch_lists,
    selection,
    since,
    skipped_rules,
    tally,
    terms,
    write,
)
from coaxwright.reports.sarif_places import BASE, Files, Things, message
from coaxwright.reports.sarif_rules import Documents, Rules
from coaxwright.reviewing import DesignReview, Review
from coaxwright.version import VERSION

Profile: TypeAlias = Literal["full", "code host"]

SCHEMA = "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json"
MOST_RESULTS = 5_000
"""How many results a code host is given; hosts refuse or cut longer lists (common practice)."""

_NOTIFICATIONS = {
    "not-understood": "A file has mistakes of form and was not reviewed.",
    "crash": "A check failed, and the review is incomplete.",
    "nothing-reviewed": "There was nothing to review, which is not the same as nothing wrong.",
    "more-findings": "There are more findings than the log holds.",
    "varied-findings": "Findings are covered by variances and are not listed.",
    "outstanding-findings": "Findings are on the punch list and are not listed.",
    "compared": "A punch list, or a revision, with which the review is compared.",
    "left-out-findings": "Findings of a design were there before and are not listed.",
    "terms": "Somebody else than the design says what it is held to.",
    "rules-not-asked": "Not all rules that bind a design were asked of it.",
    "designs-left-out": "Designs of a folder were left out of the review by settings.",
}
_NOTIFICATION_INDEXES = {name: index for index, name in enumerate(_NOTIFICATIONS)}


def render(review: Review, profile: Profile = "full") -> str:
    """The review as one SARIF log, with a final newline."""
    run = _full_run(review) if profile == "full" else _code_host_run(review)
    return write({"$schema": SCHEMA, "version": "2.1.0", "runs": [run]}, compact=profile == "code host")


def _full_run(review: Review) -> Json:
    files, things, documents = Files([design.file for design in review.designs]), Things(), Documents()
    rules = Rules(documents)
    indexes = [{rule.name: rules.index(rule.name, design) for rule in design.rules} for design in review.designs]
    results = [
        sarif_results.full(finding, known[finding.rule], design.returns_at, files, things, documents)
        for design, known in zip(review.designs, indexes, strict=True)
        for finding in design.findings
    ]
    notifications = [
        notification
        for design, known in zip(review.designs, indexes, strict=True)
        for notification in _notifications(design, files, known)
    ]
    return {
        **_run(review, rules, documents, notifications),
        "artifacts": [_artifact(design, files, review) for design in review.designs],
        "logicalLocations": things.listed,
        "results": results,
        "taxonomies": documents.taxonomies(),
        "properties": {
            "result": review.result,
            "cautions": _cautions(review),
            **_comparisons(review),
            "left out": left_out(review),
        },
    }


def _comparisons(review: Review) -> dict[str, Json]:
    """The punch list and the revision that a review was compared with, as far as it was."""
    compared = {"since": since(review), "punch lists": punch_lists(review)}
    return {name: value for name, value in compared.items() if value}


def _code_host_run(review: Review) -> Json:
    files, rules = Files([]), Rules(None)
    problems = [problem for design in review.designs for problem in design.problems]
    returning = sorted(_returning(review), key=lambda pair: -pair[0].severity.rank)
    room = max(0, MOST_RESULTS - len(problems))
    results = [
        sarif_results.not_understood(problem, rules.index_of_understood(), files) for problem in problems[:MOST_RESULTS]
    ]
    for finding, design in returning[:room]:
        results.append(sarif_results.brief(finding, rules.index(finding.rule, design), files))
    notifications = [note for design in review.designs for note in _notifications(design, files, {})]
    left = len(problems) + len(returning) - len(results)
    if review.count_varied:
        text = f"{review.count_varied:,} findings are covered by variances and are not listed"
        notifications.append(_notification("varied-findings", "note", text))
    if review.count_outstanding:
        text = f"{review.count_outstanding:,} findings are on the punch list and are not listed"
        notifications.append(_notification("outstanding-findings", "note", text))
    if left:
        text = f"{left:,} more findings return a design; the most serious {len(results):,} are listed"
        notifications.append(_notification("more-findings", "warning", text))
    return {**_run(review, rules, None, notifications), "results": results}


def _returning(review: Review) -> Iterator[tuple[Finding, DesignReview]]:
    for design in review.designs:
        for finding in design.findings:
            if finding.returns(design.returns_at):
                yield finding, design


def _run(review: Review, rules: Rules, documents: Documents | None, notifications: Sequence[Json]) -> dict[str, Json]:
    driver: dict[str, Json] = {
        "name": "Coaxwright",
        "version": VERSION,
        "semanticVersion": VERSION,
        "shortDescription": message("A design linter for coaxial wiring"),
        "rules": rules.listed,
        "notifications": [
            {"id": name, "shortDescription": message(description)} for name, description in _NOTIFICATIONS.items()
        ],
    }
    if documents is not None:
        driver["supportedTaxonomies"] = documents.supported()
    for line in wording.compared(review):
        notifications = [*notifications, _notification("compared", "note", line)]
    if review.left_out:
        notifications = [*notifications, _notification("designs-left-out", "note", scope.left_out(review))]
    if not review.designs and not review.nothing_changed:
        text = "nothing was reviewed"
        notifications = [*notifications, _notification("nothing-reviewed", "error", text)]
    return {
        "tool": {"driver": driver},
        "language": "en",
        "columnKind": "unicodeCodePoints",
        "newlineSequences": ["\r\n", "\n", "\r"],
        "defaultEncoding": "utf-8",
        "originalUriBaseIds": {BASE: {"description": message("The folder in which the review ran.")}},
        "invocations": [
            {
                "executionSuccessful": review.result in (Result.CLEAR, Result.RETURNED),
                "exitCode": review.exit_status,
                "exitCodeDescription": review.result,
                "toolExecutionNotifications": notifications,
            }
        ],
    }


def _notifications(design: DesignReview, files: Files, known: dict[str, int]) -> Iterator[Json]:
    about = {"locations": [{"physicalLocation": {"artifactLocation": files.location(design.file)}}]}
    told = [f"{label}: {text}" for label, text in scope.head(design) if label != scope.ONLY_A_PART]
    if told and design.author_values:
        told.append(f"Author-supplied values: {wording.author_values(design)}")
    if told:
        yield {**_notification("terms", "note", wording.one_line("; ".join(told))), **about}
    if (design.scope.skipped_rules and not design.problems) or design.is_nothing_asked:
        level = "error" if design.is_nothing_asked else "note"
        asked = wording.nothing_asked(design) if design.is_nothing_asked else scope.asked_words(design)
        yield {**_notification("rules-not-asked", level, asked), **about}
    for problem in design.problems:
        location = sarif_results.problem_location(problem, files)
        yield {**_notification("not-understood", "error", problem.message), "locations": [location]}
    for crash in design.crashes:
        subject = f" on {crash.subject}" if crash.subject else ""
        kind, _, cause = crash.error.partition(": ")
        rule: dict[str, Json] = {"id": crash.rule}
        if crash.rule in known:
            rule["index"] = known[crash.rule]
        yield {
            **_notification("crash", "error", f"the check of {crash.rule} could not be run{subject}: {crash.error}"),
            "locations": [{"physicalLocation": {"artifactLocation": files.location(design.file)}}],
            "associatedRule": rule,
            "exception": {"kind": kind, "message": cause},
        }
    yield from _left_out(design, files)


def _left_out(design: DesignReview, files: Files) -> Iterator[Json]:
    """How many findings are left out of a design, since they stood at a revision already."""
    if design.stood:
        text = wording.left_out(design).removesuffix("; ")
        location = {"physicalLocation": {"artifactLocation": files.location(design.file)}}
        yield {**_notification("left-out-findings", "note", text), "locations": [location]}


def _notification(name: str, level: str, text: str) -> dict[str, Json]:
    return {
        "descriptor": {"id": name, "index": _NOTIFICATION_INDEXES[name]},
        "level": level,
        "message": message(sarif_results.ended(text)),
    }


def _artifact(design: DesignReview, files: Files, review: Review) -> Json:
    return {
        "location": files.location(design.file),
        "roles": ["analysisTarget"],
        "sourceLanguage": "yaml",
        "properties": {
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
            "not asked": skipped_rules(design),
            "own figures": author_values(design),
            "as of": design.as_of,
            **({"since": design.since, "stood already": len(design.stood)} if design.since else {}),
            "tallies": [{"rule": counted.rule, **tally(counted)} for counted in design.tallies],
            "cautions": [caution.name for caution in design.cautions],
        },
    }


def _cautions(review: Review) -> Sequence[Json]:
    """Each caution once; designs under different rulesets may word one differently."""
    cautions = {(caution.name, caution.text): caution for design in review.designs for caution in design.cautions}
    return [
        {"name": caution.name, "text": caution.text, "source": citation(caution.source)}
        for caution in cautions.values()
    ]
