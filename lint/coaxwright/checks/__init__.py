"""The checks: pure generators of verdicts, one module per topic."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from coaxwright.checks import (
    cable,
    cable_choice,
    cable_condition,
    cable_metal,
    cable_oversized,
    data_sheets,
    fire_class,
    handling,
    impedance,
    impedance_loss,
    impedance_path,
    impedance_usual,
    interference,
    jacket,
    listing,
    listing_indoors,
    overhead,
    plan,
    plan_distribution,
    plan_network,
    plan_outlets,
    plan_papers,
    plan_reserve,
    power_beside,
    raceways,
    service,
    spans,
    variances,
)
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
    value_types,
)
from coaxwright.checks.discovery import check_names, find_check
from coaxwright.checks.limits import Citation, Limit, LimitKind, Limits
from coaxwright.checks.review_context import ReviewResults
from coaxwright.checks.selectors import GRANTED
from coaxwright.checks.subjects import Subject
from coaxwright.checks.variances import is_in_force

TOPICS = (
    plan,
    impedance,
    impedance_path,
    impedance_usual,
    impedance_loss,
    cable,
    cable_choice,
    cable_oversized,
    cable_metal,
    cable_condition,
    data_sheets,
    jacket,
    service,
    plan_network,
    plan_outlets,
    plan_distribution,
    plan_papers,
    plan_reserve,
    listing,
    listing_indoors,
    fire_class,
    spans,
    power_beside,
    raceways,
    overhead,
    interference,
    handling,
    variances,
)


def all_checks() -> Mapping[str, AnyCheck]:
    """Every check of the program by name, frozen."""
    flat = {check.name: check for topic in TOPICS for check in topic.CHECKS}
    return MappingProxyType(flat | {name: find_check(name) for name in check_names()})


__all__ = [
    "GRANTED",
    "TOPICS",
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
    "value_types",
]
