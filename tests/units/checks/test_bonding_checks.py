"""Amounts that a bonding check computes: the larger of two needs, and a conductor as good as the shields."""

from __future__ import annotations

import pytest

from coaxwright.analysis import Analysis
from coaxwright.checks import NotMet, Site, all_checks
from coaxwright.design import understand
from coaxwright.plant import build_plant
from coaxwright.rules import combine, shipped_shelf
from coaxwright.source import read_text

DESIGN = """\
coaxwright: 1
title: Bench (invented)
basis: {{rulesets: [us 2023], occupancy: one-family dwelling}}
places: {{wall: {{exposure: outdoors}}}}
devices:
  D-1: {{kind: service drop, place: wall}}
  GB1: {{kind: ground block, place: wall}}
cables: {{C-1: {{from: D-1, to: GB1, type: {type}, length: 2 m}}}}
bonding:
  IBT: {{kind: intersystem termination, place: wall}}
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
    plant = build_plant(understand(read_text(DESIGN.format(type=type_, conductor=conductor), "x")))
    limits = combine(["us 2023"], shipped_shelf()).rules["bonding.conductor-size"].limits
    check = all_checks()["conductor-size"]
    verdicts = list(check.judge(plant.bonds["B-1"], Site(plant, Analysis(plant)), limits))
    if needed is None:
        assert verdicts == []
        return
    (verdict,) = verdicts
    assert isinstance(verdict, NotMet)
    assert verdict.mend is not None
    assert verdict.mend.text == verdict.values["smallest"] == needed
    assert verdict.mend.path == ("bonding", "B-1", "conductor")
