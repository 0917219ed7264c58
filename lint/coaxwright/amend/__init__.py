"""Amendments: exact changes to a text, proven before they are offered."""

from coaxwright.amend.proof import prove
from coaxwright.amend.splice import Splice, apply, scalar

__all__ = ["Splice", "apply", "prove", "scalar"]
