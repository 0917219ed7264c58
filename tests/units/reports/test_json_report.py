from __future__ import annotations

import importlib
import json
from collections.abc import Iterator
from contextlib import chdir
from copy import deepcopy
from dataclasses import replace
from pathlib import Path
from typing import Any

import jsonschema
import pytest

from coaxwright.checks import Verdict, all_checks
from coaxwright.findings import Outcome
from coaxwright.reports.json_report import render, write
from coaxwright.reviewing import Review, review
from coaxwright.rules import Severity

ROOT = Path(__file__).parents[3]
TERN = ROOT / "examples" / "tern-cottage"
SCHEMA = json.loads((ROOT / "schemas" / "review-1.schema.json").read_text(encoding="utf-8"))
VALIDATOR = jsonschema.Draft202012Validator(SCHEMA)
HIDDEN = "\N{RIGHT-TO-LEFT OVERRIDE}\N{LINE SEPARATOR}\x7f\x9b"


def tern(name: str = "as-drawn") -> str:
    return (TERN / f"{name}.coax.yaml").read_text(encoding="utf-8")


def reviewed(folder: Path, text: str, returns_at: Severity = Severity.DEFICIENCY) -> Review:
    (folder / "a.coax.yaml").write_text(text, encoding="utf-8")
    with chdir(folder):
        return review(["a.coax.yaml"], returns_at=returns_at, with_amendments=True)


def failing(*_: object) -> Iterator[Verdict]:
    raise ZeroDivisionError("division by zero")


@pytest.fixture(scope="module")
def reviews(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Review]:
    folder = tmp_path_factory.mktemp("site")
    made = {
        "clear": reviewed(folder, tern("corrected")),
        "returned": reviewed(folder, tern()),
        "advice returns": reviewed(folder, tern(), Severity.ADVICE),
        "not understood": reviewed(folder, tern() + "color: red\n"),
        "nothing": Review(()),
    }
    with chdir(folder):
        made["no file"] = review(["missing.coax.yaml"])
    broken = dict(all_checks())
    broken["cable.run-length"] = replace(broken["cable.run-length"], judge=failing)
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(importlib.import_module("coaxwright.rules.combine"), "all_checks", lambda: broken)
        made["crashed"] = reviewed(folder, tern())
    made["mixed"] = Review((*made["clear"].designs, *made["not understood"].designs, *made["returned"].designs))
    person = replace(made["returned"].designs[0].findings[0], outcome=Outcome.NEEDS_A_PERSON)
    design = replace(made["returned"].designs[0], findings=(person,), returns_at=Severity.ADVICE)
    made["a person"] = Review((design,))
    return made


@pytest.fixture(scope="module")
def outputs(reviews: dict[str, Review]) -> dict[str, Any]:
    return {name: json.loads(render(one)) for name, one in reviews.items()}


def test_the_schema_keeps_to_its_metaschema() -> None:
    jsonschema.Draft202012Validator.check_schema(SCHEMA)
    assert SCHEMA["$schema"] == jsonschema.Draft202012Validator.META_SCHEMA["$id"]


def test_the_schema_describes_and_requires_every_property() -> None:
    objects = list(objects_of(SCHEMA))
    for schema in objects:
        assert schema["additionalProperties"] is False
        assert schema["required"] == list(schema["properties"])
        assert all(entry["description"] for entry in schema["properties"].values())
    assert len(objects) > 20


def objects_of(schema: object) -> Iterator[dict[str, Any]]:
    """The schemas of whole objects; what stands under if and then only narrows one."""
    if isinstance(schema, dict):
        if "object" in schema.get("type", ""):
            yield schema
        for key, value in schema.items():
            if key != "allOf":
                yield from objects_of(value)


