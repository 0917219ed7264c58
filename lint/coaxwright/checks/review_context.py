"""What the rules that are asked first found in a design; those about its variances are asked last, and read it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field
from datetime import date

from coaxwright.frozen_value import frozen_value


@frozen_value
class ReviewResults:
    """What there is to grant a variance from, and the day by which one that ends is judged."""

    rules: tuple[str, ...] = ()
    """The rules that bind the design, but for those about variances."""
    about_variances: frozenset[str] = frozenset()
    """The rules about variances, from which none can be granted."""
    skipped_rules: frozenset[str] = frozenset()
    """Rules that bind the design and were not asked, so that nobody knows whether they find anything."""
    items: tuple[str, ...] = ()
    """Every tag that a thing goes by."""
    facets: Mapping[tuple[str, str], frozenset[str]] = field(default_factory=dict)
    """For each rule, and each tag on which it has findings, the facets that set these apart."""
    as_of: date = date.max
