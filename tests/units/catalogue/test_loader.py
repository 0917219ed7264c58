from __future__ import annotations

import copy
from pathlib import Path
from typing import Any

import pytest
import yaml

from coaxwright.catalogue import CatalogueError, loader, read_catalogue
from coaxwright.errors import CoaxwrightError

FIRM = yaml.safe_load("""
edition: 3
sources:
  sheet: {document: a data sheet, confidence: found}
jackets:
  indoor: {description: d, resists sun and wet: false, burial-rated: false, us mark: CATV, combines with: [],
           sources: {us mark: sheet}}
classes:
  thin 75 ohm:
    description: d
    impedance: 75 ohm
    velocity: 80 %
    center diameter: 0.5 mm
    dielectric diameter: 2.3 mm
    attenuation:
      kind: nominal
      temperature: 68 \N{DEGREE SIGN}F
      spread: {low: 0 %, high: 10 %}
      table: {10 MHz: 5 dB/100 m, 40 MHz: 10 dB/100 m}
    shields: {braid: {}}
    centers: {copper: {}}
    jackets: [indoor]
    defaults: {shield: braid, center: copper, jacket: indoor}
    sources: {attenuation: sheet}
devices:
  pad:
    kind: pad
    description: d
    impedance: 75 ohm
    connector: F
    ports: [{name: in, direction: either, group: a}, {name: out, direction: either, group: a}]
    paths: [{from: in, to: out, band: 5 to 1002 MHz, low: 3 dB, nominal: 3 dB, high: 3 dB, sources: {low: sheet}}]
    sources: {impedance: sheet}
""")
THIN = "classes", "thin 75 ohm"


def changed(path: tuple[str | int, ...], value: object) -> dict[str, Any]:
    data: dict[str, Any] = copy.deepcopy(FIRM)
    node: Any = data
    for step in path[:-1]:
        node = node[step]
    if value is None:
        del node[path[-1]]
    else:
        node[path[-1]] = value
    return data


def test_a_firm_adds_entries_in_the_same_words() -> None:
    catalogue = read_catalogue([("firm.yaml", FIRM)])
    attenuation = catalogue.every_class["thin 75 ohm"].attenuation
    assert attenuation.loss_db_per_m(22.5e6) == pytest.approx((0.075, 0.075, 0.0825))
    assert attenuation.temperature_c == pytest.approx(20)
    assert catalogue.edition == 3
    assert catalogue.device("pad") is not None
    assert catalogue.classes == {}  # a remedy offers what is marked usual only


@pytest.mark.parametrize(
    ("path", "value", "message"),
    [
        (("edition",), None, "firm.yaml: 'edition' is missing"),
        (("edition",), True, "expected a whole number"),
        ((*THIN, "impedance"), "75 ohn", r"firm.yaml: classes: thin 75 ohm: impedance.*did you mean '75 ohm'"),
        ((*THIN, "impedance"), 75, "75 is not an impedance"),
        ((*THIN, "description"), 7, "expected a text, found 7"),
        ((*THIN, "sources"), {"impedance": "sheets"}, "'sheets' is not known; known are sheet"),
        ((*THIN, "jackets"), ["leather"], "'leather' is not known"),
        ((*THIN, "jackets"), "indoor", "expected a list of texts"),
        ((*THIN, "defaults", "center"), "gold", "'gold' is not known; known are copper"),
        ((*THIN, "attenuation", "kind"), "best", "'best' is no kind of table"),
        ((*THIN, "attenuation", "table"), [], "expected fields"),
        (("jackets", "indoor", "burial-rated"), "no", "expected true or false"),
        (("devices", "pad", "ports"), "in", "expected a list"),
        (("devices", "pad", "ports", 0, "direction"), "up", "ports: 1: 'up' is no direction"),
        (("devices", "pad", "paths", 0, "to"), "tap", "'tap' is no port; the ports are a, in, out"),
        (("devices", "pad", "paths", 0, "high"), "2 dB", "low, nominal and high do not rise"),
        (("devices", "pad", "paths", 0, "amplified"), True, "it is amplified, and the device has no gain"),
        (
            ("devices", "pad", "power paths"),
            [{"from": "in", "to": "out", "passes": True, "sources": {}}],
            "power paths: 1: sources: 'passes' is missing",
        ),
        (("devices", "pad", "fed at"), ["tap"], "'tap' is no port; the ports are a, in, out"),
        (("devices", "pad", "made as"), {}, "devices: pad: made as: names no device"),
        (("devices", "pad", "made as"), {"big": {"value": "3"}}, "pad: made as: big: value: '3' is not"),
        (("devices", "pad", "made as"), {"a": {}, "b": {}}, "pad: made as: b: is in the catalogue already"),
    ],
)
def test_a_wrong_entry_names_its_place(path: tuple[str | int, ...], value: object, message: str) -> None:
    with pytest.raises(CatalogueError, match=message) as caught:
        read_catalogue([("firm.yaml", changed(path, value))])
    assert isinstance(caught.value, CoaxwrightError)
    assert str(caught.value).startswith("firm.yaml")


