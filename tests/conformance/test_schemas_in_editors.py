"""What a schema-aware editor has to go by: the draft-07 twins, judged by an independent validator, with hover texts.

Source: JSON Schema draft-07 (draft-handrews-json-schema-01, 2018), as the validator fastjsonschema compiles it.
"""

from __future__ import annotations

import json
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Any

import fastjsonschema
import jsonschema
import jsonschema_rs
import pytest

from coaxwright.design.composition import _header_problems, as_design
from coaxwright.design.contract import is_design
from coaxwright.design.understand import _restore_written_texts
from coaxwright.source import read_file, read_text

TOP = Path(__file__).parents[2]
DATA = Path(__file__).parent / "data"
HEAD = "coaxwright: 1\ntitle: x\nbasis: {rulesets: [us 2023]}\n"
GOOD, BAD = ((DATA / f"designs_{name}.txt").read_text(encoding="utf-8").splitlines() for name in ("good", "bad"))
FORMER = (DATA / "designs_former_words.txt").read_text(encoding="utf-8").splitlines()
BOTH_WORDS = (DATA / "designs_former_words_bad.txt").read_text(encoding="utf-8").splitlines()
SCHEMAS = TOP / "schemas"


def schema(name: str) -> dict[str, Any]:
    found = json.loads((SCHEMAS / name).read_text(encoding="utf-8"))
    assert isinstance(found, dict)
    return found


DESIGN, PART = schema("design-1.draft-07.schema.json"), schema("design-part-1.draft-07.schema.json")
PART_NEW = schema("design-part-1.schema.json")


@cache
def is_design_file() -> Any:
    return fastjsonschema.compile(DESIGN)


@cache
def is_part_file() -> Any:
    return fastjsonschema.compile(PART)


def accepts(judge: Any, data: object) -> bool:
    try:
        judge(data)
    except fastjsonschema.JsonSchemaValueException:
        return False
    return True


def data_of(text: str) -> object:
    document = read_text(text, "x")
    _restore_written_texts(document)
    return document.data


@pytest.mark.parametrize(
    ("text", "good"),
    [*((text, True) for text in (*GOOD, *FORMER)), *((text, False) for text in (*BAD, *BOTH_WORDS))],
    ids=lambda value: str(value)[:70],
)
def test_an_independent_validator_takes_and_refuses_the_same_designs(text: str, good: bool) -> None:
    assert accepts(is_design_file(), data_of(HEAD + text + "\n")) is good


@pytest.mark.parametrize(
    "path", sorted((TOP / "examples").rglob("*.coax.yaml")), ids=lambda path: f"{path.parent.name}"
)
def test_the_example_designs_are_designs_in_an_editor(path: Path) -> None:
    document = read_file(path, path.name)
    _restore_written_texts(document)
    assert accepts(is_design_file(), document.data)


PARTS = (
    ("coaxwright part: 1", True),
    ("coaxwright part: 1\nnote: x\nincludes: [b.coax-part.yaml]\nplaces: {p: {}}\ntypical: {f: {}}", True),
    ("coaxwright part: 1\nraceways: {R: {kind: sleeve}}\nrecords: {R: {by: x, on: 2026}}", True),
    ("coaxwright part: 1\ncables: {C: {from: A, to: B, type: s, route: [p: {length: 2 m, in: RW}]}}", True),
    ("coaxwright part: 1\nnote: 5", True),
    ("coaxwright part: 1\nnote:", False),
    ("coaxwright part: 1\nnote: true", False),
    ("coaxwright part: 1\nnote: ''", False),
    ("coaxwright part: 1\nincludes: []", False),
    ("coaxwright part: 1\nincludes: b.coax-part.yaml", False),
    ("coaxwright part: 1\nincludes: [b.coax-part.yaml, {}]", False),
    ("coaxwright part: true", False),
    ("coaxwright part: '1'", False),
    ("coaxwright part: 1.0", True),
    ("coaxwright part: 0", False),
    ("coaxwright: 1", False),
    ("- coaxwright part: 1", False),
    ("coaxwright part: 2", False),
    ("places: {}", False),
    ("coaxwright part: 1\ntitle: x", False),
    ("coaxwright part: 1\nbasis: {rulesets: [us 2023]}", False),
    ("coaxwright part: 1\nvariances: []", False),
    ("coaxwright part: 1\ndevices: {D: {kind: splitter}}", False),
    ("coaxwright part: 1\ncabels: {}", False),
)  # fmt: skip


