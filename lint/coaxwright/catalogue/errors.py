"""The error of this room."""

from __future__ import annotations

from coaxwright.errors import CoaxwrightError


class CatalogueError(CoaxwrightError):
    """A catalogue file or entry is wrong; the text says where, what was found and what was expected."""

    def __init__(self, where: str, problem: str) -> None:
        self.where = where
        self.problem = problem
        super().__init__(f"{where}: {problem}")