@pytest.mark.parametrize(
    ("table", "message"),
    [
        ({}, "points with rising frequencies"),
        ({"40 MHz": "10 dB/100 m", "10 MHz": "5 dB/100 m"}, "points with rising frequencies"),
        ({"10 MHz": "5 dB/100 km"}, "is not an attenuation"),
    ],
)
def test_a_wrong_attenuation_table_is_found_when_it_is_first_used(table: dict[str, str], message: str) -> None:
    catalogue = read_catalogue([("firm.yaml", changed((*THIN, "attenuation", "table"), table))])
    with pytest.raises(CatalogueError, match=message):
        catalogue.every_class["thin 75 ohm"].attenuation.loss_db_per_m(10e6)


def test_a_name_given_twice_is_refused() -> None:
    with pytest.raises(CatalogueError, match=r"second\.yaml: jackets: indoor: is in the catalogue already"):
        read_catalogue([("firm.yaml", FIRM), ("second.yaml", FIRM)])


def test_devices_of_a_kind_are_read_when_the_kind_is_asked_for() -> None:
    asked: list[str] = []

    def pads() -> object:
        asked.append("pad")
        return FIRM

    catalogue = read_catalogue([], {"pad": pads, "tap": lambda: FIRM})
    assert catalogue.device_kinds == ("pad", "tap")
    assert "pad" in catalogue.devices
    assert asked == []
    assert catalogue.device("pad") is catalogue.device("pad")
    assert asked == ["pad"]
    with pytest.raises(CatalogueError, match=r"devices of the kind 'tap': hold pad as well"):
        catalogue.device("tap")


def test_a_firm_adds_devices_of_a_kind_that_is_there() -> None:
    own = changed(("devices", "pad", "variant"), "of the firm")
    catalogue = read_catalogue([("firm.yaml", own)], {"pad": lambda: FIRM})
    assert catalogue.variants("pad") == ("of the firm",)
    assert len(catalogue.made("pad")) == 2
    twice = read_catalogue([("firm.yaml", FIRM)], {"pad": lambda: FIRM})
    with pytest.raises(CatalogueError, match="is in the catalogue already"):
        twice.device("pad")


def test_a_file_that_is_no_yaml_is_refused(tmp_path: Path) -> None:
    broken = tmp_path / "broken.yaml"
    broken.write_text("a: [", encoding="utf-8")
    with pytest.raises(CatalogueError, match=r"broken\.yaml: cannot be read"):
        loader._plain_data(broken)
    with pytest.raises(CatalogueError, match=r"none\.yaml: cannot be read"):
        loader._plain_data(tmp_path / "none.yaml")


def test_the_shipped_catalogue_is_read_once_and_cannot_be_changed() -> None:
    catalogue = loader.load_catalogue()
    assert loader.load_catalogue() is catalogue
    with pytest.raises(TypeError):
        catalogue.classes["x"] = catalogue.every_class["series 6"]  # type: ignore[index]
