"""A problem is data: where, what, what was expected, the nearest right word. Others render it."""

from __future__ import annotations

from dataclasses import dataclass

from coaxwright.errors import CoaxwrightError
from coaxwright.source.place import Span


@dataclass(frozen=True, slots=True, order=True)
class Problem:
    """One mistake that keeps a file from being understood."""

    file: str
    span: Span
    what: str
    expected: str = ""
    nearest: str = ""

    @property
    def message(self) -> str:
        """Everything but the place, in one sentence."""
        parts = [self.what]
        if self.expected:
            parts.append(self.expected)
        if self.nearest:
            parts.append(f"did you mean {self.nearest!r}?")
        return "; ".join(parts)

    def __str__(self) -> str:
        return f"{self.file}:{self.span.start.line}:{self.span.start.column}: {self.message}"


class ReadError(CoaxwrightError):
    """A file cannot be read as the data that a design is made of."""

    def __init__(self, problem: Problem) -> None:
        self.problem = problem
        super().__init__(str(problem))
