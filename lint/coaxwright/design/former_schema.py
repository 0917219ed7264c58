"""Former words in the JSON Schemas: files in them are accepted, and an editor marks each with the present word.

The published schemas take both. What we tell of a mistake names the present words only: it comes from the schema
without the former ones, which is all that data is held to once its words are the present ones.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from coaxwright.source.former_words import ANY, Place

Schema = dict[str, Any]


def mark_former(schema: Schema, entries: tuple[Place, ...], definitions: str = "$defs") -> None:
    """Let a schema take the former words as well, each marked as deprecated."""
    for entry in entries:
        steps = entry.at if entry.of_keys else entry.at[:-1]
        for node in list(_at(schema, schema[definitions], steps)):
            if entry.of_keys:
                _mark_keys(node, entry)
            else:
                _mark_values(node, entry)


def present_only(schema: Schema) -> Schema:
    """A schema object without its former words; for ``json.loads``, which gives each object as it is read."""
    enum, alternatives = schema.get("enum"), schema.get("allOf")
    if alternatives is not None:
        former = {found for part in alternatives if (found := _former_word(part)) is not None}
        if former:
            if enum is not None:
                schema["enum"] = [word for word in enum if word not in former]
            _keep(schema, "allOf", [part for part in alternatives if _former_word(part) is None])
        pairs = [pair for part in alternatives if (pair := _pair(part)) is not None]
        if pairs:
            schema["required"] = [*schema.get("required", ()), *(present for present, _ in pairs)]
            _keep(schema, "allOf", [part for part in schema.get("allOf", ()) if _pair(part) is None])
    if "if" not in schema:  # else its ``then`` marks a former value
        for key in [key for key, part in schema.items() if isinstance(part, dict) and part.get("deprecated") is True]:
            del schema[key]
    if _is_choice_of_keys(schema):
        del schema["not"]
    _keep(schema, "allOf", [part for part in schema.get("allOf", ()) if part])
    return schema


def _keep(schema: Schema, key: str, parts: list[Any]) -> None:
    if parts:
        schema[key] = parts
    else:
        schema.pop(key, None)


def _mark_values(node: Schema, entry: Place) -> None:
    field = entry.at[-1]
    holders = [node] if not entry.of_kind else list(_of_kind(node, entry.of_kind))
    for holder in holders:
        value = holder["properties"].get(field)
        for enum in _enums(value) if value is not None else ():
            for old, new in entry.words.items():
                if new in enum["enum"] and old not in enum["enum"]:
                    enum["enum"] = [*enum["enum"], old]
                    enum.setdefault("allOf", []).append(_marked(old, new))
    if field == "kind":
        for part in node.get("allOf", ()):
            condition = part.get("if", {}).get("properties", {}).get("kind", {})
            former = [old for old, new in entry.words.items() if condition.get("const") == new]
            if former:
                part["if"]["properties"]["kind"] = {"enum": [condition["const"], *former]}


def _mark_keys(node: Schema, entry: Place) -> None:
    properties = node["properties"]
    for old, new in entry.words.items():
        if new in properties and old not in properties:
            properties[old] = {**properties[new], "description": _description(new), "deprecated": True}
            both = {"required": [new, old]}
            if "not" in node:
                node.setdefault("allOf", []).append({"not": both})
            else:
                node["not"] = both


def _marked(old: str, new: str) -> Schema:
    return {"if": {"const": old}, "then": {"description": _description(new), "deprecated": True}}


def _description(new: str) -> str:
    return f"The former word for '{new}'."


def _former_word(part: Any) -> str | None:
    """The word that a part of a schema marks as a former one."""
    if part.get("then", {}).get("deprecated") is not True:
        return None
    word = part["if"].get("const")
    return word if isinstance(word, str) else None


def _pair(part: Any) -> tuple[str, str] | None:
    """The two keys of which one is required, the present one first."""
    match part:
        case {"anyOf": [{"required": [str(present)]}, {"required": [str(former)]}]}:
            return present, former
    return None


def _is_choice_of_keys(schema: Schema) -> bool:
    """Whether a schema says that a former key does not stand beside the present one."""
    return isinstance(schema.get("not"), dict) and list(schema["not"]) == ["required"]


def _of_kind(node: Schema, kind: str) -> Iterator[Schema]:
    for part in node.get("allOf", ()):
        if part.get("if", {}).get("properties", {}).get("kind", {}).get("const") == kind:
            yield part["then"]


def _at(node: Any, parts: Schema, steps: tuple[str, ...]) -> Iterator[Schema]:
    """The groups that a way leads to, through references and choices by shape."""
    for shape in _shapes(node, parts):
        if not steps:
            if "properties" in shape:
                yield shape
            continue
        step, *others = steps
        below = [shape.get("items"), shape.get("additionalProperties")] if step == ANY else []
        below.append(shape.get("properties", {}).get(step))
        for inner in below:
            if isinstance(inner, dict):
                yield from _at(inner, parts, tuple(others))


def _shapes(node: Any, parts: Schema) -> Iterator[Schema]:
    if "$ref" in node:
        yield from _shapes(parts[node["$ref"].rpartition("/")[2]], parts)
    elif "then" in node:
        yield from _shapes(node["then"], parts)
        yield from _shapes(node.get("else", {}), parts)
    else:
        yield node
        for part in node.get("allOf", ()):
            if "$ref" in part:
                yield from _shapes(part, parts)


def _enums(node: Schema) -> Iterator[Schema]:
    if "enum" in node:
        yield node
