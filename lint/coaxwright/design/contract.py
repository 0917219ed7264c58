"""Is this data a design? The committed JSON Schema decides; a fast validator answers, the reference one explains."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterator
from functools import cache
from typing import Any

from coaxwright.design.former_schema import present_only
from coaxwright.design.schema_files import DESIGN_SCHEMA
from coaxwright.shipped import shipped

Schema = dict[str, Any]


@cache
def committed_schema() -> Schema:
    """The design schema as committed and shipped, without its former words: data is held to it in the present ones."""
    text = (shipped("schemas") / DESIGN_SCHEMA).read_text(encoding="utf-8")
    return json.loads(text, object_hook=present_only)  # type: ignore[no-any-return]


@cache
def _judge() -> Callable[[object], bool]:
    try:
        from jsonschema_rs import Draft202012Validator
    except ImportError:  # no wheel for this machine: the reference validator gives the same answers, slower
        return lambda data: next(mistakes(data), None) is None
    return Draft202012Validator(committed_schema()).is_valid


def is_design(data: object) -> bool:
    """Whether the data keeps to the schema."""
    return _judge()(data)


def mistakes(data: object) -> Iterator[Any]:
    """Every violation of the schema as a ``jsonschema.ValidationError``."""
    return _explainer().iter_errors(data)  # type: ignore[no-any-return]


@cache
def _explainer() -> Any:
    from re import search

    from jsonschema import ValidationError
    from jsonschema.validators import Draft202012Validator, extend

    def pattern(validator: Any, pattern: str, instance: object, schema: Schema) -> Iterator[ValidationError]:
        # Python's $ also matches before a final line break; the standard's does not.
        exact = pattern[:-1] + r"\Z" if pattern.endswith("$") else pattern
        if isinstance(instance, str) and not search(exact, instance):
            yield ValidationError(f"{instance!r} does not match {pattern!r}")

    unknown_keys = Draft202012Validator.VALIDATORS["additionalProperties"]

    def tagged(validator: Any, part: Any, instance: Any, schema: Schema) -> Iterator[ValidationError]:
        # In the order of the text, where the library's own is another at every run: of very many, the first are told.
        if not isinstance(part, dict) or not isinstance(instance, dict):
            yield from unknown_keys(validator, part, instance, schema)
            return
        known = schema.get("properties", {})
        for tag, value in instance.items():
            if tag not in known:
                yield from validator.descend(value, part, path=tag)

    return extend(Draft202012Validator, {"pattern": pattern, "additionalProperties": tagged})(committed_schema())
