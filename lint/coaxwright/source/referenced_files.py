"""Files that a design names without drawing them in: a firm's catalogues and rulesets, in the same folder tree."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from pathlib import Path as FilePath

from coaxwright.source.document import Document, Path
from coaxwright.source.files import read_file
from coaxwright.source.includes import NameOf, located
from coaxwright.source.limits import DEFAULT, Limits
from coaxwright.source.problem import Problem, ReadError

CATALOGUE_SUFFIX = ".coax-catalogue.yaml"
RULESET_SUFFIX = ".coax-ruleset.yaml"
_LISTS = (("catalogues", CATALOGUE_SUFFIX), ("rulesets", RULESET_SUFFIX))

FilesRead = dict[FilePath, Document | Problem]
"""Files that were read in this run, or why they could not be: the designs of a firm name the same ones."""


def read_beside(
    main: Document,
    path: FilePath,
    root: FilePath,
    name_of: NameOf,
    files: FilesRead,
    limits: Limits = DEFAULT,
    suffixes: Collection[str] = (CATALOGUE_SUFFIX, RULESET_SUFFIX),
) -> tuple[dict[str, Document], list[Problem]]:
    """The catalogues and rulesets that the basis of the design at ``path`` names, by their paths as written.

    Never outside of ``root``. ``files`` are those that were read before; what is read now joins them. What is wrong
    with the words themselves is told by the schema, not here. ``suffixes``: the kinds of files to read; the others are
    not even looked for.
    """
    found: dict[str, Document] = {}
    problems: list[Problem] = []
    for at, written in named_beside(main):
        if not written.endswith(tuple(suffixes)):
            continue
        file = located(written, path.resolve(), root.resolve())
        if isinstance(file, tuple):
            problems.append(Problem(main.name, main.span(at), *file))
        elif not file.is_file():
            what = f"there is no file {written!r}"
            problems.append(Problem(main.name, main.span(at), what, f"looked for it at {name_of(file)}"))
        else:
            read = read_once(file, name_of(file), files, limits)
            if isinstance(read, Document):
                found[written] = read
            else:
                problems.append(read)
    return found, problems


def named_beside(main: Document) -> Iterator[tuple[Path, str]]:
    """The files that the basis of a design names, each with the place of its name."""
    basis = main.data.get("basis") if isinstance(main.data, dict) else None
    for key, suffix in _LISTS:
        written = basis.get(key) if isinstance(basis, dict) else None
        for index, one in enumerate(written if isinstance(written, list) else ()):
            if isinstance(one, str) and one.endswith(suffix):
                yield ("basis", key, index), one


def read_once(file: FilePath, name: str, files: FilesRead, limits: Limits = DEFAULT) -> Document | Problem:
    """A file that may have been read before in the same run, or why it cannot be; it joins ``files``."""
    if file not in files:
        try:
            files[file] = read_file(file, name, limits)
        except ReadError as error:
            files[file] = error.problem
    return files[file]
