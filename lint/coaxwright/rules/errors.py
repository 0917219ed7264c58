"""What is wrong with a ruleset, an edition or a rule's name."""

from __future__ import annotations

from coaxwright.errors import CoaxwrightError
from coaxwright.source import Span


class RulesetError(CoaxwrightError):
    """A ruleset file breaks its contract, or a ruleset, edition or rule is asked for that is not there."""

    def __init__(self, where: str, problem: str, span: Span | None = None) -> None:
        self.where = where
        self.problem = problem
        self.span = span
        """Where in its file the mistake stands, if it stands in one."""
        at = f"line {span.start.line}, column {span.start.column}: " if span is not None else ""
        super().__init__(f"{where}: {at}{problem}")
