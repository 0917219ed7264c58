"""The shipped data: valid against the schema, sourced figure by figure, and what other rooms expect of it."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any

import jsonschema
import pytest
import yaml

import coaxwright.catalogue
from coaxwright.catalogue import load_catalogue
from coaxwright.catalogue.measures import CapacitancePerLength, Percent, ResistancePerLength, TransferImpedance
from coaxwright.design.quantities import (
    Band,
    Decibels,
    Frequency,
    Impedance,
    Length,
    LossPerLength,
    Quantity,
    Temperature,
    TemperatureRange,
    WireSize,
)

CATALOGUE = load_catalogue()
DATA = Path(coaxwright.catalogue.__file__).parent / "data"
SCHEMA = json.loads((Path(__file__).parents[3] / "schemas" / "catalogue-1.schema.json").read_text(encoding="utf-8"))
VALIDATOR = jsonschema.Draft202012Validator(SCHEMA)
FILES = {path.name: yaml.safe_load(path.read_text(encoding="utf-8")) for path in sorted(DATA.rglob("*.yaml"))}


def entries(part: str) -> list[tuple[str, Mapping[str, Any]]]:
    return [(name, entry) for file in FILES.values() for name, entry in file.get(part, {}).items()]


def test_the_schema_is_valid() -> None:
    jsonschema.Draft202012Validator.check_schema(SCHEMA)


def test_every_field_of_the_schema_is_described() -> None:
    def undescribed(node: object, path: str) -> list[str]:
        if isinstance(node, list):
            return [miss for index, item in enumerate(node) for miss in undescribed(item, f"{path}/{index}")]
        if not isinstance(node, dict):
            return []
        fields = {**node.get("properties", {}), **node.get("$defs", {})} if "type" in node or "$defs" in node else {}
        missing = [f"{path}/{name}" for name, field in fields.items() if "description" not in field]
        return missing + [miss for name, item in node.items() for miss in undescribed(item, f"{path}/{name}")]

    assert undescribed(SCHEMA, "") == []


@pytest.mark.parametrize("name", FILES)
def test_shipped_files_are_valid(name: str) -> None:
    VALIDATOR.validate(FILES[name])


@pytest.mark.parametrize(
    ("definition", "quantity"),
    [
        ("impedance", Impedance),
        ("percent", Percent),
        ("capacitance", CapacitancePerLength),
        ("resistance", ResistancePerLength),
        ("length", Length),
        ("temperature", Temperature),
        ("frequency", Frequency),
        ("attenuation-figure", LossPerLength),
        ("band", Band),
        ("decibels", Decibels),
        ("temperature-range", TemperatureRange),
        ("conductor-size", WireSize),
        ("transfer-impedance", TransferImpedance),
    ],
)
def test_schema_and_parser_accept_the_same_quantities(definition: str, quantity: type[Quantity]) -> None:
    written = {name: value for name, value in SCHEMA["$defs"][definition].items() if name != "description"}
    assert written == quantity.schema()


def test_a_mistyped_field_is_not_valid() -> None:
    wrong = {"edition": 1, "sources": {}, "jackets": {"indoor": {"description": "x", "resist sun": True}}}
    with pytest.raises(jsonschema.ValidationError):
        jsonschema.validate(wrong, SCHEMA, cls=jsonschema.Draft202012Validator)


def source_tables(node: object) -> Iterator[Mapping[str, str]]:
    if isinstance(node, dict):
        for name, inner in node.items():
            if name == "sources":
                yield inner
            else:
                yield from source_tables(inner)
    elif isinstance(node, list):
        for inner in node:
            yield from source_tables(inner)


def test_every_source_is_used() -> None:
    for name, file in FILES.items():
        used = {
            key
            for part in ("classes", "jackets", "devices", "screening classes")
            for entry in file.get(part, {}).values()
            for table in source_tables(entry)
            for key in table.values()
        }
        assert used == set(file["sources"]), name


@pytest.mark.parametrize(
    ("name", "entry"), entries("classes"), ids=lambda value: value if isinstance(value, str) else ""
)
def test_every_figure_of_a_class_has_a_source(name: str, entry: Mapping[str, Any]) -> None:
    figures = set(entry) - {"description", "hints", "also", "usual", "existing only", "sources", "jackets", "centers"}
    figures |= {"spread", "outer diameter"} | set(entry["centers"])
    if "beyond" in entry["attenuation"]:
        figures |= {"beyond", "beyond spread"}
    if any("resistance" in shield for shield in entry["shields"].values()):
        figures.add("shield resistance")
    assert set(entry["sources"]) == figures


def test_every_property_of_a_jacket_has_a_source() -> None:
    for jacket in CATALOGUE.jackets.values():
        assert set(jacket.sources) == {"us mark", "resists sun and wet", "burial-rated"}


def test_jackets_combine_both_ways() -> None:
    for jacket in CATALOGUE.jackets.values():
        for other in jacket.combines_with:
            assert jacket.name in CATALOGUE.jackets[other].combines_with


def test_defaults_are_the_poorest_of_each_class() -> None:
    for name, entry in entries("classes"):
        assert entry["defaults"]["shield"] == next(iter(entry["shields"])), name
        assert entry["defaults"]["center"] == next(iter(entry["centers"])), name
        assert entry["defaults"]["jacket"] == entry["jackets"][0], name


def test_every_table_can_be_read() -> None:
    for entry in CATALOGUE.every_class.values():
        low, nominal, high = entry.attenuation.loss_db_per_m(entry.attenuation.highest_hz)
        assert 0 < low <= nominal <= high


def test_the_two_tables_of_a_class_join_without_a_step() -> None:
    for entry in CATALOGUE.every_class.values():
        if entry.attenuation.beyond is not None:
            edge_hz = entry.attenuation.highest_published_hz
            at_edge = entry.attenuation.loss_db_per_m(edge_hz).nominal_db_per_m
            above = entry.attenuation.loss_db_per_m(edge_hz * 1.00001).nominal_db_per_m
            assert above == pytest.approx(at_edge, rel=1e-4)


def test_the_usual_classes_are_for_new_work() -> None:
    assert list(CATALOGUE.classes) == ["series 59", "series 6", "series 11", "59-type", "10 mm 50 ohm low-loss"]
    assert [entry.name for entry in CATALOGUE.every_class.values() if entry.existing_only] == ["legacy aerial coax"]


def test_bends_and_temperatures_are_possible() -> None:
    for entry in CATALOGUE.every_class.values():
        thickest_m = max(shield.outer_diameter_m or 0 for shield in entry.shields.values())
        assert entry.bend_radius_m is not None
        assert entry.bend_radius_m >= 2 * thickest_m, entry.name
        assert entry.flexing_radius_m is None or entry.flexing_radius_m > entry.bend_radius_m
        if entry.coldest_c is not None and entry.hottest_c is not None:
            assert entry.coldest_c < 0 < 60 < entry.hottest_c


def test_warm_cable_loses_more() -> None:
    attenuation = CATALOGUE.classes["series 6"].attenuation
    at_table = attenuation.loss_db_per_m(5e8)
    assert attenuation.loss_db_per_m(5e8, temperature_c=20) == at_table
    assert attenuation.loss_db_per_m(5e8, temperature_c=55).nominal_db_per_m > at_table.nominal_db_per_m


def test_source_lines() -> None:
    sources = CATALOGUE.classes["series 6"].sources
    assert sources["attenuation"].line == (
        "ANSI/SCTE 74, 2003 and 2011, table of maximum attenuation at 68 \N{DEGREE SIGN}F (memory)"
    )
    assert sources["defaults"].line == "common practice, no source"


def test_a_folder_of_the_same_name_in_the_working_directory_is_not_read(tmp_path: Path) -> None:
    (tmp_path / "data").mkdir()
    (tmp_path / "data" / "cables.yaml").write_text("edition: 99\n", encoding="utf-8")
    script = "from coaxwright.catalogue import load_catalogue; print(load_catalogue().edition)"
    package_root = str(Path(coaxwright.catalogue.__file__).parents[2])
    run = subprocess.run(
        [sys.executable, "-c", script],
        cwd=tmp_path,
        env={**os.environ, "PYTHONPATH": package_root},
        capture_output=True,
        text=True,
        check=True,
    )
    assert run.stdout.strip() == "1"
