"""The committed schemas are JSON Schemas of their drafts, and everyone who reads them accepts the same designs.

Sources: JSON Schema 2020-12 (draft-bhutton-json-schema-01, 2022) and draft-07
(draft-handrews-json-schema-01, 2018); the metaschemas are those that the reference validator ships.
"""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import jsonschema
import jsonschema_rs
import pytest
from pydantic import ValidationError

from coaxwright.design.contract import is_design, mistakes
from coaxwright.design.explain import problems
from coaxwright.design.schema_files import DESIGN_SCHEMA, DESIGN_SCHEMA_DRAFT_07
from coaxwright.design.understand import _restore_written_texts
from coaxwright.design.units.model import DesignFile
from coaxwright.source import read_text
from coaxwright.source.former_words import DESIGN_WORDS, with_present_words

SCHEMAS = Path(__file__).parents[2] / "schemas"
DATA = Path(__file__).parent / "data"


def committed(name: str) -> dict[str, Any]:
    schema = json.loads((SCHEMAS / name).read_text(encoding="utf-8"))
    assert isinstance(schema, dict)
    return schema


MODERN, OLDER = committed(DESIGN_SCHEMA), committed(DESIGN_SCHEMA_DRAFT_07)


def test_each_schema_keeps_to_its_metaschema() -> None:
    jsonschema.Draft202012Validator.check_schema(MODERN)
    jsonschema.Draft7Validator.check_schema(OLDER)
    jsonschema_rs.meta.validate(MODERN)
    jsonschema_rs.meta.validate(OLDER)
    assert MODERN["$schema"] == jsonschema.Draft202012Validator.META_SCHEMA["$id"]
    assert OLDER["$schema"] == jsonschema.Draft7Validator.META_SCHEMA["$id"]


def keywords(schema: object) -> Iterator[str]:
    if isinstance(schema, dict):
        for key, value in schema.items():
            yield key
            yield from (
                (word for part in value.values() for word in keywords(part))
                if key
                in {
                    "properties",
                    "definitions",
                    "$defs",
                }
                else keywords(value)
                if key not in {"enum", "const", "default", "examples"}
                else ()
            )
    elif isinstance(schema, list):
        for part in schema:
            yield from keywords(part)


def test_the_draft_07_twin_uses_no_later_keyword() -> None:
    later = {"$defs", "$anchor", "$dynamicRef", "dependentRequired", "dependentSchemas", "unevaluatedProperties",
             "unevaluatedItems", "prefixItems", "minContains", "maxContains", "$recursiveRef"}  # fmt: skip
    assert "definitions" in set(keywords(OLDER))
    assert not later & set(keywords(OLDER))


def test_a_reference_stands_alone_as_draft_07_wants_it() -> None:
    def lonely(schema: object) -> bool:
        if isinstance(schema, dict):
            return (set(schema) == {"$ref"} if "$ref" in schema else True) and all(map(lonely, schema.values()))
        return all(map(lonely, schema)) if isinstance(schema, list) else True

    assert lonely(OLDER)


HEAD = "coaxwright: 1\ntitle: x\nbasis: {rulesets: [us 2023]}\n"
# The same design parts, one field after another: what every field takes and what it does not.
GOOD = (DATA / "designs_good.txt").read_text(encoding="utf-8").splitlines()
BAD = (DATA / "designs_bad.txt").read_text(encoding="utf-8").splitlines()
FORMER = (DATA / "designs_former_words.txt").read_text(encoding="utf-8").splitlines()
BOTH_WORDS = (DATA / "designs_former_words_bad.txt").read_text(encoding="utf-8").splitlines()


def is_valid_model(data: object) -> bool:
    try:
        DesignFile.model_validate(data)
    except ValidationError:
        return False
    return True


def exact(validator: type[Any]) -> type[Any]:
    """With a ``$`` that ends the text, as ECMA 262 has it; Python's also matches before a last line break."""

    def pattern(_: Any, pattern: str, instance: object, __: Any) -> Iterator[jsonschema.ValidationError]:
        import re

        if isinstance(instance, str) and not re.search(
            pattern.removesuffix("$") + r"\Z" * pattern.endswith("$"), instance
        ):
            yield jsonschema.ValidationError("pattern")

    extended: type[Any] = jsonschema.validators.extend(validator, {"pattern": pattern})
    return extended


@pytest.mark.parametrize(
    ("text", "good"),
    [*((text, True) for text in (*GOOD, *FORMER)), *((text, False) for text in (*BAD, *BOTH_WORDS))],
    ids=lambda value: str(value)[:70],
)
def test_all_who_judge_agree(text: str, good: bool) -> None:
    """The schemas take a file as it is written; the program, its data in the present words."""
    as_written, document = (read_text(HEAD + text + "\n", "x") for _ in range(2))
    with_present_words(document, DESIGN_WORDS)
    for read in (as_written, document):
        _restore_written_texts(read)
    data, present = as_written.data, document.data
    verdicts = {
        "2020-12, reference": exact(jsonschema.Draft202012Validator)(MODERN).is_valid(data),
        "2020-12, fast": jsonschema_rs.Draft202012Validator(MODERN).is_valid(data),
        "draft-07, reference": exact(jsonschema.Draft7Validator)(OLDER).is_valid(data),
        "draft-07, fast": jsonschema_rs.Draft7Validator(OLDER).is_valid(data),
        "the program": is_design(present),
        "the program's explainer": next(mistakes(present), None) is None,
        "the model": is_valid_model(present),
    }
    assert verdicts == dict.fromkeys(verdicts, good)
    assert len(problems(document)) == (0 if good else 1)


@pytest.mark.parametrize(
    ("rulesets", "good"),
    [
        ("[us 2023, firm/house.coax-ruleset.yaml], catalogues: [stock.coax-catalogue.yaml], country: US", True),
        ("[my rules.coax-ruleset.yaml], authority: the town", True),
        ("[house.yaml]", False),
        ("[us 2023], catalogues: [stock.yaml]", False),
        ("[us 2023], catalogues: []", False),
    ],
)
def test_all_who_judge_agree_on_the_basis(rulesets: str, good: bool) -> None:
    data = read_text(f"coaxwright: 1\ntitle: x\nbasis: {{rulesets: {rulesets}}}\n", "x").data
    verdicts = [
        exact(jsonschema.Draft202012Validator)(MODERN).is_valid(data),
        jsonschema_rs.Draft7Validator(OLDER).is_valid(data),
        is_design(data),
        is_valid_model(data),
    ]
    assert verdicts == [good] * 4


def test_the_corpus_covers_every_field_and_kind() -> None:
    text = "\n".join((*GOOD, *FORMER))
    fields = {key for part in MODERN["$defs"].values() for key in part["properties"]}
    kinds = {
        kind
        for name in ("device", "bonditem", "service")
        for kind in MODERN["$defs"][name]["properties"]["kind"]["enum"]
    }
    assert [
        key for key in fields if f"{key}: " not in text and key not in {"rulesets", "authority", "catalogues"}
    ] == []
    assert [kind for kind in kinds if f"kind: {kind}" not in text] == []
