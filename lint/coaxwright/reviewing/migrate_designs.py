"""Bringing designs up to this program's format and words: each with its parts, and only if the whole is understood.

The firm's catalogues and rulesets that a design names are brought up to the present words with it.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from pathlib import Path

from coaxwright.design import NotUnderstood, understand_drawn, whole
from coaxwright.frozen_value import frozen_value
from coaxwright.reviewing.reading import draw_design, with_users_of_parts
from coaxwright.reviewing.search import Found, find_designs
from coaxwright.source import CATALOGUE_SUFFIX, Document, Drawn, Position, Problem, ReadError, Span
from coaxwright.source.formats import FORMAT, format_of
from coaxwright.source.former_words import CATALOGUE_WORDS, RULESET_WORDS
from coaxwright.source.migration import Renewal, renew, reworded


@frozen_value
class MigratedDesign:
    """A design in this format, each of its files as it was and as it is; or what keeps it from being understood."""

    name: str
    path: Path
    files: tuple[Renewal, ...] = ()
    """The design's own file first."""
    problems: tuple[Problem, ...] = ()

    @property
    def changed(self) -> tuple[Renewal, ...]:
        """The files that were of an older format, or written in former words."""
        return tuple(file for file in self.files if file.is_new)

    def path_of(self, file: Document) -> Path:
        """Where one of its files lies."""
        return self.path if file.name == self.name else Path(file.name)


def renew_designs(paths: Iterable[str | Path]) -> Iterator[MigratedDesign]:
    """Each design at ``paths`` in this format, found as a review finds them; nothing is written.

    A design is read when the one before it was taken, so that a part that both draw in is brought up once.
    Raises NothingToReview where folders alone are given and hold no design.
    """
    for found in with_users_of_parts(find_designs([Path(path) for path in paths])):
        yield _renewed(found)


def _renewed(found: Found) -> MigratedDesign:
    if found.fault:
        start = Position(1, 1, 0)
        return MigratedDesign(found.name, found.path, problems=(Problem(found.name, Span(start, start), found.fault),))
    try:
        drawn = draw_design(found.path, found.name)
    except ReadError as error:
        return MigratedDesign(found.name, found.path, problems=(error.problem,))
    problems = list(drawn.problems)
    files: list[Renewal] = []
    for document in (drawn.main, *drawn.parts):
        try:
            files.append(renew(document))
        except ReadError as error:
            problems.append(error.problem)
    is_present = all(format_of(file.old) == FORMAT and not file.is_new for file in files)
    if not problems and not is_present:
        problems += _mistakes(files)
    for written, document in drawn.main.beside.items():
        try:
            files.append(reworded(document, CATALOGUE_WORDS if written.endswith(CATALOGUE_SUFFIX) else RULESET_WORDS))
        except ReadError as error:
            problems.append(error.problem)
    if problems:
        return MigratedDesign(found.name, found.path, problems=tuple(sorted(problems)))
    return MigratedDesign(found.name, found.path, tuple(files))


def _mistakes(files: list[Renewal]) -> Iterator[Problem]:
    """What keeps the renewed files from being a design, each at its place in the text as it stands."""
    main, *parts = (file.new for file in files)
    try:
        whole(understand_drawn(Drawn(main, tuple(parts))))
    except NotUnderstood as error:
        by_name = {file.old.name: file for file in files}
        yield from (by_name[problem.file].in_the_old(problem) for problem in error.problems)
