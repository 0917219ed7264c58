"""Which fields of a part are tags of other things, taken from the schema; and those tags written anew."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from functools import cache
from typing import Any

from coaxwright.design.contract import committed_schema
from coaxwright.design.fields import TAG_PATTERN
from coaxwright.design.phrases import SECTIONS

Sections = tuple[str, ...]
Full = Callable[[str, Sections], str]
"""Gives the full tag of a tag as it is written, when the thing it names is looked for in these sections."""


@dataclass(slots=True)
class Tags:
    """Where tags of other things stand in a value: in itself, in its keys, or further inside."""

    names: Sections = ()
    keys: Sections = ()
    fields: dict[str, Tags] = field(default_factory=dict)
    each: Tags | None = None
    """In the entries of a list, or below the keys of a group."""

    @property
    def any(self) -> bool:
        return bool(self.names or self.keys or self.fields or self.each)


@cache
def tags_in() -> Mapping[str, Tags]:
    """For each section, where tags stand in one of its parts."""
    schema = committed_schema()
    return {section: _tags(schema["properties"][section]["additionalProperties"]) for section in SECTIONS}


def with_full_tags(value: Any, tags: Tags, full: Full) -> Any:
    """A copy of a value with every tag in it written as its full tag; what holds no tag is not copied."""
    if isinstance(value, str):
        return full(value, tags.names) if tags.names else value
    if isinstance(value, dict):
        written: dict[str, Any] = {}
        for key, child in value.items():
            below = tags.fields.get(key, tags.each)
            written[full(key, tags.keys) if tags.keys else key] = with_full_tags(child, below, full) if below else child
        return written
    if isinstance(value, list) and tags.each:
        return [with_full_tags(child, tags.each, full) for child in value]
    return value


def _tags(schema: Any) -> Tags:
    found = Tags()
    _gather(schema, found)
    return found


def _gather(schema: Any, found: Tags) -> None:
    if "$ref" in schema:
        _gather(committed_schema()["$defs"][schema["$ref"].rpartition("/")[2]], found)
    if schema.get("pattern") == TAG_PATTERN:
        found.names = tuple(schema.get("names", SECTIONS))  # of a tag that does not say, a thing of any section
    if "names" in schema.get("propertyNames", ()):
        found.keys = tuple(schema["propertyNames"]["names"])
    for name, child in schema.get("properties", {}).items():
        below = _tags(child)
        if below.any:
            found.fields[name] = below
    for keyword in ("items", "additionalProperties"):
        below = _tags(schema[keyword]) if isinstance(schema.get(keyword), dict) else Tags()
        if below.any:
            found.each = below
    for inner in (*schema.get("allOf", ()), schema.get("then"), schema.get("else")):
        if isinstance(inner, dict) and "if" not in inner:
            _gather(inner, found)
