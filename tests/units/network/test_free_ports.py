"""Which ports are taken, by a cable in use or by a part screwed on, and which are free."""

from __future__ import annotations

from coaxwright.design import understand
from coaxwright.network import Network, build_network
from coaxwright.source import read_text

DESIGN = """\
coaxwright: 1
title: Ports
basis: {rulesets: [trade 1]}
devices:
  SP1: {kind: splitter, ways: 4}
  TV1: {kind: outlet}
  TV2: {kind: outlet}
  T1: {kind: terminator, on: SP1.out-3}
  T2: {kind: terminator, on: SP9}
cables:
  C-1: {from: SP1, to: TV1, type: series 6}
  C-2: {from: SP1, to: TV2, type: series 6, state: abandoned}
"""


def network() -> Network:
    return build_network(understand(read_text(DESIGN, "a.coax.yaml")))


def test_cables_and_parts_take_ports() -> None:
    assert network().tenants("SP1") == {"out-1": "C-1", "out-3": "T1"}
    assert network().tenants("T1") == {"in": "SP1"}
    assert network().tenants("T2") == {}


def test_what_is_left_is_free_in_the_order_of_the_device() -> None:
    assert [port.name for port in network().free_ports("SP1")] == ["in", "out-2", "out-4"]
    assert network().free_ports("T1") == ()
    assert [port.name for port in network().free_ports("TV2")] == ["in"], "an abandoned cable takes no port"


def test_a_part_stands_with_the_port_it_takes() -> None:
    fitting = network().fittings["T1"]
    assert fitting.device is not None
    assert fitting.port is not None
    assert (fitting.device.tag, fitting.port.name) == ("SP1", "out-3")
    assert set(network().fittings) == {"T1"}
