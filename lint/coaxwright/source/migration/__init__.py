"""Format migration: a file of an older format, or in former words, brought up to this one as changes to its text."""

from coaxwright.source.migration.renewal import STEPS, Made, Renewal, renew, reworded
from coaxwright.source.migration.step import Change, Step

__all__ = ["STEPS", "Change", "Made", "Renewal", "Step", "renew", "reworded"]
