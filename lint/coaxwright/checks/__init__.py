"""The checks: pure generators of verdicts, one module per topic."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from coaxwright.checks.contract import (
    AnyCheck,
    CannotJudge,
    Check,
    CheckContext,
    Correction,
    DoesNotApply,
    NeedsPerson,
    NotMet,
    Selector,
    Verdict,
)
from coaxwright.checks.discovery import check_names, find_check
from coaxwright.checks.limits import Citation, Limit, LimitKind, Limits
from coaxwright.checks.review_context import ReviewResults
from coaxwright.checks.selectors import GRANTED
from coaxwright.checks.subjects import Subject
from coaxwright.checks.variance._shared import is_in_force


def all_checks() -> Mapping[str, AnyCheck]:
    """Every check of the program by name, frozen."""
    return MappingProxyType({name: find_check(name) for name in check_names()})


__all__ = [
    "GRANTED",
    "AnyCheck",
    "CannotJudge",
    "Check",
    "CheckContext",
    "Citation",
    "Correction",
    "DoesNotApply",
    "Limit",
    "LimitKind",
    "Limits",
    "NeedsPerson",
    "NotMet",
    "ReviewResults",
    "Selector",
    "Subject",
    "Verdict",
    "all_checks",
    "check_names",
    "find_check",
    "is_in_force",
]
