"""The checks: pure generators of verdicts, one module per topic."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from coaxwright.checks import (
    adjacent,
    amplifier_need,
    amplifiers,
    bandwidth,
    bond_routes,
    bonding,
    boosters,
    buildings,
    cable,
    cable_choice,
    cable_condition,
    cable_metal,
    cable_oversized,
    data_sheets,
    electrodes,
    impedance,
    impedance_loss,
    impedance_path,
    impedance_usual,
    in_home,
    isolation,
    jacket,
    levels,
    masts,
    plan,
    plan_distribution,
    plan_network,
    plan_outlets,
    plan_papers,
    plan_reserve,
    protection,
    protector_makes,
    returning,
    service,
    single_cable,
    terminators,
    variances,
)
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
from coaxwright.checks.selectors import GRANTED
from coaxwright.checks.subjects import Subject
from coaxwright.checks.told import Told
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
    protection,
    bonding,
    levels,
    service,
    returning,
    bandwidth,
    terminators,
    in_home,
    single_cable,
    isolation,
    plan_network,
    plan_outlets,
    plan_distribution,
    plan_papers,
    plan_reserve,
    amplifiers,
    amplifier_need,
    adjacent,
    electrodes,
    buildings,
    masts,
    bond_routes,
    protector_makes,
    boosters,
    variances,
)


def all_checks() -> Mapping[str, AnyCheck]:
    """Every check of the program by name, frozen."""
    return MappingProxyType({check.name: check for topic in TOPICS for check in topic.CHECKS})


__all__ = [
    "GRANTED",
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
    "Told",
    "Verdict",
    "all_checks",
    "is_in_force",
]
