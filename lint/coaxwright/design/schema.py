"""The JSON Schemas of the design file, generated from the models.

One flat object per part; a part with kinds dispatches with ``if``/``then`` on its kind, so that a mistake is reported
once and not once per alternative. ``quantity`` beside a pattern names the dimension; ``written`` marks texts whose
number-like spellings are kept as written; ``names`` beside a tag lists the sections that hold the thing it names.
``deprecated`` marks former words, which are taken as well.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from types import NoneType, UnionType
from typing import Annotated, Any, Literal, Union, get_args, get_origin

from pydantic.fields import FieldInfo

from coaxwright.design.fields import AsWritten, Names, Part
from coaxwright.design.former_schema import mark_former
from coaxwright.design.kinds import KindFields
from coaxwright.design.model import OwnEntries
from coaxwright.design.quantities import Quantity
from coaxwright.design.units.model import KINDS, DesignFile
from coaxwright.source.former_words import DESIGN_PLACES

Schema = dict[str, Any]

FORMAT = 1
_DRAFT_2020_12 = "https://json-schema.org/draft/2020-12/schema"
_DRAFT_07 = "http://json-schema.org/draft-07/schema#"
_ID = f"https://coaxwright.invalid/schemas/design-{FORMAT}"
_CONSTRAINTS = {"ge": "minimum", "le": "maximum", "pattern": "pattern"}


def design_schema(*, with_former_words: bool = True) -> Schema:
    """The contract, in JSON Schema 2020-12."""
    parts: dict[str, Schema] = {}
    top = _part(DesignFile, parts)
    schema: Schema = {
        "$schema": _DRAFT_2020_12,
        "$id": f"{_ID}.schema.json",
        "title": f"Coaxwright design file, format {FORMAT}",
        **top,
        "$defs": dict(sorted(parts.items())),
    }
    if with_former_words:
        mark_former(schema, DESIGN_PLACES)
    return schema


def design_schema_draft_07() -> Schema:
    """The same contract for editors that know draft-07 only."""
    twin = _with_definitions(design_schema())
    assert isinstance(twin, dict)
    twin["$schema"] = _DRAFT_07
    twin["$id"] = f"{_ID}.draft-07.schema.json"
    return twin


def field_key(name: str, field: FieldInfo) -> str:
    """The key of a field in the file."""
    return field.alias or name


def _part(model: type[Part], parts: dict[str, Schema]) -> Schema:
    properties: dict[str, Schema] = {}
    required: list[str] = []
    for name, field in model.model_fields.items():
        key = field_key(name, field)
        properties[key] = _field(field, parts)
        if field.is_required():
            required.append(key)
    schema: Schema = {
        "type": "object",
        "description": _first_line(model.__doc__),
        "properties": properties,
        "additionalProperties": False,
    }
    if required:
        schema["required"] = required
    if model in KINDS:
        schema["allOf"] = list(_dispatch(model, *KINDS[model]))
    return schema


def _dispatch(model: type[Part], common: tuple[str, ...], kinds: Mapping[Any, KindFields]) -> Iterator[Schema]:
    """For each kind: the keys it may have, those it must have, and the quantities that are narrower in it."""
    keys = {name: field_key(name, field) for name, field in model.model_fields.items()}
    default = model.model_fields["kind"].default
    for kind, fields in kinds.items():
        condition: Schema = {"properties": {"kind": {"const": kind}}}
        if kind != default:
            condition["required"] = ["kind"]
        then: Schema = {
            "description": fields.describes,
            "propertyNames": {
                "enum": [keys[name] for name in ("kind", *fields.required, *fields.optional, *common[1:])]
            },
        }
        if fields.required:
            then["required"] = [keys[name] for name in fields.required]
        narrowed: Schema = {keys[name]: quantity.schema() for name, quantity in fields.narrowed.items()}
        if fields.variants:
            narrowed["variant"] = {"enum": list(fields.variants)}
        if narrowed:
            then["properties"] = narrowed
        yield {"if": condition, "then": then}


def _field(field: FieldInfo, parts: dict[str, Schema]) -> Schema:
    schema = _type(field.annotation, field.metadata, parts)
    described: Schema = {"description": field.description}
    if not field.is_required() and field.default is not None and field.default != {}:
        described["default"] = field.default
    if field.examples and "$ref" not in schema:
        schema = {**schema, "examples": field.examples}
    # A reference stands alone in draft-07: its neighbors would be ignored there.
    return {**described, "allOf": [schema]} if "$ref" in schema else {**described, **schema}


def _type(annotation: Any, metadata: list[Any], parts: dict[str, Schema]) -> Schema:
    origin = get_origin(annotation)
    if origin is Annotated:
        inner, *more = get_args(annotation)
        return _type(inner, [*more, *metadata], parts)
    if origin in (Union, UnionType):
        choices = [choice for choice in get_args(annotation) if choice is not NoneType]
        if len(choices) == 1:
            return _type(choices[0], metadata, parts)
        return _either([_type(choice, [], parts) for choice in choices])
    if origin is Literal:
        return {"enum": list(get_args(annotation))}
    if origin is list:
        return {"type": "array", "items": _type(get_args(annotation)[0], [], parts)} | _sizes(metadata, "Items")
    if origin is dict:
        key, value = get_args(annotation)
        tag = _type(key, [], parts)
        return {
            "type": "object",
            "propertyNames": {keyword: tag[keyword] for keyword in ("pattern", "names") if keyword in tag},
            "additionalProperties": _type(value, [], parts),
        } | _sizes(metadata, "Properties")
    if isinstance(annotation, type) and issubclass(annotation, (Quantity, OwnEntries)):
        return annotation.schema()
    if isinstance(annotation, type) and issubclass(annotation, Part):
        name = annotation.__name__.lower()
        if name not in parts:
            parts[name] = {}
            parts[name] = _part(annotation, parts)
        return {"$ref": f"#/$defs/{name}"}
    if annotation is bool:
        return {"type": "boolean"}
    if annotation is int:
        return {"type": "integer"} | _constraints(metadata)
    if annotation is str and any(item is AsWritten for item in metadata):
        return {"type": ["string", "number"], "written": True} | _names(metadata) | _constraints(metadata)
    if annotation is str:
        return {"type": "string"} | _constraints(metadata)
    raise TypeError(f"no schema for {annotation!r}")


def _either(choices: list[Schema]) -> Schema:
    """One of two shapes told apart by type alone: a part or a list against a text."""
    simple, composed = choices
    kind = "array" if composed.get("type") == "array" else "object"
    return {"if": {"type": kind}, "then": composed, "else": simple}


def _sizes(metadata: list[Any], suffix: str) -> Schema:
    sizes: Schema = {}
    for item in _flat(metadata):
        for name, keyword in (("min_length", f"min{suffix}"), ("max_length", f"max{suffix}")):
            if getattr(item, name, None) is not None:
                sizes[keyword] = getattr(item, name)
    return sizes


def _constraints(metadata: list[Any]) -> Schema:
    found: Schema = {}
    for item in _flat(metadata):
        for name, keyword in _CONSTRAINTS.items():
            if getattr(item, name, None) is not None:
                found[keyword] = getattr(item, name)
        if getattr(item, "examples", None):
            found["examples"] = item.examples
    return found


def _names(metadata: list[Any]) -> Schema:
    """Where the thing that a tag names is looked for."""
    sections = next((item.sections for item in metadata if isinstance(item, Names)), None)
    return {} if sections is None else {"names": list(sections)}


def _flat(metadata: list[Any]) -> Iterator[Any]:
    for item in metadata:
        if isinstance(item, FieldInfo):
            yield item
            yield from item.metadata
        else:
            yield item


def _first_line(doc: str | None) -> str:
    return (doc or "").strip().splitlines()[0]


def _with_definitions(node: Any) -> Any:
    if isinstance(node, list):
        return [_with_definitions(item) for item in node]
    if not isinstance(node, dict):
        return node
    return {
        "definitions" if key == "$defs" else key: value.replace("#/$defs/", "#/definitions/")
        if key == "$ref"
        else _with_definitions(value)
        for key, value in node.items()
    }
