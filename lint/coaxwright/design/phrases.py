"""What belongs in a place of the design file, said in a few words; taken from the schema."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from coaxwright.design import quantities
from coaxwright.design.contract import committed_schema
from coaxwright.design.fields import DATE_EXAMPLES, DATE_PATTERN, TAG_PATTERN
from coaxwright.design.nearest import likeliest
from coaxwright.source import Document, Path, quoted

SECTIONS: Mapping[str, str] = {
    "buildings": "house: {entry: north wall}",
    "places": "attic: {building: house, exposure: attic}",
    "services": "broadband: {kind: cable broadband, from: DROP}",
    "devices": "LIV: {kind: outlet, place: living room}",
    "cables": "C-101: {from: DROP, to: GB1, type: series 6 quad outdoor, length: 20 ft}",
    "raceways": "RW-1: {kind: rigid PVC conduit, trade size: 3/4}",
    "bonding": "B-1: {from: GB1, to: IBT, conductor: 10 AWG copper}",
    "records": "R-1: {by: the installer, on: 2026-05-31}",
}
"""The sections of tagged parts, each with a line that could stand in it."""
ROUTE_ENTRY = "- attic: 38 ft"

_QUANTITIES: Mapping[str, type[quantities.Quantity]] = {
    kind.NAME: kind
    for kind in vars(quantities).values()
    if isinstance(kind, type) and issubclass(kind, quantities.Quantity) and kind is not quantities.Quantity
}
_LONGEST_LIST = 14
_FEW = 3
"""So many words more are not worth cutting."""
_LONGEST_REPEATED = 60
_SHAPES = {
    "object": "a group of 'key: value' lines",
    "array": "a list",
    "string": "words",
    "integer": "a whole number",
    "boolean": "true or false",
}


def schema_at(path: Path) -> Mapping[str, Any]:
    """The schema of the group, list or value at a path; a tag may be any text."""
    schema = _resolved(committed_schema())
    for step in path:
        inner = schema["items"] if isinstance(step, int) else schema.get("properties", {}).get(step)
        schema = _resolved(inner or schema["additionalProperties"])
    return schema


def _resolved(schema: Mapping[str, Any]) -> Mapping[str, Any]:
    """Through references; of a choice by shape, the fuller one."""
    if "then" in schema:
        return _resolved(schema["then"])
    reference = schema.get("$ref") or next((part["$ref"] for part in schema.get("allOf", ()) if "$ref" in part), None)
    return committed_schema()["$defs"][reference.rpartition("/")[2]] if reference else schema


def quantity_of(schema: Mapping[str, Any]) -> type[quantities.Quantity] | None:
    """The quantity that a schema asks for, if it asks for one."""
    return _QUANTITIES.get(schema.get("quantity", ""))


def expected(schema: Mapping[str, Any]) -> str:
    """What to write where a schema applies."""
    schema = _resolved(schema)
    quantity = quantity_of(schema)
    if quantity is not None:
        return f"write {quantity.expected()}"
    if "enum" in schema:
        words = [str(word) for word in schema["enum"]]
        return f"write one of {', '.join(words)}" if len(words) > 1 else f"write {words[0]!r}"
    if schema.get("pattern") == DATE_PATTERN:
        day, month, year = DATE_EXAMPLES
        return f"write the day as {day!r}, or {month!r} or {year!r} where no more is known"
    if schema.get("examples"):
        return f"write {' or '.join(repr(example) for example in schema['examples'])}"
    if "minimum" in schema:
        return f"write a whole number from {schema['minimum']} to {schema['maximum']}"
    if schema.get("type") == "object" and "properties" in schema:
        return f"write a group such as '{_group(schema)}'"
    if schema.get("type") == "array":
        items = _resolved(schema["items"])
        return f"write a list such as '[{_group(items)}]'" if "properties" in items else "write a list"
    if schema.get("pattern") == TAG_PATTERN:
        return "write a tag"
    shape = schema["type"]
    return f"write {_SHAPES[shape if isinstance(shape, str) else shape[0]]}"


def _group(schema: Mapping[str, Any]) -> str:
    keys = schema.get("required") or keys_of(schema)[:2]
    return f"{{{', '.join(f'{key}: …' for key in keys)}}}"


def keys_of(schema: Mapping[str, Any]) -> list[str]:
    """The fields of a part."""
    return list(schema["properties"])


def shown(document: Document, path: Path, value: object) -> str:
    """A value as its author wrote it, short enough for a message."""
    if isinstance(value, str):
        return quoted(value)
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, (int, float)):
        return document.numbers.get(path, str(value))
    return "a group" if isinstance(value, dict) else "a list"


def can_be_repeated(text: str) -> bool:
    """Whether a text is short and plain enough to stand in a line that we suggest."""
    return text.isprintable() and text == text.strip() and 0 < len(text) <= _LONGEST_REPEATED


def shown_tag(tag: str) -> str:
    """A tag as it is: a name; only a very long or strange one in quotes and cut."""
    return tag if can_be_repeated(tag) else quoted(tag)


def a(noun: str) -> str:
    """The noun with its article."""
    return f"{'an' if noun[:1].lower() in set('aeiou') else 'a'} {noun}"


def listed(words: list[str], like: str = "") -> str:
    """Words with commas; of very many, those that are most like another, or the first ones."""
    if len(words) <= _LONGEST_LIST + _FEW:
        return ", ".join(words)
    some = likeliest(like, words, _LONGEST_LIST) if like else words[:_LONGEST_LIST]
    return f"{', '.join(some)}, … ({len(words)} in all)"


def in_quotes(words: list[str], joined_by: str) -> str:
    """Words in quotes: 'from', 'to' and 'conductor'."""
    *first, last = [f"'{word}'" for word in words]
    return f"{', '.join(first)} {joined_by} {last}" if first else last
