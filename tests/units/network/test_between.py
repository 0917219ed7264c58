"""The coax between several devices: the ways that join them, and none of what hangs beside these."""

from __future__ import annotations

import pytest

from coaxwright.design import understand
from coaxwright.network import build_network
from coaxwright.network.subnetwork import Subnetwork, between
from coaxwright.source import read_text

DESIGN = """\
coaxwright: 1
title: Nothing
basis: {rulesets: [trade 1]}
devices:
  DROP: {kind: coax drop}
  POE: {kind: filter, variant: point-of-entry}
  SP1: {kind: splitter, ways: 3}
  SP2: {kind: splitter, ways: 2}
  A: {kind: outlet}
  B: {kind: outlet}
  C: {kind: outlet}
  D: {kind: outlet}
  FAR: {kind: outlet}
cables:
  C-1: {from: DROP, to: POE, type: series 6, length: 1 m}
  C-2: {from: POE, to: SP1, type: series 6, length: 1 m}
  C-3: {from: SP1, to: A, type: series 6, length: 1 m}
  C-4: {from: SP1, to: B, type: series 6, length: 1 m}
  C-5: {from: SP1, to: SP2, type: series 6, length: 1 m}
  C-6: {from: SP2, to: C, type: series 6, length: 1 m}
  C-7: {from: SP2, to: D, type: series 6, length: 1 m, state: abandoned}
"""


@pytest.mark.parametrize(
    ("ends", "devices", "cables"),
    [
        pytest.param(("A", "B"), ("A", "B", "SP1"), ("C-3", "C-4"), id="two legs of one splitter"),
        pytest.param(("A", "C"), ("A", "C", "SP1", "SP2"), ("C-3", "C-5", "C-6"), id="over two splitters"),
        pytest.param(("A", "SP2"), ("A", "SP1", "SP2"), ("C-3", "C-5"), id="to one on the way"),
        pytest.param(
            ("A", "DROP"), ("A", "DROP", "POE", "SP1"), ("C-1", "C-2", "C-3"), id="up to where the coax comes in"
        ),
        pytest.param(("A", "B", "FAR"), ("A", "B", "SP1"), ("C-3", "C-4"), id="one that hangs on nothing"),
        pytest.param(("A", "D"), (), (), id="an abandoned cable joins nothing"),
        pytest.param(("A",), (), (), id="one alone"),
        pytest.param((), (), (), id="none"),
    ],
)
def test_what_lies_between(ends: tuple[str, ...], devices: tuple[str, ...], cables: tuple[str, ...]) -> None:
    network = build_network(understand(read_text(DESIGN, "x")))
    assert between(network, ends) == Subnetwork(devices, cables)
