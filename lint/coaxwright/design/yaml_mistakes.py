"""Slips of the pen inside braces and brackets, where a comma ends a value and a colon needs a space behind it.

YAML reads them without a word: ``{note: buried, see plan}`` holds a field ``see plan`` of no value. What its author
sees is one mistake, and is told as one.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from typing import Any

from coaxwright.design.phrases import can_be_repeated, quantity_of, schema_at
from coaxwright.design.quantities import Length
from coaxwright.frozen_value import frozen_value
from coaxwright.source import Document, Path, Span, quoted

_DECIMAL = re.compile(r"[0-9]+")


@frozen_value
class Slip:
    """What went wrong, in words, and the field that was meant."""

    span: Span
    what: str
    expected: str
    field: str = ""
    """The field that only seems to be missing, or whose value only seems to be wrong; empty where it is neither."""


def slip_in_group(document: Document, path: Path, key: str, known: Iterable[str]) -> Slip | None:
    """The slip that made a key without a value of a part of a text; None where a key is just an unknown one."""
    owner = _group_at(document, path)
    if owner is None or owner[key] is not None or not _is_bare(document, (*path, key)):
        return None
    fields = tuple(known)
    span = document.span((*path, key), of_key=True)
    field, colon, rest = key.partition(":")
    if colon and field in fields:
        return Slip(span, _NO_SPACE.format(f"{field}:"), f"write '{field}: {rest}'", field)
    earlier = list(owner)[: list(owner).index(key)]
    before = next((line for line in reversed(earlier) if line in fields and owner[line] is not None), None)
    if before is None:
        return _without_key(span, path, key, fields)
    value = owner[before]
    figure = document.numbers.get((*path, before))
    if figure is not None and _DECIMAL.fullmatch(figure) and key[:1].isdigit():
        return Slip(document.span((*path, before)), _COMMA.format(before), f"write '{before}: {figure}.{key}'", before)
    if not isinstance(value, str):
        return None
    expected = f"put the whole text in quotes, '{before}: \"{value}, {key}\"'"
    if not can_be_repeated(f"{value}, {key}") or '"' in value + key:
        expected = "put the whole text in quotes"
    return Slip(span, f"the comma before {quoted(key)} ends the value of {before!r}", expected)


def slip_in_route(document: Document, path: Path, value: str) -> Slip | None:
    """The slip in an entry of a route that is a text: ``attic:5 ft``, and the second half of ``attic: 5,5 m``."""
    place, colon, rest = value.partition(":")
    if colon and Length.matches(rest.strip()) and can_be_repeated(value):
        return Slip(document.span(path), _NO_SPACE.format(f"{place}:"), f"write '{place}: {rest}'")
    index = path[-1]
    assert isinstance(index, int)
    if not index or not value[:1].isdigit():
        return None
    figures = {at[-1]: text for at, text in document.numbers.items() if at[:-1] == (*path[:-1], index - 1)}
    for before, figure in figures.items():
        if _DECIMAL.fullmatch(figure) and Length.matches(f"{figure}.{value}"):
            at = (*path[:-1], index - 1, before)
            return Slip(document.span(at), _COMMA.format(before), f"write '{before}: {figure}.{value}'", str(before))
    return None


_NO_SPACE = "a space is missing after '{}'"
_COMMA = "the comma ends the value of {!r}"


def _without_key(span: Span, path: Path, key: str, fields: Iterable[str]) -> Slip | None:
    """``down: {54 MHz to 1002 MHz}``: a value that lacks its field."""
    for field in fields:
        quantity = quantity_of(schema_at((*path, field)))
        if quantity is not None and quantity.matches(key):
            return Slip(span, f"{quoted(key)} stands without its field", f"write '{field}: {key}'", field)
    return None


def _group_at(document: Document, path: Path) -> Mapping[str, object] | None:
    value: Any = document.data
    for step in path:
        value = value[step]
    return value if isinstance(value, dict) else None


def _is_bare(document: Document, path: Path) -> bool:
    """Whether a key is followed by no colon, which only braces allow."""
    rest = document.text[document.span(path, of_key=True).end.index :].lstrip(" \t")
    return rest[:1] in (",", "}", "\n", "\r", "")
