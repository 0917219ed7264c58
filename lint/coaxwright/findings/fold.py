"""Gather findings that wait for one missing figure, so that a reader is asked for it once.

Folding is for reading only: every finding stays in the review and counts for its exit status.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from re import compile as regex
from re import escape

from coaxwright.findings.finding import Finding
from coaxwright.findings.outcome import Outcome
from coaxwright.source import Path


@dataclass(slots=True)
class Folded:
    """One finding to show, with those that wait for the same thing."""

    finding: Finding
    waiting: list[Finding] = field(default_factory=list)
    alike: list[Finding] = field(default_factory=list)
    """Findings that say the very same of other things, where they are gathered."""
    deferred: list[Finding] = field(default_factory=list)
    """Findings that defer to it."""


def fold(findings: Sequence[Finding], deferred: Sequence[Finding] = ()) -> list[Folded]:
    """Findings in their order; what cannot be judged stands under the finding at its root, or under the first alike."""
    shown: list[Folded] = []
    broken: dict[tuple[str, Path], Folded] = {}
    for finding in findings:
        if finding.outcome is Outcome.NOT_MET:
            folded = Folded(finding)
            shown.append(folded)
            if finding.root is not None:
                broken.setdefault((finding.place.file, finding.root), folded)
    for finding in findings:
        if finding.outcome is not Outcome.NOT_MET:
            root = (finding.place.file, finding.root or ())
            if root in broken:
                broken[root].waiting.append(finding)
            else:
                broken[root] = Folded(finding)
                shown.append(broken[root])
    for folded in shown:  # the most serious of those that wait for one figure stands for all of them
        if folded.finding.outcome is not Outcome.NOT_MET and folded.waiting:
            alike = sorted(
                [folded.finding, *folded.waiting], key=lambda finding: (-finding.severity.rank, finding.order)
            )
            folded.finding, folded.waiting = alike[0], alike[1:]
    owners = {folded.finding.identity: folded for folded in shown}
    for finding in deferred:
        if finding.folded_under in owners:
            owners[finding.folded_under].deferred.append(finding)
    return sorted(shown, key=lambda folded: folded.finding.order)


def gathered(every: Sequence[Folded]) -> list[Folded]:
    """What says the very same of several things stands under the first of them.

    Not what is due later, holds for several units, is mended by a change of its own, or has others waiting on it.
    """
    shown: list[Folded] = []
    first: dict[tuple[object, ...], Folded] = {}
    for folded in every:
        words = _words(folded.finding)
        finding = folded.finding
        is_alone = not (
            folded.waiting or folded.deferred or finding.due_later or finding.amendment or len(finding.instances) > 1
        )
        if is_alone and words in first:
            first[words].alike.append(finding)
            continue
        if is_alone:
            first[words] = folded
        shown.append(folded)
    return shown


def _words(finding: Finding) -> tuple[object, ...]:
    """All that is said in a finding, whatever the thing is called that it is about."""
    tag = regex(rf"(?<![\w-]){escape(finding.subject.tag)}(?![\w-])")
    said = tuple(tag.sub("\0", text) for text in (finding.found, finding.required, finding.remedy, *finding.remarks))
    return (finding.rule, finding.severity, finding.outcome, finding.subject.kind, bool(finding.outstanding), *said)
