"""The JSON Schema of a part that a design includes, taken from that of the design."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from coaxwright.design.composition import TAGGED
from coaxwright.design.schema import design_schema, design_schema_draft_07
from coaxwright.source import INCLUDES, PART

Schema = dict[str, Any]


def part_schema() -> Schema:
    """The contract, in JSON Schema 2020-12."""
    return _of_a_part(design_schema(), "$defs")


def part_schema_draft_07() -> Schema:
    """The same contract for editors that know draft-07 only."""
    return _of_a_part(design_schema_draft_07(), "definitions")


def _of_a_part(design: Schema, definitions: str) -> Schema:
    fields = design["properties"]
    head = {PART: fields["coaxwright"], "note": fields["note"], INCLUDES: fields[INCLUDES]}
    properties = {**head, **{section: fields[section] for section in fields if section in TAGGED}}
    needed = _named(properties, design[definitions])
    return {
        "$schema": design["$schema"],
        "$id": design["$id"].replace("/design-", "/design-part-"),
        "title": design["title"].replace("design file", "part of a design"),
        "type": "object",
        "description": "A part of a site's coaxial network that a design includes.",
        "properties": properties,
        "additionalProperties": False,
        "required": [PART],
        definitions: {name: part for name, part in design[definitions].items() if name in needed},
    }


def _named(node: object, parts: Schema) -> set[str]:
    """The definitions that a schema refers to, in itself and by way of others."""
    found: set[str] = set()
    waiting = list(_references(node))
    while waiting:
        name = waiting.pop()
        if name not in found:
            found.add(name)
            waiting += _references(parts[name])
    return found


def _references(node: object) -> Iterator[str]:
    if isinstance(node, dict):
        if isinstance(node.get("$ref"), str):
            yield node["$ref"].rpartition("/")[2]
        for value in node.values():
            yield from _references(value)
    elif isinstance(node, list):
        for value in node:
            yield from _references(value)
