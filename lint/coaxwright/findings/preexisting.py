"""What was known before a review: which identities, and how grave each of them was.

A finding is known where its identity is, and where it has not become graver since: advice that has become a violation,
a figure that was missing and now turns out to be wrong, and an exception that was withdrawn are new.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from enum import IntEnum

from coaxwright.findings.finding import Finding, Identity
from coaxwright.findings.outcome import Outcome
from coaxwright.frozen_value import frozen_value
from coaxwright.rules import Severity


class FindingState(IntEnum):
    """How much a finding asks of its author, least first."""

    VARIED = 0
    PERSON = 1
    DUE_LATER = 2
    CANNOT_BE_JUDGED = 3
    NOT_MET = 4


@frozen_value
class FindingRank:
    """How grave a finding is, or was."""

    severity: Severity
    bearing: FindingState

    def covers(self, found: FindingRank) -> bool:
        """Whether what was as grave as this is the same when it is found as ``found``: not graver in any way.

        What is varied now was known only where it was varied before, so that a new exception is seen.
        """
        if found.bearing is FindingState.VARIED:
            return self.bearing is FindingState.VARIED
        return self.severity >= found.severity and self.bearing >= found.bearing


Preexisting = Mapping[Identity, tuple[FindingRank, ...]]
"""For each identity how grave it was; several where it was found, or written down, more than once."""


def rank_of(finding: Finding) -> FindingRank:
    """How grave a finding is."""
    return FindingRank(finding.severity, _bearing(finding))


def preexisting_of(graded: Iterable[tuple[Identity, FindingRank]]) -> Preexisting:
    """What is known of identities and how grave each is."""
    known: dict[Identity, tuple[FindingRank, ...]] = {}
    for identity, gravity in graded:
        known[identity] = (*known.get(identity, ()), gravity)
    return known


def is_known(identity: Identity, gravity: FindingRank, known: Preexisting) -> bool:
    """Whether one identity was known, as grave as it is now."""
    return any(before.covers(gravity) for before in known.get(identity, ()))


def new_identities(finding: Finding, known: Preexisting) -> tuple[Identity, ...]:
    """Those of a finding's identities that were not known, or not as grave as now."""
    gravity = rank_of(finding)
    return tuple(identity for identity in finding.identities if not is_known(identity, gravity, known))


def new_units(finding: Finding, fresh: Iterable[Identity]) -> tuple[str, ...]:
    """The repeated units that new identities of a finding belong to, in the finding's order."""
    wanted = set(fresh)
    units = zip(finding.instances, finding.identities, strict=False)  # what is of no unit has an identity too
    return tuple(unit for unit, identity in units if identity in wanted)


def was(finding: Finding, known: Preexisting) -> str:
    """How grave a finding was that was known before, in words; empty for one that was not known."""
    before = [gravity for identity in finding.identities for gravity in known.get(identity, ())]
    if not before:
        return ""
    gravest = max(before, key=lambda gravity: (gravity.bearing, gravity.severity.rank))
    severity = gravest.severity.value
    return severity if gravest.bearing is FindingState.NOT_MET else _WORDS[gravest.bearing].format(severity=severity)


_WORDS = {
    FindingState.VARIED: "varied",
    FindingState.PERSON: "for a person to judge",
    FindingState.DUE_LATER: "not due yet",
    FindingState.CANNOT_BE_JUDGED: "{severity}, cannot be judged",
}


def _bearing(finding: Finding) -> FindingState:
    if finding.is_varied:
        return FindingState.VARIED
    if finding.outcome is Outcome.NEEDS_A_PERSON:
        return FindingState.PERSON
    if finding.due_later:
        return FindingState.DUE_LATER
    return FindingState.CANNOT_BE_JUDGED if finding.outcome is Outcome.CANNOT_BE_JUDGED else FindingState.NOT_MET
