"""The checks: pure generators of verdicts, one module per topic."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from coaxwright.checks import bonding, cable, impedance, jacket, levels, plan, protection
from coaxwright.checks.contract import (
    AnyCheck,
    CannotJudge,
    Check,
    DoesNotApply,
    Mend,
    NeedsPerson,
    NotMet,
    Selector,
    Site,
    Verdict,
)
from coaxwright.checks.limits import Citation, Limit, LimitKind, Limits
from coaxwright.checks.subjects import Subject

TOPICS = (plan, impedance, cable, jacket, protection, bonding, levels)


def all_checks() -> Mapping[str, AnyCheck]:
    """Every check of the program by name, frozen."""
    return MappingProxyType({check.name: check for topic in TOPICS for check in topic.CHECKS})


__all__ = [
    "TOPICS",
    "AnyCheck",
    "CannotJudge",
    "Check",
    "Citation",
    "DoesNotApply",
    "Limit",
    "LimitKind",
    "Limits",
    "Mend",
    "NeedsPerson",
    "NotMet",
    "Selector",
    "Site",
    "Subject",
    "Verdict",
    "all_checks",
]
