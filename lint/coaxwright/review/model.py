"""The result of a review. Everything a person reads is a view of this one object."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import field, replace

from coaxwright.findings import Finding, Outcome, Result
from coaxwright.plant import OwnFigures
from coaxwright.rules import Caution, Rule, Severity
from coaxwright.source import Problem
from coaxwright.unchanging import unchanging

RETURNS_AT = Severity.DEFICIENCY
"""The severity from which a finding returns a design, unless another is chosen."""

WHOLE_DESIGN = "review.design"
"""Stands for a rule where something other than a check failed, and the design could not be judged at all."""


@unchanging
class Crash:
    """A check that failed: the rest went on, and the review is incomplete."""

    rule: str
    """The rule's name, or ``WHOLE_DESIGN``."""
    subject: str
    error: str


@unchanging
class RuleTally:
    """How often a rule came out which way; met is what was selected and not reported."""

    rule: str
    met: int = 0
    not_met: int = 0
    does_not_apply: int = 0
    cannot_be_judged: int = 0
    needs_a_person: int = 0


@unchanging
class DesignReview:
    """One file: either its problems, or its findings."""

    file: str
    problems: tuple[Problem, ...] = ()
    design: str = ""
    """The design's identity; empty where the file was not understood."""
    title: str = ""
    job: str = ""
    sheet: str = ""
    revision: str = ""
    stage: str = ""
    authority: str = ""
    """The authority having jurisdiction, as the design names it."""
    named_rulesets: tuple[str, ...] = ()
    rulesets: tuple[str, ...] = ()
    findings: tuple[Finding, ...] = ()
    tallies: tuple[RuleTally, ...] = ()
    rules: tuple[Rule, ...] = field(default=(), repr=False)
    """The rules that were asked."""
    crashes: tuple[Crash, ...] = ()
    cautions: tuple[Caution, ...] = ()
    own_figures: tuple[OwnFigures, ...] = ()
    """The cable classes and devices in it whose figures its author, or the author's firm, states."""
    as_of: str = ""
    """The day by which its variances were judged; empty where none of them ends."""
    returns_at: Severity = RETURNS_AT
    """The severity from which a finding returns it."""

    @property
    def result(self) -> Result:
        """What becomes of the design."""
        if self.crashes:
            return Result.INCOMPLETE
        if self.problems:
            return Result.NOT_UNDERSTOOD
        returned = any(finding.returns(self.returns_at) for finding in self.findings)
        return Result.RETURNED if returned else Result.CLEAR


@unchanging
class Review:
    """Every file that was reviewed, by name."""

    designs: tuple[DesignReview, ...]

    def returning_at(self, severity: Severity) -> Review:
        """The same review where findings from ``severity`` up return every design."""
        return Review(tuple(replace(design, returns_at=severity) for design in self.designs))

    @property
    def findings(self) -> Iterator[Finding]:
        """All findings, in their total order."""
        for design in self.designs:
            yield from design.findings

    @property
    def result(self) -> Result:
        """The result of all files together: incomplete before not understood before returned before clear."""
        results = {design.result for design in self.designs}
        for result in (Result.INCOMPLETE, Result.NOT_UNDERSTOOD, Result.RETURNED):
            if result in results:
                return result
        return Result.CLEAR if self.designs else Result.INCOMPLETE

    @property
    def exit_status(self) -> int:
        """0 clear, 1 returned, 2 a file not understood, 3 incomplete."""
        return EXIT_STATUS[self.result]

    def count(self, severity: Severity) -> int:
        """Findings of one severity that are not met, and not varied."""
        return sum(f.severity is severity and f.outcome is Outcome.NOT_MET and not f.is_varied for f in self.findings)

    @property
    def count_not_judged(self) -> int:
        """Findings that cannot be judged, and are not varied."""
        return sum(f.outcome is Outcome.CANNOT_BE_JUDGED and not f.is_varied for f in self.findings)

    @property
    def count_varied(self) -> int:
        """Findings that a variance covers."""
        return sum(f.is_varied for f in self.findings)


EXIT_STATUS = {Result.CLEAR: 0, Result.RETURNED: 1, Result.NOT_UNDERSTOOD: 2, Result.INCOMPLETE: 3}
