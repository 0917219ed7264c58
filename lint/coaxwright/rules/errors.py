"""What is wrong with a ruleset, an edition or a rule's name."""

from __future__ import annotations

from coaxwright.errors import CoaxwrightError


class RulesetError(CoaxwrightError):
    """A ruleset file breaks its contract, or a ruleset, edition or rule is asked for that is not there."""

    def __init__(self, where: str, problem: str) -> None:
        self.where = where
        self.problem = problem
        super().__init__(f"{where}: {problem}")