@pytest.mark.parametrize(("text", "good"), PARTS, ids=lambda value: str(value)[:60])
def test_the_schema_of_parts_is_one_for_every_validator(text: str, good: bool) -> None:
    data = data_of(text)
    verdicts = {
        "2020-12, reference": jsonschema.Draft202012Validator(PART_NEW).is_valid(data),
        "2020-12, fast": jsonschema_rs.Draft202012Validator(PART_NEW).is_valid(data),
        "draft-07, reference": jsonschema.Draft7Validator(PART).is_valid(data),
        "draft-07, independent": accepts(is_part_file(), data),
    }
    assert verdicts == dict.fromkeys(verdicts, good)


@pytest.mark.parametrize(("text", "good"), PARTS, ids=lambda value: str(value)[:60])
def test_the_program_takes_and_refuses_the_same_parts(text: str, good: bool, tmp_path: Path) -> None:
    from coaxwright.design import NotUnderstood
    from coaxwright.reviewing.reading import read_design

    (tmp_path / "a.coax.yaml").write_text(HEAD + "includes: [a.coax-part.yaml]\n", encoding="utf-8")
    (tmp_path / "a.coax-part.yaml").write_text(text + "\n", encoding="utf-8")
    (tmp_path / "b.coax-part.yaml").write_text("coaxwright part: 1\n", encoding="utf-8")
    try:
        read_design(tmp_path / "a.coax.yaml", "a.coax.yaml")
    except NotUnderstood:
        assert not good
    else:
        assert good


OF_PARTS = [
    (text, good) for texts, good in ((GOOD, True), (BAD, False)) for text in texts if text.partition(":")[0] in
    PART["properties"]
]  # fmt: skip


@pytest.mark.parametrize(("text", "good"), OF_PARTS, ids=lambda value: str(value)[:70])
def test_a_section_is_the_same_in_a_part_and_in_a_design(text: str, good: bool) -> None:
    data = data_of(f"coaxwright part: 1\n{text}\n")
    assert accepts(is_part_file(), data) is good
    assert jsonschema_rs.Draft202012Validator(PART_NEW).is_valid(data) is good
    part = read_text(f"coaxwright part: 1\n{text}\n", "x")
    assert [*_header_problems(part)] == []
    document = as_design(part)
    _restore_written_texts(document)
    assert is_design(document.data) is good


def test_the_example_parts_are_parts_in_an_editor() -> None:
    paths = sorted((TOP / "examples").rglob("*.coax-part.yaml"))
    assert len(paths) > 1
    for path in paths:
        assert accepts(is_part_file(), read_file(path, path.name).data)


def fields(node: Any, path: str = "") -> Iterator[tuple[str, dict[str, Any]]]:
    """Every field of a schema with its own."""
    if isinstance(node, dict):
        for name, child in node.get("properties", {}).items() if "if" not in node else ():
            if isinstance(child, dict) and "const" not in child:
                yield f"{path}.{name}", child
        for key, child in node.items():
            if key in {"definitions", "properties"}:
                for name, inner in child.items():
                    yield from fields(inner, f"{path}.{name}")
            elif key not in {"allOf", "if", "then", "else", "propertyNames"}:
                yield from fields(child, path)


@pytest.mark.parametrize("twin", [DESIGN, PART], ids=["design", "part"])
def test_every_field_has_a_text_for_hovering(twin: dict[str, Any]) -> None:
    found = list(fields(twin))
    assert len(found) > 100
    assert [path for path, field in found if not field.get("description")] == []


@pytest.mark.parametrize("twin", [DESIGN, PART], ids=["design", "part"])
def test_every_value_has_something_to_complete(twin: dict[str, Any]) -> None:
    """Words to choose from, or examples of how a quantity is written; free words and tags are the author's own."""

    def helps(field: dict[str, Any]) -> bool:
        if field.get("type") == "string":
            return "enum" in field or bool(field.get("examples"))
        return True

    assert [path for path, field in fields(twin) if not helps(field)] == []


def test_each_kind_says_what_it_is_and_which_fields_it_has() -> None:
    for name in ("device", "bonditem"):
        part = DESIGN["definitions"][name]
        kinds = set(part["properties"]["kind"]["enum"])
        conditions = ((one["if"]["properties"]["kind"], one["then"]) for one in part["allOf"])
        branches = {
            kind: then for condition, then in conditions for kind in condition.get("enum", [condition.get("const")])
        }
        assert set(branches) == kinds
        for kind, then in branches.items():
            assert then["description"], kind
            assert set(then["propertyNames"]["enum"]) <= set(part["properties"]), kind
