"""The result of a review. Everything a person reads is a view of this one object."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import field, replace
from typing import TYPE_CHECKING

from coaxwright.findings import Finding, Outcome, Result
from coaxwright.frozen_value import frozen_value
from coaxwright.network import AuthorValues
from coaxwright.reviewing.scope import OWN_TERMS, LeftOutDesign, Scope
from coaxwright.rules import Caution, Rule, Severity
from coaxwright.source import Problem

if TYPE_CHECKING:
    from coaxwright.findings.punch_list import Item

RETURNS_AT = Severity.DEFICIENCY
"""The severity from which a finding returns a design, unless another is chosen."""

WHOLE_DESIGN = "review.design"
"""Stands for a rule where something other than a check failed, and the design could not be judged at all."""


@frozen_value
class Crash:
    """A check that failed: the rest went on, and the review is incomplete."""

    rule: str
    """The rule's name, or ``WHOLE_DESIGN``."""
    subject: str
    error: str


@frozen_value
class RuleTally:
    """How often a rule came out which way; met is what was selected and not reported."""

    rule: str
    met: int = 0
    not_met: int = 0
    does_not_apply: int = 0
    cannot_be_judged: int = 0
    needs_a_person: int = 0

    @property
    def is_empty(self) -> bool:
        """Whether there was nothing to ask the rule of."""
        counted = (self.met, self.not_met, self.does_not_apply, self.cannot_be_judged, self.needs_a_person)
        return not any(counted)


@frozen_value
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
    folded: tuple[Finding, ...] = field(default=(), repr=False)
    """Findings that are folded under one of those: they are counted nowhere, and stand when that one is corrected."""
    tallies: tuple[RuleTally, ...] = ()
    rules: tuple[Rule, ...] = field(default=(), repr=False)
    """The rules that were asked."""
    crashes: tuple[Crash, ...] = ()
    cautions: tuple[Caution, ...] = ()
    author_values: tuple[AuthorValues, ...] = ()
    """The cable classes and devices in it whose figures its author, or the author's firm, states."""
    as_of: str = ""
    """The day by which its variances were judged; empty where none of them ends."""
    returns_at: Severity = RETURNS_AT
    """The severity from which a finding returns it."""
    since: str = ""
    """The revision with which it is compared, as it was named; empty where it is not."""
    stood: tuple[Finding, ...] = field(default=(), repr=False)
    """The findings that are left out of it since they stood at that revision already."""
    scope: Scope = OWN_TERMS
    """On whose terms it was reviewed, and which rules were not asked."""

    @property
    def unfolded(self) -> tuple[Finding, ...]:
        """All its findings, those that are folded included."""
        return (*self.findings, *self.folded)

    @property
    def result(self) -> Result:
        """What becomes of the design."""
        if self.crashes:
            return Result.INCOMPLETE
        if self.problems:
            return Result.NOT_UNDERSTOOD
        if self.is_nothing_asked:
            return Result.INCOMPLETE
        returned = any(finding.returns(self.returns_at) for finding in self.findings)
        return Result.RETURNED if returned else Result.CLEAR

    @property
    def is_nothing_asked(self) -> bool:
        """Whether no rule was asked of anything, which is not clear of any.

        Every rule is left out, or nothing stands in the design that a rule is about. Of a part of the rules that may be
        as it should: whoever asks for satellite rules alone has houses without a dish.
        """
        if self.problems or self.crashes:
            return False
        if not self.tallies:
            return bool(self.scope.skipped_rules)
        return not self.scope.is_part and all(tally.is_empty for tally in self.tallies)


@frozen_value
class Since:
    """That a review tells only what changes after a revision brought."""

    revision: str
    """The revision as it was named."""
    commit: str
    """The commit that it was then, as git names it in full."""
    unchanged: int = 0
    """How many designs did not change, and so were not reviewed."""
    not_understood: tuple[str, ...] = ()
    """Designs that were not understood, or not judged in full, at that revision: what they hold may count as new."""


@frozen_value
class PunchListMatch:
    """A punch list that designs of a review were held against."""

    name: str
    """Its file."""
    gone: tuple[Item, ...] = ()
    """The items of designs that were reviewed that are no longer found."""


@frozen_value
class Review:
    """Every file that was reviewed, by name."""

    designs: tuple[DesignReview, ...]
    since: Since | None = None
    punch_lists: tuple[PunchListMatch, ...] = ()
    """Those that its designs were held against."""
    left_out: tuple[LeftOutDesign, ...] = ()
    """Designs that a folder holds and settings leave out, by name."""

    def returning_at(self, severity: Severity) -> Review:
        """The same review where findings from ``severity`` up return every design."""
        return replace(self, designs=tuple(replace(design, returns_at=severity) for design in self.designs))

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
        return Result.CLEAR if self.designs or self.nothing_changed else Result.INCOMPLETE

    @property
    def nothing_changed(self) -> bool:
        """Whether there were designs, and none of them changed: an answer, unlike a review of nothing."""
        return self.since is not None and self.since.unchanged > 0 and not self.designs

    @property
    def exit_status(self) -> int:
        """0 clear, 1 returned, 2 a file not understood, 3 incomplete."""
        return EXIT_STATUS[self.result]

    def count(self, severity: Severity) -> int:
        """Findings of one severity that are not met, and neither varied nor outstanding."""
        broken = (
            finding for finding in self.findings if finding.outcome is Outcome.NOT_MET and not finding.is_set_aside
        )
        return sum(finding.severity is severity for finding in broken)

    @property
    def count_not_judged(self) -> int:
        """Findings that cannot be judged, and are neither varied nor outstanding."""
        return sum(f.outcome is Outcome.CANNOT_BE_JUDGED and not f.is_set_aside for f in self.findings)

    @property
    def count_varied(self) -> int:
        """Findings that a variance covers."""
        return sum(f.is_varied for f in self.findings)

    @property
    def count_outstanding(self) -> int:
        """Findings that are on the punch list, and not varied."""
        return sum(f.outstanding for f in self.findings)

    @property
    def count_stood(self) -> int:
        """Findings left out since they stood already at the revision that the review is compared with."""
        return sum(len(design.stood) for design in self.designs)


EXIT_STATUS = {Result.CLEAR: 0, Result.RETURNED: 1, Result.NOT_UNDERSTOOD: 2, Result.INCOMPLETE: 3}
