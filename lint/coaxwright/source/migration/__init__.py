"""Format migration: a file of an older format brought up to this one, step by step, as changes to the author's text."""

from coaxwright.source.migration.renewal import STEPS, Made, Renewal, renew
from coaxwright.source.migration.step import Change, Step

__all__ = ["STEPS", "Change", "Made", "Renewal", "Step", "renew"]
