"""Distances that are held against published ones, as the checks of electrodes ask for them."""

from __future__ import annotations

from coaxwright.design.quantities import Length, LengthPair, is_at_least
from coaxwright.design.sentences import short_length


def is_near(distance: Length, limit: LengthPair) -> bool:
    """Whether a distance is below the limit that binds its author."""
    return not is_at_least(distance, limit.for_author(distance.is_metric))


def missing_text(distance: Length, least: Length) -> str:
    """How much a distance lacks, in inches or millimetres where it is short, else as its author writes."""
    return short_length(least.length_m - distance.length_m, distance.is_metric)
