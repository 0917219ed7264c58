"""A device that names its model: the entry of that name, of the kind and of no other size than is said."""

from __future__ import annotations

from typing import Any

import pytest

from coaxwright.catalogue.author_values import with_own
from coaxwright.design import Design
from coaxwright.network import Network, build_network
from coaxwright.source import read_text

OWN = """coaxwright catalogue: 1
devices:
  quiet splitter: {like: 2-way splitter, connector: N}
  bare antenna: {like: UHF antenna, impedance: 50 ohm}
  cold tap: {like: 12 dB 4-output tap}
"""


def network_of(**device: object) -> Network:
    catalogue, problems = with_own([read_text(OWN, "x.coax-catalogue.yaml")])
    assert problems == []
    data: dict[str, Any] = {"coaxwright": 1, "title": "x", "basis": {"rulesets": ["trade 1"]}, "devices": {"D": device}}
    return build_network(Design.model_validate(data), catalogue)


def test_the_ports_and_figures_are_those_of_the_model() -> None:
    node = network_of(kind="splitter", ways=2, model="quiet splitter").devices["D"]
    assert node.entry is not None
    assert node.entry.name == "quiet splitter"
    assert {port.connector for port in node.ports} == {"N"}


def test_an_option_that_is_left_out_is_the_model_s() -> None:
    network = network_of(kind="antenna", model="bare antenna")
    entry = network.devices["D"].entry
    assert entry is not None
    assert (entry.name, entry.variant) == ("bare antenna", "UHF")
    assert network.unknown_references == ()


@pytest.mark.parametrize(
    ("device", "nearest"),
    [
        ({"kind": "splitter", "ways": 4, "model": "quiet splitter"}, None),
        ({"kind": "antenna", "variant": "FM", "model": "bare antenna"}, None),
        ({"kind": "antenna", "model": "quiet splitter"}, None),
        ({"kind": "splitter", "ways": 2, "model": "quite splitter"}, "quiet splitter"),
        ({"kind": "splitter", "ways": 2, "model": "2-way splitter"}, None),
        ({"kind": "outlet", "model": "cold tap 2"}, "cold tap"),
        ({"kind": "outlet", "model": "zz"}, None),
    ],
)
def test_a_model_that_it_is_not_is_noted_and_the_rest_goes_on(device: dict[str, object], nearest: str | None) -> None:
    network = network_of(**device)
    (fault,) = network.unknown_references
    assert (fault.path, fault.written, fault.nearest) == (("devices", "D", "model"), device["model"], nearest)
    assert network.devices["D"].entry is None
    assert network.devices["D"].ports  # those of a usual one, so that all else can be judged
