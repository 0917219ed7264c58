"""The levels as data, against their own schema."""

from __future__ import annotations

import json
from collections.abc import Callable

from jsonschema import Draft202012Validator

from coaxwright.reports.levels import SiteLevels
from coaxwright.reports.levels.json_form import render
from coaxwright.shipped import shipped

Levels = Callable[..., SiteLevels]
SCHEMA = json.loads((shipped("schemas") / "levels-1.schema.json").read_text(encoding="utf-8"))


def test_the_schema_is_one_and_closed() -> None:
    Draft202012Validator.check_schema(SCHEMA)
    assert SCHEMA["additionalProperties"] is False
    assert all(part.get("additionalProperties") is False for part in SCHEMA["$defs"].values() if "properties" in part)


def test_every_design_is_as_the_schema_says(design: str, levels: Levels) -> None:
    data = json.loads(render(levels(design)))
    assert [error.message for error in Draft202012Validator(SCHEMA).iter_errors(data)] == []


def test_the_schema_refuses_what_is_not_there(levels: Levels) -> None:
    data = json.loads(render(levels("house")))
    del data["services"][0]["outlets"][0]["points"][0]["spare_db"]
    assert [error.message for error in Draft202012Validator(SCHEMA).iter_errors(data)] == [
        "'spare_db' is a required property"
    ]


def test_every_unit_is_written_out(levels: Levels) -> None:
    data = json.loads(render(levels("flats")))
    outlets = data["services"][0]["outlets"]
    assert len(outlets) == 26
    assert {outlet["unit"] for outlet in outlets} == {f"flat-{number:02}" for number in range(1, 14)}


def test_losses_of_the_chain_add_up_to_the_loss_and_the_level(levels: Levels) -> None:
    for service in json.loads(render(levels("house")))["services"]:
        for outlet in service["outlets"]:
            for index, point in enumerate(outlet["points"]):
                lost_db = sum(step["losses_db"][index] for step in outlet["chain"])
                assert abs(lost_db - point["loss_db"]["nominal"]) < 0.001


def test_what_is_left_out_is_named(levels: Levels) -> None:
    data = json.loads(render(levels("gaps")))
    assert [left["service"] for left in data["left_out"]] == ["eye", "phone"]
    points = {outlet["outlet"]: outlet["points"] for outlet in data["services"][0]["outlets"]}
    assert points["LOST"] == []
    assert points["BED"][0]["level_dbmv"] is points["BED"][0]["loss_db"] is None
    assert points["DEN"][0]["level_dbmv"] is None
    assert points["DEN"][0]["loss_db"]["nominal"] > 0
