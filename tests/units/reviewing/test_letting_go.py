"""What a review computes is gone at its end: none of it waits in a circle for the garbage collector."""

from __future__ import annotations

import gc
from pathlib import Path

import pytest

from coaxwright.analysis import Analysis
from coaxwright.design import understand
from coaxwright.network import build_network
from coaxwright.network.clear_cached import clear_cached
from coaxwright.reviewing.effective_rules import RuleSources
from coaxwright.reviewing.judging import judge
from coaxwright.reviewing.reading import read_design
from coaxwright.rules import shipped_registry

EXAMPLES = sorted(Path(__file__).parents[3].glob("examples/*/*.coax.yaml"))


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: f"{path.parent.name} {path.name.partition('.')[0]}")
def test_nothing_of_ours_is_left_in_a_circle(path: Path) -> None:
    bases = RuleSources(shipped_registry())
    judge(read_design(path, path.name, {}), bases)  # what is kept from design to design is there now
    gc.collect()
    gc.disable()
    try:
        document = read_design(path, path.name, {})
        judge(document, bases)
        del document
        gc.set_debug(gc.DEBUG_SAVEALL)
        gc.collect()
        ours = {type(one).__name__ for one in gc.garbage if type(one).__module__.startswith("coaxwright")}
    finally:
        gc.set_debug(0)
        gc.garbage.clear()
        gc.enable()
    assert ours == set()


def test_what_was_let_go_is_computed_anew() -> None:
    network = build_network(understand(read_design(EXAMPLES[0], "x", {})))
    analysis = Analysis(network)
    before = [str(outlet.readings) for service in network.services for outlet in analysis.outlets(service)]
    entries = [(entry.cable.tag, entry.building) for entry in network.entries]
    clear_cached(network)
    clear_cached(analysis)
    assert "entries" not in vars(network)
    assert [str(outlet.readings) for service in network.services for outlet in analysis.outlets(service)] == before
    assert [(entry.cable.tag, entry.building) for entry in network.entries] == entries
    assert before
    assert entries
