"""The schemas take former words and mark them; what we tell of a mistake names the present ones alone."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from coaxwright.design import NotUnderstood, understand, understand_drawn
from coaxwright.design.contract import committed_schema
from coaxwright.design.former_schema import present_only
from coaxwright.design.schema import design_schema
from coaxwright.source import Drawn, read_text
from coaxwright.source.former_words import ANY, Place
from coaxwright.source.former_words.tables import DESIGN_PLACES, RULESET_PLACES

TOP = Path(__file__).parents[3]
HEAD = "coaxwright: 1\ntitle: x (invented)\nbasis: {rulesets: [trade 1]}\n"
CONFORMING = (TOP / "tests" / "conformance" / "data" / "designs_former_words.txt").read_text(encoding="utf-8")


def shapes(schema: Any, whole: Any) -> list[Any]:
    """A schema, followed through references, choices and what holds for a kind alone."""
    if "$ref" in schema:
        return shapes(whole["$defs"][schema["$ref"].rpartition("/")[2]], whole)
    inner = [part for part in schema.get("allOf", ()) if "$ref" in part or "then" in part]
    inner += [schema[key] for key in ("then", "else") if key in schema]
    return [schema, *(shape for part in inner for shape in shapes(part, whole))]


def at(schema: Any, whole: Any, steps: tuple[str, ...]) -> list[Any]:
    """The schemas of what stands at a way."""
    found = shapes(schema, whole)
    for step in steps:
        below = [shape.get("properties", {}).get(step) for shape in found]
        if step == ANY:
            below += [shape.get(key) for shape in found for key in ("items", "additionalProperties")]
        found = [shape for inner in below if isinstance(inner, dict) for shape in shapes(inner, whole)]
    return found


OF_SECTIONS = [place for place in DESIGN_PLACES if place.at[:1] != ("catalogue",)]


@pytest.mark.parametrize("place", OF_SECTIONS, ids=lambda place: "/".join((*place.at, *place.words)))
def test_the_schema_marks_each_former_word(place: Place) -> None:
    schema = design_schema()
    found = at(schema, schema, place.at)
    for old, new in place.words.items():
        if place.of_keys:
            marked = [shape["properties"][old] for shape in found if old in shape.get("properties", ())]
        else:
            marked = [
                part["then"]
                for shape in found
                for part in shape.get("allOf", ())
                if part.get("if", {}).get("const") == old and {old, new} <= set(shape["enum"])
            ]
        assert marked, (old, new)
        assert all(mark["deprecated"] is True and repr(new) in mark["description"] for mark in marked)


def test_without_its_former_words_it_is_the_schema_of_the_present_ones() -> None:
    whole = json.loads(json.dumps(design_schema()), object_hook=present_only)
    wanted = design_schema(with_former_words=False)
    for name in ("device", "bonditem", "devicechange", "bonditemchange"):
        for part in whole["$defs"][name]["allOf"]:
            condition = part["if"]["properties"]["kind"]
            if "enum" in condition:  # the former kind may stand in a condition, which nobody is told
                part["if"]["properties"]["kind"] = {"const": condition["enum"][0]}
    assert whole == json.loads(json.dumps(wanted))


@pytest.mark.parametrize(
    "text", [line for line in CONFORMING.splitlines() if not line.startswith(("draws in", "units"))]
)
def test_a_design_in_former_words_is_understood(text: str) -> None:
    understand(read_text(HEAD + text + "\n", "x"))


def told(text: str) -> list[str]:
    with pytest.raises(NotUnderstood) as error:
        understand(read_text(HEAD + text + "\n", "x"))
    return [str(problem) for problem in error.value.problems]


def test_messages_name_the_present_words_alone() -> None:
    former = {old for place in DESIGN_PLACES for old in place.words}
    schema = json.dumps(committed_schema()["$defs"]["raceway"])
    assert not [word for word in former if f'"{word}"' in schema]
    (message,) = told("devices: {D: {kind: srvice drop}}")
    assert message.endswith("'srvice drop' is not a known kind; did you mean 'coax drop'?")
    (message,) = told("raceways: {R: {kind: pipe}}")
    assert "rigid PVC conduit" in message
    assert "plastic" not in message


@pytest.mark.parametrize(
    ("text", "said"),
    [
        (
            "cables: {C: {from: A, to: B, type: s, colour: red, color: red}}",
            "4:39: 'colour' stands beside 'color', its name now; leave one of them out",
        ),
        ("devices: {S: {kind: splitter, ways: 2, variant: analogue}}", "4:49: 'analogue' is not a known variant"),
        ("bonding: {I: {kind: intersystem termination}}", "4:11: I (intersystem bonding termination) has no 'place'"),
    ],
)
def test_a_mistake_beside_a_former_word_is_told_where_it_is(text: str, said: str) -> None:
    (message,) = told(text)
    assert message.startswith(f"x:{said}")


def test_what_differs_in_a_unit_may_be_in_former_words_too() -> None:
    """The word of a filter is told from that of a splitter by the kind that the typical unit states."""
    typical = "typical: {t: {devices: {F: {kind: filter, variant: mobile band}, S: {kind: splitter, ways: 2}}}}\n"
    units = "units: {u: {like: t, but: {devices: {F: {variant: in-home data}, S: {variant: in-home data}}}}}"
    design = understand(read_text(HEAD + typical + units + "\n", "x"))
    assert {tag: device.variant for tag, device in design.devices.items()} == {
        "u/F": "point-of-entry",
        "u/S": "in-home data",
    }


def test_a_typical_unit_may_stand_in_another_file_than_its_units() -> None:
    part = "coaxwright part: 1\ntypical: {t: {devices: {F: {kind: filter, variant: mobile band}}}}\n"
    main = HEAD + "draws in: [p]\nunits: {u: {like: t, but: {devices: {F: {variant: in-home data}}}}}\n"
    together = understand_drawn(Drawn(read_text(main, "x"), (read_text(part, "p"),)))
    design = understand(together)
    assert design.devices["u/F"].variant == "point-of-entry"
    assert design.includes == ["p"]
    span = together.span(("includes",), of_key=True)
    assert main[span.start.index : span.end.index] == "draws in"


def test_the_page_of_the_formats_lists_every_former_word() -> None:
    page = (TOP / "docs" / "reference" / "format-versions.md").read_text(encoding="utf-8")
    of_rules = [place for place in RULESET_PLACES if place.at[-1] != "**"]
    missing = {
        (old, new)
        for place in (*DESIGN_PLACES, *of_rules)
        for old, new in place.words.items()
        if f"`{old}`" not in page or f"`{new}`" not in page
    }
    assert {pair for pair in missing if not pair[0].endswith("dB equaliser")} == set()
