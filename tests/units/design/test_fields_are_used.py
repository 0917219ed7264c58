"""Every field of the design file is used, or says what will be the first to use it."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

import coaxwright
from coaxwright.checks import all_checks
from coaxwright.design.fields import Part
from coaxwright.design.model import Design
from coaxwright.design.schema import field_key
from coaxwright.design.units.model import CHANGES, DesignFile

PACKAGE = Path(coaxwright.__file__).parent
USING = ("network", "analysis", "checks", "reviewing", "reports", "rules", "catalogue", "findings")
"""Rooms that use what the design says."""
FOR_READERS = {"note", "authority", "coaxwright", "draws in", "typical", "units", "like", "but", "leaves out"}
"""Remarks for people, and what is used up before the models are built."""


def parts(model: type[Part] = DesignFile, seen: set[type[Part]] | None = None) -> Iterator[type[Part]]:
    seen = set() if seen is None else seen
    if model in seen or model in CHANGES.values():
        return
    seen.add(model)
    yield model
    for field in model.model_fields.values():
        for inner in classes_in(field.annotation):
            yield from parts(inner, seen)


def classes_in(annotation: object) -> Iterator[type[Part]]:
    if isinstance(annotation, type) and issubclass(annotation, Part):
        yield annotation
    for inner in getattr(annotation, "__args__", ()):
        yield from classes_in(inner)


def places(model: type[Part], above: str) -> Iterator[tuple[str, str | None]]:
    """Every field's dotted path in the file, with what it awaits."""
    for name, field in model.model_fields.items():
        path = above + field_key(name, field)
        yield path, awaits(model, name)
        for inner in classes_in(field.annotation):
            is_tagged = getattr(field.annotation, "__origin__", None) is dict
            if path not in {"typical", "units"} and path.count(".") < 6:
                yield from places(inner, f"{path}.*." if is_tagged else f"{path}.")


def attributes() -> set[str]:
    """Every attribute that the rooms ask of anything."""
    return {
        node.attr
        for room in USING
        for file in (PACKAGE / room).rglob("*.py")
        for node in ast.walk(ast.parse(file.read_text(encoding="utf-8")))
        if isinstance(node, ast.Attribute)
    } | {node.attr for node in ast.walk(ast.parse((PACKAGE / "design/model/whole.py").read_text(encoding="utf-8")))
         if isinstance(node, ast.Attribute)}  # fmt: skip


ASKED = attributes()
FIELDS = [(part, name) for part in parts() for name in part.model_fields]


def awaits(part: type[Part], name: str) -> str | None:
    extra = part.model_fields[name].json_schema_extra
    return str(extra["awaits"]) if isinstance(extra, dict) else None


@pytest.mark.parametrize(("part", "name"), FIELDS, ids=lambda value: getattr(value, "__name__", str(value)))
def test_a_field_is_used_or_awaited(part: type[Part], name: str) -> None:
    key = field_key(name, part.model_fields[name])
    if key not in FOR_READERS:
        assert name in ASKED or awaits(part, name), f"nothing uses {part.__name__}.{key}, and it awaits nothing"


def test_what_a_field_awaits_is_a_rule() -> None:
    for part, name in FIELDS:
        awaited = awaits(part, name)
        assert awaited is None or re.fullmatch(r"[a-z]+\.[a-z-]+", awaited)


def test_no_field_awaits_a_rule_that_reads_it_already() -> None:
    """A mark that was forgotten when its rule came would hide that a field is read by nothing."""
    read = {path for check in all_checks().values() for path in check.reads}
    paths = dict(places(DesignFile, ""))
    assert read <= paths.keys()
    assert [path for path in read if paths[path]] == []


def test_the_fields_are_found() -> None:
    assert (Design, "cables") in FIELDS or ("DesignFile", "cables") in {(part.__name__, name) for part, name in FIELDS}
    assert len(FIELDS) > 150
