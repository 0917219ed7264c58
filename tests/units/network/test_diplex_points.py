"""Where devices part up- and downstream, and what a stated split moves."""

from __future__ import annotations

import pytest

from coaxwright.design import Design
from coaxwright.network import DeviceNode, build_network
from coaxwright.network.diplex import diplex_point


def node(**device: object) -> DeviceNode:
    data = {"coaxwright": 1, "title": "x", "basis": {"rulesets": ["trade 1"]}, "devices": {"P": device}}
    return build_network(Design.model_validate(data)).devices["P"]


@pytest.mark.parametrize(
    ("device", "point"),
    [
        ({"kind": "drop amplifier", "outputs": 1, "variant": "return path"}, (42e6, 54e6, False)),
        (
            {"kind": "drop amplifier", "outputs": 1, "variant": "return path", "split": "85/102 MHz"},
            (85e6, 102e6, True),
        ),
        ({"kind": "filter", "variant": "high-pass"}, (42e6, 54e6, False)),
        ({"kind": "filter", "variant": "point-of-entry"}, None),
        ({"kind": "optical node", "split": "204/258 MHz"}, (204e6, 258e6, True)),
        ({"kind": "optical node"}, None),
        ({"kind": "splitter", "ways": 2}, None),
        ({"kind": "splitter", "ways": 5}, None),
    ],
)
def test_where_a_device_parts_the_directions(
    device: dict[str, object], point: tuple[float, float, bool] | None
) -> None:
    found = diplex_point(node(**device))
    assert (None if found is None else (found.up_to_hz, found.down_from_hz, found.is_stated)) == point


def test_a_stated_split_moves_what_passes_and_what_is_stopped() -> None:
    usual, moved = (
        node(kind="drop amplifier", outputs=1, variant="return path", **said) for said in ({}, {"split": "85/102 MHz"})
    )
    assert usual.entry is not None
    assert moved.entry is not None
    at = (42e6, 60e6, 85e6, 101e6, 102e6)
    assert [usual.entry.passes("out", "in", freq_hz) for freq_hz in at] == [True, False, False, False, False]
    assert [moved.entry.passes("out", "in", freq_hz) for freq_hz in at] == [True, True, True, None, False]
    assert moved.entry.loss("out", "in", 85e6) == usual.entry.loss("out", "in", 42e6)
    assert usual.entry.passes("out", "in", 85e6) is False  # what is kept of the one is not kept for the other


def test_a_split_of_a_device_that_parts_nothing_moves_nothing() -> None:
    stated, plain = (
        node(kind="filter", variant="mobile band", split="42/54 MHz"),
        node(kind="filter", variant="mobile band"),
    )
    assert stated.entry == plain.entry
