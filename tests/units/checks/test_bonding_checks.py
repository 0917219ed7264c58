"""Amounts that a bonding check computes: the larger of two needs, and a conductor as good as the shields."""

from __future__ import annotations

from dataclasses import replace

import pytest
from asking import worded

from coaxwright.analysis import Analysis
from coaxwright.catalogue import load_catalogue
from coaxwright.checks import CheckContext, NotMet, all_checks
from coaxwright.design import understand
from coaxwright.design.author import writes_metric
from coaxwright.design.quantities import Conductor
from coaxwright.design.wire_sizes import as_written
from coaxwright.network import build_network
from coaxwright.rules import combine, shipped_registry
from coaxwright.source import read_text

RULE = "bonding.conductor-size"
DESIGN = """\
coaxwright: 1
title: Bench (invented)
basis: {{rulesets: [us 2023], occupancy: one-family dwelling}}
places: {{wall: {{exposure: outdoors}}}}
devices:
  D-1: {{kind: coax drop, place: wall}}
  GB1: {{kind: ground block, place: wall}}
cables: {{C-1: {{from: D-1, to: GB1, type: {type}, length: 2 m}}}}
bonding:
  IBT: {{kind: intersystem bonding termination, place: wall}}
  B-1: {{from: GB1, to: IBT, conductor: {conductor}, length: 2 m}}
"""


@pytest.mark.parametrize(
    ("type_", "conductor", "needed"),
    [
        # Shield resistances of the catalogue, ohm per 1000 ft: series 6 9.9, series 11 quad 3.6, 10 mm 50 ohm 1.65.
        # Copper at 20 °C by ASTM B258 and 10.371 ohm circular mil per ft: 14 AWG 2.53, 12 AWG 1.59.
        ("series 6 outdoor", "14 AWG copper", None),
        ("series 6 outdoor", "16 AWG copper", "14 AWG copper"),
        ("series 11 quad outdoor", "14 AWG copper", None),
        ("10 mm 50 ohm low-loss", "14 AWG copper", "12 AWG copper"),
        ("10 mm 50 ohm low-loss", "12 AWG copper", None),
        ("10 mm 50 ohm low-loss", "2.5 mm² copper", "4 mm² copper"),
        ("59-type outdoor", "14 AWG copper", None),
    ],
)
def test_size_that_a_shield_needs(type_: str, conductor: str, needed: str | None) -> None:
    network = build_network(understand(read_text(DESIGN.format(type=type_, conductor=conductor), "x")))
    limits = combine(["us 2023"], shipped_registry()).rules["bonding.conductor-size"].limits
    check = all_checks()["bonding.conductor-size"]
    verdicts = list(check.judge(network.bonds["B-1"], CheckContext(network, Analysis(network)), limits))
    if needed is None:
        assert verdicts == []
        return
    (verdict,) = verdicts
    assert isinstance(verdict, NotMet)
    assert verdict.mend is not None
    assert verdict.mend.text == worded("{size:sold like conductor}", verdict, "bonding.conductor-size") == needed
    assert verdict.mend.path == ("bonding", "B-1", "conductor")


@pytest.mark.parametrize(
    ("size", "metric", "offered"),
    [
        # Areas of gauges in mm² by ASTM B258: 17 1.04, 14 2.08, 10 5.26, 8 8.37, 6 13.3, 4/0 107.
        ("17 AWG copper-clad steel", True, "1.5 mm² copper-clad steel"),
        ("14 AWG copper", True, "2.5 mm² copper"),
        ("10 AWG copper", True, "6 mm² copper"),
        ("8 AWG aluminum", True, "10 mm² aluminum"),
        ("6 AWG copper", True, "16 mm² copper"),
        ("4/0 AWG copper", True, "4/0 AWG copper"),
        ("4 mm² copper", True, "4 mm² copper"),
        ("4 mm² copper", False, "10 AWG copper"),
        ("2.5 mm² copper", False, "12 AWG copper"),
        ("16 mm² copper", False, "4 AWG copper"),
        ("10 AWG copper", False, "10 AWG copper"),
    ],
)
def test_a_size_is_offered_in_the_system_of_the_author(size: str, metric: bool, offered: str) -> None:
    assert as_written(Conductor.parse(size), metric).text == offered


