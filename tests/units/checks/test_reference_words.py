"""What a review and ``show`` say of tags, ports and options that name nothing, in words that can be read aloud."""

from __future__ import annotations

import pytest

from coaxwright.analysis import Analysis
from coaxwright.design import understand
from coaxwright.network import build_network
from coaxwright.reports.network_report.report import network_report
from coaxwright.reviewing import judge
from coaxwright.rules import shipped_registry
from coaxwright.source import Document, read_text

HEAD = """\
coaxwright: 1
title: x (invented)
basis: {rulesets: [trade 1], occupancy: one-family dwelling}
places: {p: {}}
"""
PORTS = """\
devices:
  MS: {kind: multiswitch, outputs: 12, place: p}
  TV: {kind: satellite receiver, place: p}
cables:
  C-1: {from: MS.zzzz, to: TV, type: series 6, length: 20 ft}
"""
OPTIONS = """\
devices:
  CAM: {kind: camera, place: p}
  SP: {kind: splitter, ways: 5, place: p}
  TP: {kind: tap, outputs: 1, value: 7 dB, place: p}
"""
MANY = "devices:\n" + "".join(f"  {name}: {{kind: outlet, place: p}}\n" for name in "ACEGIKMOQSUW")
MANY += "bonding:\n  B-2: {from: A, to: zzzzzz, conductor: 10 AWG copper, length: 3 ft}\n"
LOOSE = """\
devices:
  GB1: {kind: ground block, place: p}
  GB2: {kind: ground block, place: p}
bonding:
  B-2: {from: GB1, to: GB2, conductor: 10 AWG copper, length: 3 ft}
"""


def document(text: str) -> Document:
    return read_text(HEAD + text, "x.coax.yaml")


def said(text: str, rule: str) -> list[tuple[str, str]]:
    """What each finding of a rule says is, and should be."""
    review = judge(document(text), shipped_registry())
    assert review.problems == ()
    return [(finding.found, finding.required) for finding in review.unfolded if finding.rule == rule]


def test_the_ports_of_a_device_are_listed_by_name() -> None:
    ports = "horizontal-high, horizontal-low, out-1 to out-12, terrestrial, vertical-high or vertical-low"
    assert said(PORTS, "plan.reference-known") == [("'MS.zzzz' is not a port of MS", ports)]


def test_where_a_port_is_misspelt_all_are_listed_beside_the_nearest() -> None:
    told = said(PORTS.replace("MS.zzzz", "MS.vertical-hi"), "plan.reference-known")
    ports = "horizontal-high, horizontal-low, out-1 to out-12, terrestrial, vertical-high or vertical-low"
    assert told == [("'MS.vertical-hi' is not a port of MS", ports)]


def test_every_option_that_is_made_is_listed() -> None:
    values = "value: 6 dB, 9 dB, 12 dB, 16 dB, 20 dB, 24 dB, 27 dB or 30 dB"
    assert said(OPTIONS, "plan.reference-known") == [
        ("CAM is a camera and states no variant", "variant: analog or HD over coax"),
        ("the catalogue has no splitter with 5 ways", "ways: 2, 3, 4, 6, 8 or 16"),
        ("the catalogue has no tap of 1 output with a value of 7 dB", values),
    ]


def test_of_very_many_tags_the_number_is_told() -> None:
    ((_, should),) = said(MANY, "plan.reference-known")
    assert should == "one of the 13 things to bond to"


@pytest.mark.parametrize("thing", ["GB1", "GB2"])
def test_a_bond_that_leads_nowhere(thing: str) -> None:
    told = [found for found, _ in said(LOOSE, "bonding.conductor-present")]
    assert f"{thing} (ground block, p) is bonded by B-2, and no way leads on to an electrode" in told


@pytest.mark.parametrize(
    ("text", "told"),
    [
        (
            PORTS,
            [
                "'MS.zzzz' is no port of MS; there are vertical-low, vertical-high, horizontal-low, horizontal-high, "
                "terrestrial and out-1 to out-12"
            ],
        ),
        (
            OPTIONS,
            [
                "CAM is a camera and states no variant; there are analog and HD over coax",
                "the catalogue has no splitter with 5 ways; there are 2, 3, 4, 6, 8 and 16",
                "the catalogue has no tap of 1 output with a value of 7 dB; there are 6 dB, 9 dB, 12 dB, 16 dB, 20 dB, "
                "24 dB, 27 dB and 30 dB",
            ],
        ),
    ],
    ids=["ports", "options"],
)
def test_show_says_it_as_the_review_does(text: str, told: list[str]) -> None:
    written = document(text)
    network = build_network(understand(written))
    assert [one.text for one in network_report(written, network, Analysis(network)).unconnected] == told
