"""What was known before a review: which identities, and how grave each of them was.

A finding is known where its identity is, and where it has not become graver since: advice that has become a violation,
a figure that was missing and now turns out to be wrong, and an exception that was withdrawn are new.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from enum import IntEnum

from coaxwright.findings.finding import Finding, Identity
from coaxwright.findings.outcome import Outcome
from coaxwright.rules import Severity
from coaxwright.unchanging import unchanging


class Bearing(IntEnum):
    """How much a finding asks of its author, least first."""

    VARIED = 0
    PERSON = 1
    DUE_LATER = 2
    CANNOT_BE_JUDGED = 3
    NOT_MET = 4


@unchanging
class Gravity:
    """How grave a finding is, or was."""

    severity: Severity
    bearing: Bearing

    def covers(self, found: Gravity) -> bool:
        """Whether what was as grave as this is the same when it is found as ``found``: not graver in any way.

        What is varied now was known only where it was varied before, so that a new exception is seen.
        """
        if found.bearing is Bearing.VARIED:
            return self.bearing is Bearing.VARIED
        return self.severity >= found.severity and self.bearing >= found.bearing


Known = Mapping[Identity, tuple[Gravity, ...]]
"""For each identity how grave it was; several where it was found, or written down, more than once."""


def gravity_of(finding: Finding) -> Gravity:
    """How grave a finding is."""
    return Gravity(finding.severity, _bearing(finding))


def known_of(graded: Iterable[tuple[Identity, Gravity]]) -> Known:
    """What is known of identities and how grave each is."""
    known: dict[Identity, tuple[Gravity, ...]] = {}
    for identity, gravity in graded:
        known[identity] = (*known.get(identity, ()), gravity)
    return known


def is_known(identity: Identity, gravity: Gravity, known: Known) -> bool:
    """Whether one identity was known, as grave as it is now."""
    return any(before.covers(gravity) for before in known.get(identity, ()))


def new_identities(finding: Finding, known: Known) -> tuple[Identity, ...]:
    """Those of a finding's identities that were not known, or not as grave as now."""
    gravity = gravity_of(finding)
    return tuple(identity for identity in finding.identities if not is_known(identity, gravity, known))


def new_units(finding: Finding, fresh: Iterable[Identity]) -> tuple[str, ...]:
    """The repeated units that new identities of a finding belong to, in the finding's order."""
    wanted = set(fresh)
    units = zip(finding.instances, finding.identities, strict=False)  # what is of no unit has an identity too
    return tuple(unit for unit, identity in units if identity in wanted)


def was(finding: Finding, known: Known) -> str:
    """How grave a finding was that was known before, in words; empty for one that was not known."""
    before = [gravity for identity in finding.identities for gravity in known.get(identity, ())]
    if not before:
        return ""
    gravest = max(before, key=lambda gravity: (gravity.bearing, gravity.severity.rank))
    severity = gravest.severity.value
    return severity if gravest.bearing is Bearing.NOT_MET else _WORDS[gravest.bearing].format(severity=severity)


_WORDS = {
    Bearing.VARIED: "varied",
    Bearing.PERSON: "for a person to judge",
    Bearing.DUE_LATER: "not due yet",
    Bearing.CANNOT_BE_JUDGED: "{severity}, cannot be judged",
}


def _bearing(finding: Finding) -> Bearing:
    if finding.is_varied:
        return Bearing.VARIED
    if finding.outcome is Outcome.NEEDS_A_PERSON:
        return Bearing.PERSON
    if finding.due_later:
        return Bearing.DUE_LATER
    return Bearing.CANNOT_BE_JUDGED if finding.outcome is Outcome.CANNOT_BE_JUDGED else Bearing.NOT_MET
