"""The one place that says when a figure meets a limit: a limit is met when equal."""

from __future__ import annotations

from math import isinf

RELATIVE_TOLERANCE = 1e-9
"""Wider than the rounding of any sum here, far narrower than any figure on paper. Source: common practice."""
TOLERANCE_AT_ZERO = 1e-12
"""A limit of 0 (a level of 0 dBmV) has no relative width; sums of decibels miss it by about 1e-15."""


def at_most(value: float, limit: float) -> bool:
    """Whether ``value`` meets the upper limit ``limit``, both in one unit; equal meets it, not-a-number never does.

    value <= limit + tolerance, tolerance = 1e-9 |limit|, or 1e-12 where the limit is 0
    """
    return value <= limit or value <= limit + _tolerance(limit)


def at_least(value: float, limit: float) -> bool:
    """Whether ``value`` meets the lower limit ``limit``, both in one unit; equal meets it, not-a-number never does.

    value >= limit - tolerance, tolerance = 1e-9 |limit|, or 1e-12 where the limit is 0
    """
    return value >= limit or value >= limit - _tolerance(limit)


def _tolerance(limit: float) -> float:
    if isinf(limit):
        return 0.0  # infinity less infinity is not a number
    return RELATIVE_TOLERANCE * abs(limit) or TOLERANCE_AT_ZERO
