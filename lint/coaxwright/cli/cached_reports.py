"""The door of ``coaxwright review``: a report that is kept is given again, before anything is imported to make one."""

from __future__ import annotations

import sys
from collections.abc import Sequence
from datetime import date
from typing import TYPE_CHECKING

from coaxwright.cli.output import PLAIN_WIDTH, complain, say_bytes
from coaxwright.reviewing.cache.folder import NoCache
from coaxwright.reviewing.cache.opening import Opened

if TYPE_CHECKING:
    from coaxwright.reviewing.cache.answers import Question
    from coaxwright.reviewing.cache.input_digests import Ingredients

_WITH_A_VALUE = frozenset({"--as", "--returns-at", "--as-of", "--width", "--workers"})
_ALONE = frozenset({"--plain", "--fresh"})
"""The options with which a report may be kept; with any other it is made each time, of results that are kept."""
_NO_BEARING = ("--workers", "--fresh")
_READ_THROUGH_DESIGNS = (".coax-part.yaml", ".coax-catalogue.yaml", ".coax-ruleset.yaml", "coax-settings.yaml")
"""Files that stand for designs which other files tell of."""


class CachedReport:
    """One call of the command, and the cache that it is answered from."""

    def __init__(self, words: Sequence[str]) -> None:
        """``words``: what stands behind ``review``."""
        self._parted = _parted(words)
        self.opened = Opened(fresh="--fresh" in words)
        self._question: Question | None = None

    def answer(self) -> int | None:
        """Give the report that is kept, and its exit status; None where one has to be made."""
        if self._parted is None or self.opened.database is None:
            return None
        from coaxwright.reviewing.cache import answers

        try:
            found = self._ask(*self._parted)
            if found is None or self._question is None or self.opened.fresh:
                return None
            kept = answers.find(self._question, found, self.opened.database)
        except NoCache as error:
            self.opened.trouble = str(error)
            return None
        if kept is None:
            return None
        self.close()
        say_bytes(kept.text)
        return kept.status

    def _ask(self, options: tuple[str, ...], paths: tuple[str, ...]) -> list[str] | None:
        """Put the question; gives the paths of the designs, or None where a report is not to be kept."""
        from pathlib import Path

        from coaxwright.reviewing.cache.answers import Question
        from coaxwright.reviewing.search import NothingToReview, find_designs

        if any(path.endswith(_READ_THROUGH_DESIGNS) for path in paths):
            return None
        try:
            found = find_designs([Path(path) for path in paths])
        except NothingToReview:
            return None
        if any(design.fault for design in found):
            return None
        self._question = Question(
            self.opened.program,
            options,
            _paper("--plain" in options),
            str(Path.cwd()),
            tuple(design.name for design in found),
            date.today().isoformat(),
        )
        return [str(design.path) for design in found]

    def keep(self, text: bytes, status: int, made_of: Sequence[Ingredients | None], depends_on_day: bool) -> None:
        """Keep the report that was made."""
        database, results = self.opened.database, self.opened.results()
        ingredients = [digests for digests in made_of if digests is not None]
        if self._question is None or database is None or results is None or len(ingredients) < len(made_of):
            return
        if len(ingredients) != len(self._question.names):
            return
        from coaxwright.reviewing.cache import answers

        try:
            answers.keep(
                self._question,
                answers.CachedAnswer(text, status),
                ingredients,
                depends_on_day,
                results.looked,
                database,
            )
        except NoCache as error:
            self.opened.trouble = str(error)

    def close(self) -> None:
        """End with the cache; what went wrong with it is told."""
        self.opened.close()
        if self.opened.trouble:
            complain(self.opened.trouble)
            self.opened.trouble = ""


def _parted(words: Sequence[str]) -> tuple[tuple[str, ...], tuple[str, ...]] | None:
    """Options that bear on a report, and paths; None where there are others than those with which one may be kept."""
    options: list[str] = []
    paths: list[str] = []
    left = list(reversed(words))
    while left:
        word = left.pop()
        name, equals, value = word.partition("=")
        if not word.startswith("-"):
            paths.append(word)
        elif name in _WITH_A_VALUE and (equals or left):
            said = (name, value if equals else left.pop())
            options += said if name not in _NO_BEARING else ()
        elif word in _ALONE:
            options += [word] if word not in _NO_BEARING else []
        else:
            return None
    return (tuple(options), tuple(paths)) if paths else None


def _paper(plain: bool) -> tuple[int, bool]:
    """The width of text that goes to standard output, and whether it is painted."""
    if sys.stdout is None or not sys.stdout.isatty():
        return PLAIN_WIDTH, False
    from coaxwright.cli.output import color_wanted, terminal_width

    return terminal_width(), color_wanted(plain)