def test_every_output_keeps_to_the_schema(outputs: dict[str, Any]) -> None:
    mistakes = {
        name: [f"{error.json_path}: {error.message}" for error in VALIDATOR.iter_errors(output)]
        for name, output in outputs.items()
    }
    assert {name: found for name, found in mistakes.items() if found} == {}
    results = {name: (output["result"], output["exit status"]) for name, output in outputs.items()}
    assert results == {
        "clear": ("clear", 0),
        "returned": ("returned", 1),
        "advice returns": ("returned", 1),
        "not understood": ("not understood", 2),
        "nothing": ("incomplete", 3),
        "no file": ("not understood", 2),
        "crashed": ("incomplete", 3),
        "mixed": ("not understood", 2),
        "a person": ("clear", 0),
    }


@pytest.mark.parametrize(
    ("path", "value", "mistake"),
    [
        (("result",), "approved", "enum"),
        (("exit status",), 0, "const"),
        (("time",), "now", "additionalProperties"),
        (("designs", 0, "result"), "clear", "const"),
        (("designs", 0, "findings", 0, "severity"), "error", "enum"),
        (("designs", 0, "findings", 0, "outcome"), "met", "enum"),
        (("designs", 0, "findings", 0, "place", "line"), 0, "minimum"),
        (("designs", 0, "findings", 0, "fingerprint"), "x", "pattern"),
        (("designs", 0, "findings", 0, "sources"), [], "minItems"),
        (("designs", 0, "findings", 0, "rule"), "PLAN-1", "pattern"),
        (("designs", 0, "findings", 0, "remedy"), None, "type"),
        (("designs", 0, "tallies", 0, "met"), 1.5, "type"),
    ],
    ids=str,
)
def test_the_schema_refuses_what_was_tampered_with(
    outputs: dict[str, Any], path: tuple[str | int, ...], value: object, mistake: str
) -> None:
    output = deepcopy(outputs["returned"])
    node = output
    for step in path[:-1]:
        node = node[step]
    node[path[-1]] = value
    assert mistake in {error.validator for error in VALIDATOR.iter_errors(output)}


def test_the_schema_misses_what_was_taken_out(outputs: dict[str, Any]) -> None:
    output = deepcopy(outputs["returned"])
    del output["designs"][0]["findings"][0]["reason"]
    assert [error.message for error in VALIDATOR.iter_errors(output)] == ["'reason' is a required property"]


def test_a_finding_is_told_whole(outputs: dict[str, Any]) -> None:
    findings = outputs["returned"]["designs"][0]["findings"]
    (finding,) = (one for one in findings if one["rule"] == "plan.reference-known")
    place = {"line": 62, "column": 26, "end line": 62, "end column": 32}
    line = "  C-104: {from: SP1, to: KITCHN, type: series 6 tri, route: [closet: 8 ft, kitchen: 31 ft]}"
    assert finding == {
        "fingerprint": finding["fingerprint"],
        "identity": {
            "design": "QH-07/T-1",
            "rule": "plan.reference-known",
            "kind": "cable",
            "subject": "C-104",
            "second": "",
            "facet": "to",
        },
        "rule": "plan.reference-known",
        "title": "Every tag referred to exists",
        "severity": "deficiency",
        "outcome": "not met",
        "returns": True,
        "subject": {"kind": "cable", "tag": "C-104", "second": "", "where": "", "owner": "owner", "state": "new"},
        "instances": [],
        "outstanding": False,
        "new in": [],
        "place": {"file": "a.coax.yaml", **place, "text": line},
        "found": "'KITCHN' is not a device of this design",
        "required": "the tag of a thing that is there",
        "reason": finding["reason"],
        "remedy": "write 'KITCHEN' if that is meant, or add what is missing",
        "sources": [
            {
                "document": "common practice",
                "title": "",
                "edition": "",
                "clause": "",
                "confidence": "common practice",
                "printed": "common practice, no source",
            }
        ],
        "remarks": [],
        "related": [],
        "root": ["cables", "C-104", "to"],
        "amendment": {**place, "written": "KITCHN", "text": "KITCHEN", "changes": []},
        "under variance": None,
        "varied": None,
        "folded under": None,
    }