def test_a_published_size_is_told_as_published_and_offered_as_sold() -> None:
    design = DESIGN.format(type="series 6 outdoor", conductor="1.5 mm² copper")
    network = build_network(understand(read_text(design, "x")))
    limits = combine(["us 2023"], shipped_registry()).rules["bonding.conductor-size"].limits
    (verdict,) = all_checks()["bonding.conductor-size"].judge(
        network.bonds["B-1"], CheckContext(network, Analysis(network)), limits
    )
    assert isinstance(verdict, NotMet)
    text = "{conductor:with area}, {smallest:with area}, {size:sold like conductor}"
    told = worded(text, verdict, "bonding.conductor-size")
    assert told == "1.5 mm² copper, 14 AWG copper (2.1 mm²), 2.5 mm² copper"
    assert verdict.cites == (("smallest", "shield", "copper"),)


@pytest.mark.parametrize(
    ("bonding", "cables", "metric"),
    [
        ("B-1: {from: GB1, to: IBT, conductor: 4 mm² copper}", "length: 6 ft", True),
        ("B-1: {from: GB1, to: IBT, conductor: 10 AWG copper}", "length: 2 m", False),
        ("IBT: {kind: intersystem bonding termination, place: wall}", "length: 6 ft", False),
        ("IBT: {kind: intersystem bonding termination, place: wall}", "length: 2 m", True),
        ("IBT: {kind: intersystem bonding termination, place: wall}", "route: [wall: 2 m]", True),
        ("IBT: {kind: intersystem bonding termination, place: wall}", "owner: owner", False),
    ],
)
def test_which_system_an_author_writes(bonding: str, cables: str, metric: bool) -> None:
    head = DESIGN.partition("cables:")[0].format()
    text = f"{head}cables: {{C-1: {{from: D-1, to: GB1, type: series 6, {cables}}}}}\nbonding:\n  {bonding}\n"
    assert writes_metric(understand(read_text(text, "x"))) is metric


@pytest.mark.parametrize(
    ("conductor", "needed"),
    [
        # A shield as good as 4 AWG copper asks for the most that any has to be, 6 AWG or 13.302 mm²: ASTM B258.
        ("6 AWG copper", None),
        ("5 AWG copper", None),
        ("7 AWG copper", "6 AWG copper"),
        ("13.3 mm² copper", "16 mm² copper"),
        ("13.4 mm² copper", None),
    ],
)
@pytest.mark.parametrize("ruleset", ["trade 1", "us 2017", "us 2020", "us 2023"])
def test_no_bond_has_to_be_larger_than_the_ceiling(ruleset: str, conductor: str, needed: str | None) -> None:
    shipped = load_catalogue()
    made = shipped.classes["10 mm 50 ohm low-loss"]
    shields = {name: replace(shield, resistance_ohm_per_m=0.0008) for name, shield in made.shields.items()}
    classes = {**shipped.words.classes, made.name: replace(made, shields=shields)}
    catalogue = replace(shipped, words=replace(shipped.words, classes=classes))
    design = DESIGN.format(type="10 mm 50 ohm low-loss", conductor=conductor).replace("us 2023", ruleset)
    network = build_network(understand(read_text(design, "x")), catalogue)
    limits = combine([ruleset], shipped_registry()).rules["bonding.conductor-size"].limits
    context = CheckContext(network, Analysis(network))
    verdicts = list(all_checks()[RULE].judge(network.bonds["B-1"], context, limits))
    sizes = [worded("{size:sold like conductor}", one, RULE) for one in verdicts if isinstance(one, NotMet)]
    assert sizes == ([needed] if needed else [])
