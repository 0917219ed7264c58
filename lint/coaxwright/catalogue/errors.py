"""The error of this room."""

from __future__ import annotations

from collections.abc import Iterable

from coaxwright.errors import CoaxwrightError


class CatalogueError(CoaxwrightError):
    """A catalogue file or entry is wrong; the text says where, what was found and what was expected."""

    def __init__(
        self, where: str, problem: str, path: tuple[str | int, ...] = (), *, word: str = "", known: Iterable[str] = ()
    ) -> None:
        self.where = where
        self.problem = problem
        self.path = path
        """Where it stands in the plain data of its file, as far as that is known."""
        self.word = word
        """The word at fault, where one of ``known`` should stand."""
        self.known = tuple(known)
        super().__init__(f"{where}: {problem}")
