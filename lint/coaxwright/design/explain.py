"""A violation of the schema as one problem in a colleague's words, at its place in the file."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from difflib import get_close_matches
from typing import Any

from coaxwright.design import quantities
from coaxwright.design.contract import mistakes
from coaxwright.source import Document, Path, Problem, Span

_QUANTITIES: Mapping[str, type[quantities.Quantity]] = {
    kind.NAME: kind
    for kind in vars(quantities).values()
    if isinstance(kind, type) and issubclass(kind, quantities.Quantity) and kind is not quantities.Quantity
}
_LONGEST_LIST = 12
_LONGEST_LIST_WITH_NEAREST = 6
_SHAPES = {
    "object": "a group of 'key: value' lines",
    "array": "a list",
    "string": "words",
    "integer": "a whole number",
    "number": "a number",
    "boolean": "true or false",
}


def problems(document: Document) -> list[Problem]:
    """Every mistake of a document that breaks the schema, once each, in the order of the text.

    A file whose first line is wrong is told only that: the rest would be noise.
    """
    first = _not_this_format(document)
    if first is not None:
        return [first]
    found: dict[Span, Problem] = {}
    missing: list[tuple[Problem, Path]] = []
    meant: set[Path] = set()
    for mistake in mistakes(document.data):
        path: Path = tuple(mistake.absolute_path)
        if mistake.validator == "required":
            missing.extend(_missing(document, path, mistake))
            continue
        for problem in _explain(document, path, mistake):
            known = found.get(problem.span)
            meant.add((*path, problem.nearest))
            if known is None or len(problem.message) < len(known.message):
                found[problem.span] = problem
    # A mistyped key that stands for the missing one is one mistake, told at the key.
    told = [problem for problem, path in missing if path not in meant]
    return sorted({*found.values(), *told}, key=lambda problem: (problem.span, problem.message))


def _not_this_format(document: Document) -> Problem | None:
    data = document.data
    if not isinstance(data, dict) or "coaxwright" not in data:
        near = get_close_matches("coaxwright", list(data) if isinstance(data, dict) else [], n=1, cutoff=0.7)
        span = document.span((near[0],), of_key=True) if near else _start(document)
        what = f"{near[0]!r} is not the format line" if near else "this is not a design"
        return Problem(document.name, span, what, "a design begins with 'coaxwright: 1'")
    version = data["coaxwright"]
    if isinstance(version, bool) or version != 1:
        written = version if isinstance(version, (int, float, str)) else "this"
        return Problem(
            document.name,
            document.span(("coaxwright",)),
            f"format {written} is not known here",
            "this release reads format 1",
        )
    return None


def _explain(document: Document, path: Path, mistake: Any) -> Iterator[Problem]:
    schema: Mapping[str, Any] = mistake.schema
    instance = mistake.instance
    match mistake.validator:
        case "additionalProperties":
            for key in instance:
                if key not in schema["properties"]:
                    yield _unknown_key(document, path, key, list(schema["properties"]), instance)
        case "enum" if _is_key(mistake):
            yield _unknown_key(document, path, instance, list(mistake.validator_value), _at(document, path))
        case "pattern" if _is_key(mistake):
            yield Problem(
                document.name,
                document.span((*path, instance), of_key=True),
                f"{instance!r} cannot be a tag",
                "a tag begins with a letter or figure and has no space at its ends",
            )
        case "minProperties" | "maxProperties":
            what = "one place with its length is expected here"
            yield Problem(document.name, document.span(path), what, "write '- attic: 38 ft'")
        case "minItems":
            what = f"the list of {path[-1]!r} is empty"
            yield Problem(document.name, document.span(path), what, "leave the key out, or fill it")
        case _:
            yield _wrong_value(document, path, schema, instance)


def _missing(document: Document, path: Path, mistake: Any) -> Iterator[tuple[Problem, Path]]:
    span = document.span(path, of_key=True) if path else _start(document)
    for key in mistake.validator_value:
        if key not in mistake.instance and mistake.message.startswith(f"{key!r} "):
            described = mistake.schema.get("properties", {}).get(key, {})
            expected = _expected(described) if "quantity" in described else f"write '{key}: …'"
            what = f"{_named(path, mistake.instance)} has no {key!r}"
            yield Problem(document.name, span, what, expected), (*path, key)


def _wrong_value(document: Document, path: Path, schema: Mapping[str, Any], value: object) -> Problem:
    """A value that is there and is not what its field takes."""
    span = document.span(path)
    key = next((step for step in reversed(path) if isinstance(step, str)), "")
    kind = _QUANTITIES.get(schema.get("quantity", ""))
    if value is None:
        at_key = document.span(path, of_key=True)
        return Problem(document.name, at_key, f"nothing is written after {key!r}", _expected(schema))
    if kind is not None and isinstance(value, (int, float)) and not isinstance(value, bool):
        written = document.numbers.get(path, str(value))
        return Problem(document.name, span, f"{key!r} is {_a(kind.NAME)} and {written} has no unit", _expected(schema))
    shown = f"{value!r}" if isinstance(value, (str, int, float)) else _shape(value)
    if kind is not None and isinstance(value, str):
        what = f"{shown} is not {_a(kind.NAME)}"
        return Problem(document.name, span, what, _expected(schema), kind.nearest(value) or "")
    if "enum" in schema:
        words = [str(word) for word in schema["enum"]]
        near = get_close_matches(str(value), words, n=1, cutoff=0.5)
        expected = "" if near and len(words) > _LONGEST_LIST_WITH_NEAREST else _expected(schema)
        return Problem(document.name, span, f"{shown} is no {key!r} we know", expected, near[0] if near else "")
    return Problem(document.name, span, f"{shown} cannot stand for {key!r}", _expected(schema))


def _unknown_key(document: Document, path: Path, key: str, known: list[str], owner: object) -> Problem:
    near = get_close_matches(key, known, n=1, cutoff=0.6)
    kind = owner.get("kind") if isinstance(owner, dict) else None
    whose = _a(kind) if isinstance(kind, str) else (f"{path[-1]!r}" if path else "the design")
    return Problem(
        document.name,
        document.span((*path, key), of_key=True),
        f"{whose} has no field {key!r}",
        "" if near else f"its fields are {_listed(known)}",
        near[0] if near else "",
    )


def _expected(schema: Mapping[str, Any]) -> str:
    kind = _QUANTITIES.get(schema.get("quantity", ""))
    if kind is not None:
        return f"write {kind.expected()}"
    if "enum" in schema:
        return f"one of {_listed([str(word) for word in schema['enum']])}"
    if schema.get("examples"):
        return f"write {schema['examples'][0]!r}"
    if "minimum" in schema or "maximum" in schema:
        return f"write a whole number from {schema.get('minimum')} to {schema.get('maximum')}"
    shape = schema.get("type")
    shapes = [shape] if isinstance(shape, str) else [kind for kind in shape or [] if kind != "number"]
    return f"write {' or '.join(_SHAPES[kind] for kind in shapes)}" if shapes else ""


def _named(path: Path, instance: object) -> str:
    if not path:
        return "the design"
    kind = instance.get("kind") if isinstance(instance, dict) else None
    return f"{path[-1]} ({kind})" if isinstance(kind, str) else str(path[-1])


def _is_key(mistake: Any) -> bool:
    return "propertyNames" in mistake.absolute_schema_path


def _at(document: Document, path: Path) -> object:
    value: Any = document.data
    for step in path:
        value = value[step]
    return value


def _a(noun: str) -> str:
    return f"{'an' if noun[0] in 'aeiou' else 'a'} {noun}"


def _shape(value: object) -> str:
    return "a group" if isinstance(value, dict) else "a list" if isinstance(value, list) else str(value).lower()


def _listed(words: list[str]) -> str:
    shown = ", ".join(words[:_LONGEST_LIST])
    return f"{shown}, … ({len(words)} in all)" if len(words) > _LONGEST_LIST else shown


def _start(document: Document) -> Span:
    """The first line that holds something."""
    whole = document.span(())
    return Span(whole.start, whole.start)
