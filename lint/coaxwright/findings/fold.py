"""Gather findings that wait for one missing figure, so that a reader is asked for it once.

Folding is for reading only: every finding stays in the review and counts for its exit status.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from coaxwright.findings.finding import Finding
from coaxwright.findings.outcome import Outcome
from coaxwright.source import Path


@dataclass(slots=True)
class Folded:
    """One finding to show, with those that wait for the same thing."""

    finding: Finding
    waiting: list[Finding] = field(default_factory=list)


def fold(findings: Sequence[Finding]) -> list[Folded]:
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
            alike = sorted([folded.finding, *folded.waiting], key=lambda one: (-one.severity.rank, one.order))
            folded.finding, folded.waiting = alike[0], alike[1:]
    return sorted(shown, key=lambda folded: folded.finding.order)
