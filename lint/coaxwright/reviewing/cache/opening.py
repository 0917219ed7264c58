"""Opening the cache for one run. Whatever goes wrong with it is told in one line at most, and the run goes on."""

from __future__ import annotations

import os
from types import TracebackType
from typing import TYPE_CHECKING

from coaxwright.reviewing.cache.folder import NoCache, cache_folder
from coaxwright.reviewing.cache.program import program

if TYPE_CHECKING:
    from coaxwright.reviewing.cache.database import Database
    from coaxwright.reviewing.cache.results import Results


class Opened:
    """The cache of one run, or none."""

    def __init__(self, *, fresh: bool = False) -> None:
        """``fresh``: nothing is asked of the cache, everything is kept in it."""
        self.trouble = ""
        """Why nothing is found or kept; empty where all is well, or where the user wants no cache."""
        self.fresh = fresh
        self.database: Database | None = None
        self.program = ""
        self._results: Results | None = None
        try:
            self._open()
        except NoCache as error:
            self.trouble = str(error)

    def _open(self) -> None:
        folder = cache_folder(os.environ, os.getcwd())
        made_by = program()
        if made_by is None:  # it is being worked on
            return
        try:
            from coaxwright.reviewing.cache.database import Database
        except ImportError:
            raise NoCache("results are not kept: this Python has no sqlite3") from None
        self.program = made_by
        self.database = Database(folder)

    def results(self) -> Results | None:
        """The results of single designs."""
        if self.database is None:
            return None
        if self._results is None:
            from coaxwright.reviewing.cache.results import Results

            self._results = Results(self.database, self.program, self.fresh)
        return self._results

    def __enter__(self) -> Opened:
        return self

    def __exit__(self, kind: type[BaseException] | None, error: BaseException | None, at: TracebackType | None) -> None:
        self.close()

    def close(self) -> None:
        """Write and close what is open; may be called again."""
        database, self.database = self.database, None
        if database is None:
            return
        if self._results is not None:
            self._results.write()
            self.trouble = self.trouble or self._results.trouble
        try:
            database.close()
        except NoCache as error:
            self.trouble = self.trouble or str(error)
