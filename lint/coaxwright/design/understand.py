"""From a document to a typed design, or all of its problems together.

Former words are replaced in the data first: schema, models and all that follows know the present ones alone.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from functools import cache
from typing import Any

from coaxwright.design.contract import committed_schema, is_design
from coaxwright.design.model import Design
from coaxwright.errors import CoaxwrightError
from coaxwright.source import Document, Drawn, Path, Problem
from coaxwright.source.formats import other_format
from coaxwright.source.former_words import DESIGN_WORDS, with_present_words
from coaxwright.source.problem import at_most


class NotUnderstood(CoaxwrightError):
    """A design breaks the schema; ``problems`` holds every mistake of the file."""

    def __init__(self, problems: list[Problem]) -> None:
        self.problems = problems
        super().__init__("\n".join(str(problem) for problem in problems))


def understand(document: Document) -> Design:
    """The typed design of a document.

    Raises NotUnderstood with all mistakes of the file where it breaks the schema.
    """
    return Design.model_validate(whole(document).data)


def whole(document: Document) -> Document:
    """The document held to the schema, with its repeated units written out; itself where it repeats nothing.

    Raises NotUnderstood with all mistakes of the file.
    """
    with_present_words(document, DESIGN_WORDS)
    mistakes = _mistakes(document)
    if _repeats(document.data) and other_format(document) is None:
        from coaxwright.design.units import write_out

        document, more = write_out(document)
        mistakes = _together(mistakes, more)
    if mistakes:
        raise NotUnderstood(_in_order(mistakes, document.name))
    return document


def _mistakes(document: Document) -> list[Problem]:
    """What keeps one file from being a design."""
    _restore_written_texts(document)
    if is_design(document.data):
        return []
    from coaxwright.design.explain import problems

    return problems(document)


def _repeats(data: object) -> bool:
    return isinstance(data, dict) and ("units" in data or "typical" in data)


def _together(first: list[Problem], second: list[Problem]) -> list[Problem]:
    """The problems of both, in the order of the text; where both tell of one place, the first one's."""
    told = {(problem.file, problem.span) for problem in first}
    return sorted({*first, *(problem for problem in second if (problem.file, problem.span) not in told)})


def understand_drawn(drawn: Drawn) -> Document:
    """The document of a design and its parts, put together after each file was held to the schema on its own.

    Its repeated units are not written out yet.

    Raises NotUnderstood with the mistakes of all files together, those of the design's own file first.
    """
    if not drawn.parts and not drawn.problems:
        return drawn.main
    for file in (drawn.main, *drawn.parts):
        with_present_words(file, DESIGN_WORDS)
    from coaxwright.design.composition import as_design, compose

    together, problems = compose(drawn)
    readable = [part for part in drawn.parts if other_format(part) is None]
    for document in (drawn.main, *map(as_design, readable)):
        problems += _mistakes(document)
    is_of_one_format = len(readable) == len(drawn.parts) and other_format(drawn.main) is None
    if problems and is_of_one_format and _repeats(together.data):
        from coaxwright.design.units import write_out

        problems = _together(problems, write_out(together)[1])
    if problems:
        raise NotUnderstood(_in_order(problems, drawn.main.name))
    return together


def _in_order(problems: Iterable[Problem], main: str) -> list[Problem]:
    """Every problem once: those of the design's own file first, then those of its parts by name, as they stand."""
    return at_most(sorted(set(problems), key=lambda problem: (problem.file != main, problem)), main)


def _restore_written_texts(document: Document) -> None:
    """Put back the author's spelling where a text looks like a number: sheet ``012``, a device called ``101``."""
    for path, text in document.numbers.items():
        if any(_matches(pattern, path) for pattern in _written_paths().get((len(path), path[:1]), ())):
            container: Any = document.data
            for step in path[:-1]:
                container = container[step]
            container[path[-1]] = text


@cache
def _written_paths() -> Mapping[tuple[int, Path], list[tuple[str | None, ...]]]:
    """The paths of all texts taken as written, by their length and first step; None stands for any tag or index."""
    schema = committed_schema()
    found: dict[tuple[int, Path], list[tuple[str | None, ...]]] = {}
    for path in _find_written(schema, schema, ()):
        found.setdefault((len(path), (str(path[0]),)), []).append(path)
    return found


def _find_written(node: Any, schema: Any, path: tuple[str | None, ...]) -> Iterator[tuple[str | None, ...]]:
    if not isinstance(node, dict):
        return
    if node.get("written"):
        yield path
    if "$ref" in node:
        yield from _find_written(schema["$defs"][node["$ref"].rpartition("/")[2]], schema, path)
    for name, child in node.get("properties", {}).items():
        yield from _find_written(child, schema, (*path, name))
    for keyword in ("items", "additionalProperties"):
        yield from _find_written(node.get(keyword), schema, (*path, None))
    for keyword in ("then", "else"):
        yield from _find_written(node.get(keyword), schema, path)
    for child in node.get("allOf", ()):
        if "if" not in child:
            yield from _find_written(child, schema, path)


def _matches(pattern: tuple[str | None, ...], path: Path) -> bool:
    return len(pattern) == len(path) and all(
        want is None or want == step for want, step in zip(pattern, path, strict=True)
    )