def test_totals_and_tallies_add_up(outputs: dict[str, Any], reviews: dict[str, Review]) -> None:
    totals = outputs["mixed"]["totals"]
    assert totals["files"] == 3
    assert totals["results"] == {"clear": 1, "returned": 1, "not understood": 1, "incomplete": 0}
    findings = [finding for design in outputs["mixed"]["designs"] for finding in design["findings"]]
    told = sum(totals["not met"].values()) + totals["cannot be judged"] + totals["needs a person"]
    assert told == totals["findings"] == len(findings)
    assert totals["not met"]["violation"] == reviews["mixed"].count(Severity.VIOLATION) > 0
    assert totals["problems"] == 1
    for design in outputs["mixed"]["designs"]:
        for tally in design["tallies"]:
            reported = {
                finding["identity"]["subject"] + finding["identity"]["second"]
                for finding in (*design["findings"], *design["folded"])
                if finding["rule"] == tally["rule"]
            }
            assert tally["not met"] + tally["cannot be judged"] + tally["needs a person"] == len(reported)


def test_what_returns_a_design_depends_on_the_severity_chosen(outputs: dict[str, Any]) -> None:
    def returns(name: str) -> list[bool]:
        return [finding["returns"] for finding in outputs[name]["designs"][0]["findings"]]

    assert False in returns("returned")
    assert False not in returns("advice returns")
    assert outputs["advice returns"]["designs"][0]["returns at"] == "advice"


def test_problems_and_crashes_are_told(outputs: dict[str, Any]) -> None:
    (problem,) = outputs["not understood"]["designs"][0]["problems"]
    assert (problem["line"], problem["column"], problem["end column"]) == (81, 1, 6)
    assert "color" in problem["what"]
    (crash,) = outputs["crashed"]["designs"][0]["crashes"]
    assert crash["rule"] == "cable.run-length"
    assert crash["subject"].startswith("cable C-")
    assert crash["error"] == "ZeroDivisionError: division by zero"


def test_letters_stay_letters_and_what_cannot_be_seen_is_escaped(tmp_path: Path) -> None:
    design = replace(reviewed(tmp_path, tern()).designs[0], title=f'Ω é "q" \\ {HIDDEN}\n\x00')
    text = render(Review((design,)))
    assert '"title": "Ω é \\"q\\" \\\\ \\u202e\\u2028\\u007f\\u009b\\n\\u0000",' in text
    assert json.loads(text)["designs"][0]["title"] == design.title
    assert text.endswith("}\n")


def test_a_file_name_that_is_not_utf_8_gives_a_text_that_is() -> None:
    text = write({"file": "a\udcff.coax.yaml"})
    assert text.encode("utf-8")
    assert json.loads(text) == {"file": "a\N{REPLACEMENT CHARACTER}.coax.yaml"}


def test_no_absolute_path_is_told(reviews: dict[str, Review], tmp_path_factory: pytest.TempPathFactory) -> None:
    base = str(tmp_path_factory.getbasetemp())
    assert [name for name, one in reviews.items() if base in render(one)] == []


def test_the_same_review_gives_the_same_bytes(reviews: dict[str, Review], tmp_path: Path) -> None:
    assert render(reviewed(tmp_path, tern())) == render(reviews["returned"])


@pytest.mark.parametrize("text", ["half \ud800 of a pair", "NaN", "-Infinity", "\x00\x1f\x7f", "é\N{GRINNING FACE}"])
def test_any_text_comes_out_as_the_reference_writer_has_it(text: str) -> None:
    """Halves of a pair are replaced, and what cannot be seen is escaped. Reference: the json module of Python."""
    data = {"a": [text, {"b": 0.1, "c": [], "d": {}}], "e": None, "f": True}
    told = json.loads(write(data))
    assert told == {**data, "a": [text.replace("\ud800", "\N{REPLACEMENT CHARACTER}"), data["a"][1]]}
    assert write({"plain": [1, 2.5]}) == json.dumps({"plain": [1, 2.5]}, indent=2) + "\n"


@pytest.mark.parametrize("number", [float("nan"), float("inf"), float("-inf")])
def test_what_is_no_number_is_refused(number: float) -> None:
    with pytest.raises(ValueError, match="Out of range float values"):
        write({"a": [number]})
