"""What is wrong with a ruleset, an edition or a rule's name."""

from __future__ import annotations

from collections.abc import Sequence

from coaxwright.errors import CoaxwrightError
from coaxwright.source import Path, Span


class RulesetError(CoaxwrightError):
    """A ruleset file breaks its contract, or a ruleset, edition or rule is asked for that is not there."""

    def __init__(self, where: str, problem: str, span: Span | None = None, *, file: str = "", path: Path = ()) -> None:
        self.where = where
        self.problem = problem
        self.span = span
        """Where in its file the mistake stands, if that is known."""
        self.file = file
        """The file that it stands in, if it stands in one."""
        self.path = path
        """Where in the plain data of the file, unless the span says it."""
        self.others: tuple[RulesetError, ...] = ()
        """What else is wrong, told together with this."""
        super().__init__(f"{where}: {problem}")

    @property
    def every(self) -> tuple[RulesetError, ...]:
        """This and the others."""
        return (self, *self.others)


def together(errors: Sequence[RulesetError]) -> RulesetError:
    """The first of several errors, which holds the others."""
    first, *others = [fault for error in errors for fault in error.every]
    first.others = tuple(others)
    return first
