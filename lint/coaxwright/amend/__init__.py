"""Amendments: exact changes to a text, proven before they are offered."""

from coaxwright.amend.in_place import ChangedMeanwhile, put_in_place
from coaxwright.amend.proof import prove
from coaxwright.amend.spelling import scalar

__all__ = ["ChangedMeanwhile", "prove", "put_in_place", "scalar"]
