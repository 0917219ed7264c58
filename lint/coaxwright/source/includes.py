"""Drawing in other files: a design may stand in several files of one folder tree.

A drawn-in part is named ``*.coax-part.yaml`` and begins with ``coaxwright part: 1``. It is found relative to the file
that draws it in, never outside the root of the tree, and never by way of itself. A part that several files draw in is
there once.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path as FilePath

from coaxwright.frozen_value import frozen_value
from coaxwright.source.document import Document
from coaxwright.source.files import read_file
from coaxwright.source.former_words.tables import INCLUDES as FORMER_INCLUDES
from coaxwright.source.limits import DEFAULT, Limits
from coaxwright.source.problem import Problem, ReadError

INCLUDES = "includes"
PART = "coaxwright part"
PART_SUFFIX = ".coax-part.yaml"
MOST_PARTS = 1_000
"""More parts than any site has sheets; a bound, so that no tree of files can keep a review busy for ever."""

NameOf = Callable[[FilePath], str]
"""What findings call a file."""


@frozen_value
class Drawn:
    """A design's file with all the parts it includes, and what went wrong in finding them."""

    main: Document
    parts: tuple[Document, ...] = ()
    problems: tuple[Problem, ...] = ()


def draw_in(main: Document, path: FilePath, root: FilePath, name_of: NameOf, limits: Limits = DEFAULT) -> Drawn:
    """Read every part that the design at ``path`` includes, directly and by way of other parts.

    ``root`` is the folder that no part may lie outside of.
    """
    if not included_by(main):
        return Drawn(main)
    search = _Search(root.resolve(), name_of, limits)
    search.follow(main, path.resolve(), (path.resolve(),))
    parts = tuple(search.parts[file] for file in sorted(search.parts, key=lambda file: search.parts[file].name))
    return Drawn(main, parts, tuple(search.problems))


def includes_key(document: Document) -> str:
    """The key below which a file lists its parts: the present one, or a former one that it is written in."""
    data = document.data if isinstance(document.data, dict) else {}
    return next((key for key in (INCLUDES, *FORMER_INCLUDES) if key in data), INCLUDES)


def included_by(document: Document) -> list[object]:
    """What a file says it includes; a list of another shape is told by the schema, not here."""
    data = document.data
    written = data.get(includes_key(document)) if isinstance(data, dict) else None
    return written if isinstance(written, list) else []


def located(written: str, path: FilePath, root: FilePath) -> FilePath | tuple[str, str]:
    """The file that is named in the file at ``path``, or what keeps it from being read, with what was expected.

    ``root``, resolved, is the folder that it may not lie outside of.
    """
    if FilePath(written).is_absolute():
        return f"{written!r} is a path of one machine", "write the path relative to this file"
    named = path.parent / written
    if named.is_symlink() and not named.exists():
        return f"{written!r} is a link that leads nowhere", "name the file itself"
    file = named.resolve()
    if not file.is_relative_to(root):
        return f"{written!r} lies outside the folder under review", "keep the files of a design in one folder tree"
    return file


class _Search:
    def __init__(self, root: FilePath, name_of: NameOf, limits: Limits) -> None:
        self.root = root
        self.name_of = name_of
        self.limits = limits
        self.parts: dict[FilePath, Document] = {}
        self.problems: list[Problem] = []

    def follow(self, document: Document, path: FilePath, above: tuple[FilePath, ...]) -> None:
        """Read the parts of one file, then theirs; ``above`` is the way by which the file was reached."""
        for index, written in enumerate(included_by(document)):
            if not isinstance(written, str):
                continue
            for what, expected in self.read(written, path, above):
                span = document.span((includes_key(document), index))
                self.problems.append(Problem(document.name, span, what, expected))

    def read(self, written: str, path: FilePath, above: tuple[FilePath, ...]) -> Iterator[tuple[str, str]]:
        """Read one part; what keeps it from being read, with what was expected."""
        if not written.endswith(PART_SUFFIX):
            yield f"{written!r} is not named like a part", f"name the file '….{PART_SUFFIX.lstrip('.')}'"
            return
        file = located(written, path, self.root)
        if isinstance(file, tuple):
            yield file
        elif file in above:
            way = " > ".join(self.name_of(one) for one in (*above[above.index(file) :], file))
            yield f"{written!r} includes itself ({way})", "take one of these lines out"
        elif file not in self.parts:
            if len(self.parts) >= MOST_PARTS:
                yield f"the design includes more than {MOST_PARTS:,} parts", "divide the site into several designs"
                return
            try:
                part = read_file(file, self.name_of(file), self.limits)
            except ReadError as error:
                if file.is_file():
                    self.problems.append(error.problem)
                else:
                    yield f"there is no part {written!r}", f"looked for it at {self.name_of(file)}"
                return
            self.parts[file] = part
            self.follow(part, file, (*above, file))
