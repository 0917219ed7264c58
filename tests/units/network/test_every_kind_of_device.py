"""Every kind that the format can say is in the catalogue, with the same options, and becomes a node with its ports."""

from __future__ import annotations

from typing import get_args

import pytest

from coaxwright.catalogue import load_catalogue
from coaxwright.design import Design
from coaxwright.design.kinds import DEVICE_KINDS
from coaxwright.design.words import DeviceKind
from coaxwright.network import Network, build_network

CATALOGUE = load_catalogue()
OPTION_FIELDS = {"ways": "ways", "inputs": "inputs", "outputs": "outputs", "value_db": "value", "variant": "variant"}


def network(devices: dict[str, object], **sections: object) -> Network:
    data = {"coaxwright": 1, "title": "x", "basis": {"rulesets": ["trade 1"]}, "devices": devices, **sections}
    return build_network(Design.model_validate(data))


def test_format_and_catalogue_know_the_same_kinds() -> None:
    assert set(get_args(DeviceKind)) == set(DEVICE_KINDS) == set(CATALOGUE.device_kinds)


@pytest.mark.parametrize("kind", DEVICE_KINDS)
def test_a_kind_can_say_what_sets_its_devices_apart(kind: DeviceKind) -> None:
    fields = DEVICE_KINDS[kind]
    for option in CATALOGUE.option_names(kind):
        assert OPTION_FIELDS[option] in (*fields.required, *fields.optional)
    assert fields.variants == CATALOGUE.variants(kind)


def _every_entry() -> list[tuple[str, dict[str, object], tuple[str, ...]]]:
    found = []
    for kind in CATALOGUE.device_kinds:
        for options, entry in CATALOGUE.made(kind).items():
            written: dict[str, object] = {"kind": kind}
            for option in options.named:
                value = getattr(options, option)
                written[OPTION_FIELDS[option]] = f"{value:g} dB" if option == "value_db" else value
            if kind == "terminator":
                written["on"] = "S"
            found.append((entry.name, written, tuple(port.name for port in entry.ports)))
    return found


@pytest.mark.parametrize(("name", "written", "ports"), _every_entry(), ids=lambda value: str(value)[:40])
def test_every_device_of_the_catalogue_can_be_written(
    name: str, written: dict[str, object], ports: tuple[str, ...]
) -> None:
    built = network({"X": written, "S": {"kind": "splitter", "ways": 2}})
    node = built.devices["X"]
    assert node.entry is not None
    assert node.entry.name == name
    assert tuple(port.name for port in node.ports) == ports
    assert built.unknown_references == ()


@pytest.mark.parametrize(
    ("written", "path", "wanted", "known"),
    [
        ({"kind": "tap", "outputs": 4, "value": "7 dB"}, "value", "value of a tap", ("12 dB", "16 dB")),
        ({"kind": "tap", "outputs": 3, "value": "9 dB"}, "outputs", "number of outputs of a tap", ("1", "2", "4", "8")),
        ({"kind": "multiswitch", "outputs": 5}, "outputs", "number of outputs of a multiswitch", ("4", "8", "12")),
        ({"kind": "splitter", "ways": 5}, "ways", "number of ways of a splitter", ("2", "3", "4", "6", "8", "16")),
        (
            {"kind": "splitter", "ways": 8, "variant": "satellite"},
            "ways",
            "number of ways of a splitter, satellite",
            ("2",),
        ),
        ({"kind": "outlet", "variant": "loop-through"}, "value", "value of an outlet, loop-through", ("10 dB",)),
    ],
)
def test_what_is_not_made_is_noted_with_what_is(
    written: dict[str, object], path: str, wanted: str, known: tuple[str, ...]
) -> None:
    built = network({"X": written})
    (fault,) = built.unknown_references
    assert fault.path == ("devices", "X", path)
    assert fault.wanted == wanted
    assert set(known) <= set(fault.known)
    assert built.devices["X"].entry is None
    assert built.devices["X"].ports


def test_a_dish_with_its_converter_is_an_aerial() -> None:
    built = network(
        {
            "DISH": {"kind": "dish", "place": "roof", "mast": {}},
            "LNB": {"kind": "LNB", "outputs": 2, "place": "roof", "on": "DISH"},
            "GB": {"kind": "ground block", "place": "wall"},
            "R": {"kind": "satellite receiver", "place": "den"},
        },
        buildings={"house": {"entry": "wall"}},
        places={"roof": {"building": "house", "exposure": "rooftop"}, "wall": {"exposure": "outdoors"}, "den": {}},
        cables={
            "C-1": {"from": "LNB", "to": "GB", "type": "series 6 outdoor", "length": "20 ft"},
            "C-2": {"from": "GB", "to": "R", "type": "series 6", "route": [{"den": "20 ft"}]},
        },
    )
    assert built.port_conflicts == ()
    (entry,) = built.entries
    assert (entry.cable.tag, entry.line, entry.source) == ("C-2", "antenna", "LNB")
    assert [(bondable.reference, bondable.line) for bondable in built.bondables] == [
        ("DISH.mast", "antenna"),
        ("GB", "antenna"),
    ]
    assert built.lead_in(built.devices["LNB"]).protector is built.devices["GB"]


def test_a_tap_line_runs_on_and_its_outlets_branch_off() -> None:
    built = network(
        {
            "D": {"kind": "coax drop"},
            "T1": {"kind": "tap", "outputs": 2, "value": "16 dB"},
            "T2": {"kind": "tap", "outputs": 2, "value": "12 dB"},
            **{f"O{n}": {"kind": "outlet"} for n in range(1, 5)},
        },
        cables={
            "C-1": {"from": "D", "to": "T1", "type": "series 11", "length": "20 ft"},
            "C-2": {"from": "T1.out", "to": "T2", "type": "series 11", "length": "20 ft"},
            **{
                f"C-{n + 2}": {
                    "from": f"T{(n + 1) // 2}.tap-{(n + 1) % 2 + 1}",
                    "to": f"O{n}",
                    "type": "series 6",
                    "length": "9 ft",
                }
                for n in range(1, 5)
            },
        },
        services={"tv": {"kind": "cable broadband", "from": "D"}},
    )
    assert built.unknown_references == ()
    assert built.port_conflicts == ()
    assert built.services["tv"].devices == {"D", "T1", "T2", "O1", "O2", "O3", "O4"}
