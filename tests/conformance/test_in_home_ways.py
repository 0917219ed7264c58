"""The two ways between outputs of a splitter, against scikit-rf: past it, and into it and back from a filter.

Source: scikit-rf's connection of networks; the splitter's matrix is written down here from its data sheet.
"""

from __future__ import annotations

import json
from math import log10, sqrt

import numpy as np
import pytest
import skrf
from skrf.network import connect

from coaxwright.analysis import Analysis, LossRange
from coaxwright.analysis.stations import between_stations
from coaxwright.design import understand
from coaxwright.network import build_network
from coaxwright.reviewing.effective_rules import catalogue_of
from coaxwright.source import read_text

TOP_HZ = 1675e6
FREQUENCY = skrf.Frequency.from_f([TOP_HZ], unit="hz")


def splitter(split_db: float, isolation_db: float) -> skrf.Network:
    """Input, and two outputs; what passes is a quarter wave behind, and isolation is in step."""
    way, across = 10 ** (-split_db / 20), 10 ** (-isolation_db / 20)
    s = np.array([[[0, -1j * way, -1j * way], [-1j * way, 0, across], [-1j * way, across, 0]]])
    return skrf.Network(frequency=FREQUENCY, s=s, z0=75.0)


def solved_db(split_db: float, isolation_db: float, reflection: float) -> float:
    """Output to output, with the input closed by something that reflects so much."""
    load = skrf.Network(frequency=FREQUENCY, s=np.array([[[reflection]]]), z0=75.0)
    joined = connect(splitter(split_db, isolation_db), 0, load, 0)
    return float(-20 * log10(abs(joined.s[0, 0, 1])))


def computed(split_db: float, isolation_db: float, filtered: bool) -> LossRange:
    own = {
        "like": "2-way in-home data splitter",
        "paths": [{"from": "in", "to": "out", "band": "1125 MHz to 1675 MHz", "nominal": f"{split_db} dB"}],
        "isolations": [{"from": "out", "to": "out", "band": "1125 MHz to 1675 MHz", "nominal": f"{isolation_db} dB"}],
    }
    cables = [("S", "A"), ("S", "B"), *([("F", "S.in")] if filtered else [])]
    design_file = {
        "coaxwright": 1,
        "title": "Bench (invented)",
        "basis": {"rulesets": ["trade 1"]},
        "catalogue": {"devices": {"bench splitter": own}},
        "services": {"data": {"kind": "in-home data", "from": "A"}},
        "devices": {
            "S": {"kind": "splitter", "ways": 2, "variant": "in-home data", "model": "bench splitter"},
            "F": {"kind": "filter", "variant": "point-of-entry"},
            "A": {"kind": "in-home data adapter"},
            "B": {"kind": "in-home data adapter"},
        },
        "cables": {
            f"C-{number}": {"from": one, "to": other, "type": "series 6", "length": "0 m"}
            for number, (one, other) in enumerate(cables)
        },
    }
    document = read_text(json.dumps(design_file), "bench.coax.yaml")
    design = understand(document)
    catalogue, problems = catalogue_of(document, design)
    assert problems == []
    network = build_network(design, catalogue)
    (pair,) = between_stations(network.graph, network.traffic.stations("data"), Analysis(network).line_figures, TOP_HZ)
    assert isinstance(pair.loss_db, LossRange)
    return pair.loss_db


@pytest.mark.parametrize("isolation_db", [8.0, 16.0, 25.0])
def test_without_a_filter_the_isolation_is_what_lies_between(isolation_db: float) -> None:
    assert computed(5.5, isolation_db, filtered=False).nominal == pytest.approx(solved_db(5.5, isolation_db, 0.0))


@pytest.mark.parametrize("split_db", [4.0, 5.5, 6.0])
def test_a_filter_that_reflects_all_leaves_twice_the_split(split_db: float) -> None:
    """With the outputs kept wholly apart, only the way back from the input is left."""
    assert solved_db(split_db, 400.0, 1.0) == pytest.approx(2 * split_db)
    assert computed(split_db, 60.0, filtered=True).nominal == pytest.approx(solved_db(split_db, 400.0, 1.0))


@pytest.mark.parametrize("isolation_db", [16.0, 20.0, 25.0])
def test_both_ways_together_stay_near_the_better_one(isolation_db: float) -> None:
    """Two ways add as voltages: together they differ from the better one by at most 20 log(1 + share)."""
    better_db = computed(5.5, isolation_db, filtered=True).nominal
    share = 10 ** (-(isolation_db - better_db) / 20)
    worst_db, best_db = better_db - 20 * log10(1 - share), better_db - 20 * log10(1 + share)
    for reflection in (1.0, -1.0, 1j, -1j, (1 + 1j) / sqrt(2)):
        assert best_db - 1e-6 <= solved_db(5.5, isolation_db, reflection) <= worst_db + 1e-6
