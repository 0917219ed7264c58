"""Every hazard that is on the drawing has its caution in every form that carries cautions: hazard.caution-shown."""

from __future__ import annotations

import re
from itertools import combinations
from pathlib import Path

import pytest

from coaxwright.cli.forms import Form, Paper, rendered
from coaxwright.reviewing import Review, judge, review
from coaxwright.rules import shipped_registry
from coaxwright.source import read_text

ROOT = Path(__file__).parents[3]
WITH_CAUTIONS = [
    Form(name)
    for name, answer in re.findall(
        r"^\| `([^`]+)` \| .* \| (yes|no) \|$",
        (ROOT / "docs" / "reference" / "outputs.md").read_text(encoding="utf-8"),
        re.MULTILINE,
    )
    if answer == "yes"
]
PLAIN = {"places": ["room: {}"], "devices": ["SP1: {kind: splitter, ways: 2, place: room}"]}
HAZARDS: dict[str, tuple[dict[str, list[str]], set[str]]] = {
    "work on a roof": ({"places": ["roof: {exposure: rooftop}"]}, {"height"}),
    "an antenna on a mast": ({"devices": ["ANT-2: {kind: antenna, place: room, mast: {}}"]}, {"power-lines", "height"}),
    "a span over a driveway": (
        {
            "places": ["way: {exposure: outdoors}"],
            "devices": ["SP3: {kind: splitter, ways: 2, place: way}", "SP4: {kind: splitter, ways: 2, place: way}"],
            "cables": [
                "C-2: {from: SP3, to: SP4, type: series 6 messenger, route: [way: {length: 9 m, over: driveway}]}"
            ],
        },
        {"height"},
    ),
    "an antenna": ({"devices": ["ANT: {kind: antenna, place: room}"]}, {"power-lines"}),
    "a dish": ({"devices": ["DISH: {kind: dish, place: room}"]}, {"power-lines"}),
    "a power drop beside a wall": (
        {"places": ["wall: {exposure: outdoors, beside: power drop at 3 ft}"]},
        {"power-lines"},
    ),
    "a power line beside a cable": (
        {
            "places": ["yard: {exposure: outdoors}"],
            "devices": ["SP2: {kind: splitter, ways: 2, place: room}"],
            "cables": [
                "C-1: {from: SP1, to: SP2, type: series 6 outdoor,"
                " route: [yard: {length: 9 m, beside: [{what: overhead power line}]}]}"
            ],
        },
        {"power-lines", "bonding"},
    ),
    "a buried run": ({"places": ["garden: {exposure: buried}"]}, {"digging"}),
    "a rod to be driven": ({"bonding": ["ROD: {kind: ground rod, place: room}"]}, {"digging", "bonding"}),
    "a bond": (
        {"bonding": ["IBT: {kind: intersystem bonding termination, place: room, electrode: service}"]},
        {"bonding"},
    ),
    "a ground block": ({"devices": ["GB1: {kind: ground block, place: room}"]}, {"bonding"}),
}


def reviewed(ruleset: str, *hazards: str) -> Review:
    sections: dict[str, list[str]] = {key: list(lines) for key, lines in PLAIN.items()}
    for hazard in hazards:
        for key, lines in HAZARDS[hazard][0].items():
            sections.setdefault(key, []).extend(lines)
    body = "".join(f"{key}:\n" + "".join(f"  {line}\n" for line in lines) for key, lines in sections.items())
    text = f"coaxwright: 1\ntitle: Bench (invented)\nbasis: {{rulesets: [{ruleset}]}}\n{body}"
    return Review((judge(read_text(text, "bench.coax.yaml"), shipped_registry()),))


@pytest.mark.parametrize("ruleset", ["trade 1", "us 2017", "us 2020", "us 2023"])
@pytest.mark.parametrize("hazard", HAZARDS)
def test_a_hazard_calls_for_its_caution_and_for_no_other(hazard: str, ruleset: str) -> None:
    names = {caution.name for caution in reviewed(ruleset, hazard).designs[0].cautions}
    assert names == HAZARDS[hazard][1] | {"local-codes"}


def test_a_drawing_without_a_hazard_has_the_general_caution_alone() -> None:
    assert [caution.name for caution in reviewed("us 2023").designs[0].cautions] == ["local-codes"]


@pytest.mark.parametrize("hazards", list(combinations(HAZARDS, 2)), ids=" and ".join)
def test_two_hazards_have_the_cautions_of_both(hazards: tuple[str, ...]) -> None:
    names = {caution.name for caution in reviewed("us 2023", *hazards).designs[0].cautions}
    assert names == {"local-codes"}.union(*(HAZARDS[hazard][1] for hazard in hazards))


@pytest.mark.parametrize("form", WITH_CAUTIONS)
def test_every_form_with_cautions_has_each_in_full(form: Form) -> None:
    made = reviewed("us 2023", *HAZARDS)
    assert len(made.designs[0].cautions) == 5
    text = rendered(form, made, Paper(1000))
    for caution in made.designs[0].cautions:
        assert caution.text in text


@pytest.mark.parametrize("form", WITH_CAUTIONS)
@pytest.mark.parametrize("site", sorted((ROOT / "examples").glob("*/*.coax.yaml")), ids=lambda path: path.parent.name)
def test_the_example_sites_carry_theirs(site: Path, form: Form) -> None:
    made = review([site])
    assert {"power-lines", "height", "bonding"} & {caution.name for caution in made.designs[0].cautions}
    text = rendered(form, made, Paper(1000))
    assert [caution.name for caution in made.designs[0].cautions if caution.text not in text] == []


def test_the_forms_that_people_take_along_are_among_them() -> None:
    assert {Form.TEXT, Form.NOTICE, Form.CHECKLIST} <= set(WITH_CAUTIONS)
