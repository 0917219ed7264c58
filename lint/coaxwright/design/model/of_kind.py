"""A part's kind says which of its fields it has."""

from __future__ import annotations

from typing import TypeVar

from coaxwright.design.fields import Part
from coaxwright.design.kinds import KindFields

_P = TypeVar("_P", bound=Part)


def of_kind(part: _P, common: tuple[str, ...], fields: KindFields, kind: str) -> _P:
    """The part, if it has the fields of its kind and no others; ValueError where it has not."""
    allowed = {*common, *fields.required, *fields.optional}
    for name in part.model_fields_set:
        if name not in allowed:
            raise ValueError(f"a {kind} has no {name}")
    for name in fields.required:
        if name not in part.model_fields_set:
            raise ValueError(f"a {kind} needs {name}")
    variant = getattr(part, "variant", None)
    if variant is not None and variant not in fields.variants:
        raise ValueError(f"a {kind} has no variant {variant}")
    for name, quantity in fields.narrowed.items():
        value = getattr(part, name)
        if value is not None:
            quantity.parse(value.text)
    return part
