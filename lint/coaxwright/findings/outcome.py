"""How a rule came out for a subject, and how a design came out for its rules."""

from __future__ import annotations

from enum import StrEnum


class Outcome(StrEnum):
    """For every rule and every subject it is about there is one of these."""

    MET = "met"
    NOT_MET = "not met"
    DOES_NOT_APPLY = "does not apply"
    CANNOT_BE_JUDGED = "cannot be judged"
    NEEDS_A_PERSON = "needs a person"


class Result(StrEnum):
    """What becomes of a design. Never 'approved', 'passed' or 'safe'."""

    CLEAR = "clear"
    RETURNED = "returned"
    NOT_UNDERSTOOD = "not understood"
    INCOMPLETE = "incomplete"
