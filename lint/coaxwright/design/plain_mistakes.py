"""Mistakes against a schema in a colleague's words, for the files beside a design: catalogues and rulesets."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from coaxwright.design.nearest import nearest_word
from coaxwright.design.phrases import a, in_quotes, listed, quantity_of, shown
from coaxwright.source import Document, Path, Problem

_SHAPES = {
    "object": "a group of 'key: value' lines",
    "array": "a list",
    "string": "words",
    "integer": "a whole number",
    "number": "a number",
    "boolean": "true or false",
}


def plain_problems(document: Document, schema: dict[str, Any]) -> list[Problem]:
    """Every mistake of a document that breaks a schema, once each, in the order of the text."""
    from jsonschema import Draft202012Validator

    found = [
        problem
        for mistake in Draft202012Validator(schema).iter_errors(document.data)
        for problem in _told(document, mistake)
    ]
    return sorted(set(found), key=lambda problem: (problem.span, problem.message))


def _told(document: Document, mistake: Any) -> Iterator[Problem]:
    path: Path = tuple(mistake.absolute_path)
    value, schema = mistake.instance, mistake.schema
    name = _name(path)
    match mistake.validator:
        case "additionalProperties":
            known = list(schema.get("properties", {}))
            for key in value:
                if key not in known:
                    near = nearest_word(str(key), known)
                    expected = "" if near else f"its fields are {listed(known)}"
                    what = f"{name} has no field {shown(document, (), key)}"
                    span = document.span((*path, key), of_key=True)
                    yield Problem(document.name, span, what, expected, near or "")
        case "required":
            absent = [key for key in mistake.validator_value if key not in value]
            span = document.span(path, of_key=True)
            what = f"{name} has no {in_quotes(absent, 'or')}"
            yield Problem(document.name, span, what, f"write {in_quotes([f'{key}: …' for key in absent], 'and')}")
        case _:
            what, expected, near = _value(document, path, schema, value)
            yield Problem(document.name, document.span(path), what, expected, near)


def _value(document: Document, path: Path, schema: dict[str, Any], value: object) -> tuple[str, str, str]:
    written = shown(document, path, value)
    key = next((step for step in reversed(path) if isinstance(step, str)), "the file")
    quantity = quantity_of(schema)
    if quantity is not None and isinstance(value, (str, int, float)) and not isinstance(value, bool):
        near = quantity.nearest(str(value)) or ""
        return f"{written} is not {a(quantity.NAME)}", "" if near else f"write {quantity.expected()}", near
    if "enum" in schema:
        words = [str(word) for word in schema["enum"]]
        near = nearest_word(str(value), words) or ""
        return f"{written} cannot stand for {key!r}", f"write one of {listed(words)}", near
    if "const" in schema:
        return f"{written} cannot stand for {key!r}", f"write {schema['const']!r}", ""
    shape = schema.get("type")
    expected = f"write {_SHAPES[shape]}" if isinstance(shape, str) and shape in _SHAPES else ""
    if schema.get("examples"):
        expected = f"write {' or '.join(repr(example) for example in schema['examples'][:3])}"
    return f"{written} cannot stand for {key!r}", expected, ""


def _name(path: Path) -> str:
    if not path:
        return "the file"
    return str(path[-1]) if isinstance(path[-1], str) else f"entry {path[-1] + 1} of {path[-2]!r}"
