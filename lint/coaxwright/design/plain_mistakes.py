"""Mistakes against a schema in a colleague's words, for the files beside a design: catalogues and rulesets."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import islice
from typing import Any

from coaxwright.design.nearest import nearest_word
from coaxwright.design.phrases import a, in_quotes, listed, quantity_of, shown
from coaxwright.source import Document, Path, Problem, quoted

_SHAPES = {
    "object": "a group of 'key: value' lines",
    "array": "a list",
    "string": "words",
    "integer": "a whole number",
    "number": "a number",
    "boolean": "true or false",
}


def plain_problems(
    document: Document, schema: dict[str, Any], whole: str = "the file", most: int | None = None
) -> list[Problem]:
    """Every mistake of a document that breaks a schema, once each, in the order of the text.

    whole: what the document is called. most: how many are looked for at most, where not all are wanted. A schema may
    give a ``hint``: what to do then.
    """
    from jsonschema import Draft202012Validator

    found = (
        problem
        for mistake in Draft202012Validator(schema).iter_errors(document.data)
        for problem in _to_problem(document, mistake, whole)
    )
    return sorted(set(islice(found, most)), key=lambda problem: (problem.span, problem.message))


def _to_problem(document: Document, mistake: Any, whole: str) -> Iterator[Problem]:
    path: Path = tuple(mistake.absolute_path)
    value, schema = mistake.instance, mistake.schema
    name = _name(path, whole)
    if "propertyNames" in mistake.absolute_schema_path:
        what, expected, meant = _key(schema, value)
        yield Problem(document.name, document.span((*path, value), of_key=True), what, expected, meant)
        return
    match mistake.validator:
        case "additionalProperties":
            known = list(schema.get("properties", {}))
            for key in value:
                if key not in known:
                    near = nearest_word(str(key), known, taken=value)
                    expected = "" if near else f"its fields are {listed(known, str(key))}"
                    what = f"{name} has no field {shown(document, (), key)}"
                    span = document.span((*path, key), of_key=True)
                    yield Problem(document.name, span, what, expected, near or "")
        case "required":
            absent = [key for key in mistake.validator_value if key not in value]
            span = document.span(path, of_key=True)
            what = f"{name} has no {in_quotes(absent, 'or')}"
            expected = schema.get("hint") or f"write {in_quotes([f'{key}: …' for key in absent], 'and')}"
            yield Problem(document.name, span, what, expected)
        case "minProperties" | "minItems":
            what = f"nothing is written for {name!r}" if not value else f"too little is written for {name!r}"
            yield Problem(document.name, document.span(path), what, _shape(schema))
        case _:
            what, expected, near = _value(document, path, schema, value)
            yield Problem(document.name, document.span(path), what, expected, near)


def _key(schema: dict[str, Any], key: str) -> tuple[str, str, str]:
    """A key that is no name, or no quantity such as the frequencies of a table are."""
    quantity = quantity_of(schema)
    if quantity is None:
        return f"{quoted(key)} cannot be a name", "write words with single spaces between them", ""
    near = quantity.nearest(key) or ""
    return f"{quoted(key)} is not {a(quantity.NAME)}", "" if near else f"write {quantity.expected()}", near


def _value(document: Document, path: Path, schema: dict[str, Any], value: object) -> tuple[str, str, str]:
    key = next((step for step in reversed(path) if isinstance(step, str)), "the file")
    if value is None:
        return f"nothing is written for {key!r}", _shape(schema), ""
    written = shown(document, path, value)
    quantity = quantity_of(schema)
    if quantity is not None and isinstance(value, (str, int, float)) and not isinstance(value, bool):
        near = quantity.nearest(str(value)) or ""
        return f"{written} is not {a(quantity.NAME)}", "" if near else f"write {quantity.expected()}", near
    if "enum" in schema:
        words = [str(word) for word in schema["enum"]]
        near = nearest_word(str(value), words) or ""
        expected = f"write one of {listed(words, str(value))}" if len(words) > 1 else f"write {words[0]!r}"
        return f"{written} cannot stand for {key!r}", expected, near
    if "const" in schema:
        return f"{written} cannot stand for {key!r}", f"write {schema['const']!r}", ""
    return f"{written} cannot stand for {key!r}", _shape(schema), ""


def _shape(schema: dict[str, Any]) -> str:
    """What to write where a schema asks for something of a shape; its own ``hint`` says it best."""
    if schema.get("hint"):
        return str(schema["hint"])
    if schema.get("examples"):
        return f"write {' or '.join(repr(example) for example in schema['examples'][:3])}"
    shape = schema.get("type")
    return f"write {_SHAPES[shape]}" if isinstance(shape, str) and shape in _SHAPES else ""


def _name(path: Path, whole: str) -> str:
    if not path:
        return whole
    return str(path[-1]) if isinstance(path[-1], str) else f"entry {path[-1] + 1} of {path[-2]!r}"
