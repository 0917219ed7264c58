"""Known or unknown: what a question to the network or the analysis is answered with.

An unknown carries the one missing figure it comes from, so that a reader is asked once for it, wherever it is needed.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field

from coaxwright.frozen_value import frozen_value
from coaxwright.source import Path


@frozen_value
class Known:
    """A figure with its band: the lowest and highest it can be, and the usual value. The unit is the question's."""

    low: float
    nominal: float
    high: float

    @classmethod
    def exactly(cls, value: float) -> Known:
        """A figure without spread."""
        return cls(value, value, value)


@frozen_value
class Unknown:
    """No answer, because something is missing or not understood."""

    case: str
    """What is missing: one of ``causes.CAUSES``, or of those that a check declares."""
    root: Path
    """Where in the design it is missing."""
    values: Mapping[str, object] = field(default_factory=dict)

    def __hash__(self) -> int:
        return hash((self.case, self.root))
