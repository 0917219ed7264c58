"""Files that a design names without drawing them in: a firm's catalogues and rulesets, in the same folder tree."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path as FilePath

from coaxwright.source.document import Document, Path
from coaxwright.source.drawn import NameOf, located
from coaxwright.source.files import read_file
from coaxwright.source.limits import DEFAULT, Limits
from coaxwright.source.problem import Problem, ReadError

CATALOGUE_SUFFIX = ".coax-catalogue.yaml"
RULESET_SUFFIX = ".coax-ruleset.yaml"
_LISTS = (("catalogues", CATALOGUE_SUFFIX), ("rulesets", RULESET_SUFFIX))


def read_beside(
    main: Document, path: FilePath, root: FilePath, name_of: NameOf, limits: Limits = DEFAULT
) -> tuple[dict[str, Document], list[Problem]]:
    """The catalogues and rulesets that the basis of the design at ``path`` names, by their paths as written.

    Never outside of ``root``. What is wrong with the words themselves is told by the schema, not here.
    """
    found: dict[str, Document] = {}
    problems: list[Problem] = []
    for at, written in _named(main):
        if written in found:
            continue
        file = located(written, path.resolve(), root.resolve())
        if isinstance(file, tuple):
            problems.append(Problem(main.name, main.span(at), *file))
            continue
        try:
            found[written] = read_file(file, name_of(file), limits)
        except ReadError as error:
            if file.is_file():
                problems.append(error.problem)
            else:
                what, expected = f"there is no file {written!r}", f"looked for it at {name_of(file)}"
                problems.append(Problem(main.name, main.span(at), what, expected))
    return found, problems


def _named(main: Document) -> Iterator[tuple[Path, str]]:
    basis = main.data.get("basis") if isinstance(main.data, dict) else None
    for key, suffix in _LISTS:
        written = basis.get(key) if isinstance(basis, dict) else None
        for index, one in enumerate(written if isinstance(written, list) else ()):
            if isinstance(one, str) and one.endswith(suffix):
                yield ("basis", key, index), one
