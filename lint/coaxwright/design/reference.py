"""The reference page of the design file, generated from its schema."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from coaxwright.design.kinds import BOND_KINDS, DEVICE_KINDS
from coaxwright.design.schema import design_schema

_TITLES = {
    "basis": "basis",
    "building": "buildings",
    "lightningsystem": "buildings: lightning system",
    "place": "places",
    "neighboritem": "places and routes: beside",
    "service": "services",
    "stream": "services: down and up",
    "channel": "services: channels",
    "wanted": "services: at outlets",
    "device": "devices",
    "mast": "devices: mast",
    "portsaid": "devices: ports",
    "cable": "cables",
    "leg": "cables: a leg of a route",
    "connector": "cables: connectors",
    "raceway": "raceways",
    "bonditem": "bonding",
    "reading": "readings",
    "record": "records",
    "variance": "variances",
    "typical": "typical",
    "unit": "units",
    "change": "units: but",
}
_SECTIONS = tuple(_TITLES)
_CHANGE = "change"
"""Ends the name of a part's fields where none is required: they are the part's own, and have no table of theirs."""


def reference_page() -> str:
    """The page as Markdown text."""
    return "\n".join(_page()) + "\n"


def _page() -> Iterator[str]:
    schema = design_schema(with_former_words=False)
    yield "# The design file, field by field"
    yield ""
    yield "Generated from the models by `python -m coaxwright.publish`; do not edit."
    yield ""
    yield "Every quantity carries its unit. A tag is any name without a space at its ends; numbers such as `012` are"
    yield "taken as written. Defaults are few and listed here; none of them hides a duty: a bond that is not written is"
    yield "missing. What kinds of devices are made in, the names of their ports, and the classes of cable are in"
    yield "[the catalogue](catalogue.md)."
    yield ""
    yield from _table("The top of the file", schema)
    for name in _SECTIONS:
        yield from _table(_TITLES[name], schema["$defs"][name])
        if name == "device":
            yield from _kinds(DEVICE_KINDS, schema["$defs"][name])
        if name == "bonditem":
            yield from _kinds(BOND_KINDS, schema["$defs"][name])


def _table(title: str, part: dict[str, Any]) -> Iterator[str]:
    yield f"## {title}"
    yield ""
    yield part["description"]
    yield ""
    yield "| field | must | what | written as | default |"
    yield "|---|---|---|---|---|"
    for name, field in part["properties"].items():
        must = "yes" if name in part.get("required", ()) else ""
        default = f"`{_default(field['default'])}`" if "default" in field else ""
        yield f"| `{name}` | {must} | {field['description']} | {_written(field)} | {default} |"
    yield ""


def _kinds(kinds: Any, part: dict[str, Any]) -> Iterator[str]:
    yield "| kind | what | must say | may say |"
    yield "|---|---|---|---|"
    for kind, fields in kinds.items():
        must = ", ".join(f"`{_key(name)}`" for name in fields.required)
        may = ", ".join(f"`{_key(name)}`" for name in fields.optional)
        yield f"| `{kind}` | {fields.describes} | {must} | {may} |"
    yield ""


def _key(name: str) -> str:
    return name.rstrip("_").replace("_", " ")


def _default(value: object) -> str:
    return str(value).lower() if isinstance(value, bool) else str(value)


def _written(field: dict[str, Any]) -> str:
    if "quantity" in field:
        return " or ".join(f"`{example}`" for example in field["examples"])
    if field.get("examples"):
        return "such as " + " or ".join(f"`{example}`" for example in field["examples"])
    if "enum" in field:
        return ", ".join(f"`{word}`" for word in field["enum"])
    if field.get("type") == "array":
        return f"a list of {_written(field['items'])}"
    if "then" in field:
        return f"{_written(field['else'])}; or {_written(field['then'])}"
    if field.get("type") == "boolean":
        return "`true` or `false`"
    if field.get("type") == "integer":
        return "a whole number"
    if field.get("written"):
        return "a tag" if "[^" in field.get("pattern", "") else "words"
    if "allOf" in field or "$ref" in field:
        name = (field.get("$ref") or field["allOf"][0]["$ref"]).rpartition("/")[2]
        return (
            f"see {_TITLES[name]}"
            if name in _TITLES
            else f"see {_TITLES[name.removesuffix(_CHANGE)]}, nothing required"
        )
    if "$comment" in field:
        return str(field["$comment"])
    if field.get("type") == "object":
        return f"`tag: …`, {_written(field['additionalProperties'])}"
    return "words"
