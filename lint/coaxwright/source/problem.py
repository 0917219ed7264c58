"""A problem is data: where, what, what was expected, the nearest right word. Others render it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from coaxwright.errors import CoaxwrightError
from coaxwright.source.place import Position, Span

MOST_PROBLEMS = 1_000
"""More than anybody puts right before the next look; a bound, so that no file can keep a review busy for ever."""


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


def at_most(problems: Sequence[Problem], file: str, *, of_more: bool = False) -> list[Problem]:
    """The first of very many problems and, before them, at the top of the file, that there are more.

    ``of_more`` says that more were found than are given here.
    """
    if len(problems) <= MOST_PROBLEMS and not of_more:
        return list(problems)
    start = Position(1, 1, 0)
    what = f"there are more mistakes than the {MOST_PROBLEMS:,} that are told at most"
    more = Problem(file, Span(start, start), what, "put these right first")
    return [more, *[problem for problem in problems if problem != more][:MOST_PROBLEMS]]
