"""What the rules about variances share: whether one holds, and where it is written."""

from __future__ import annotations

from datetime import date

from coaxwright.checks.review_context import ReviewResults
from coaxwright.checks.selectors import Granted
from coaxwright.design import Variance
from coaxwright.source import Path


def is_in_force(variance: Variance, as_of: date) -> bool:
    """Whether a variance still holds: through the whole of the day, the month or the year that it ends with."""
    until = variance.until
    return until is None or as_of.isoformat()[: len(until)] <= until


def is_named(granted: Granted, results: ReviewResults) -> bool:
    """Whether the rule and the thing of a variance are there."""
    return granted.rule in results.rules and granted.item in results.items


def entry(index: int) -> Path:
    """Where the variance of a number stands."""
    return ("variances", index)


def first_entry(granted: Granted) -> Path:
    """Where the first of several that grant the same stands."""
    return entry(granted.entries[0][0])
