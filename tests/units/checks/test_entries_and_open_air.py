"""Roofs, lightning conductors, spans, and what stands at the entry of a building: limits that tie, and what is told."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import pytest
from asking import findings

from coaxwright.analysis import Analysis
from coaxwright.catalogue.measures import Percent
from coaxwright.checks import CannotJudge, CheckContext, DoesNotApply, Limits, NotMet, Verdict
from coaxwright.design import understand
from coaxwright.design.quantities import Length
from coaxwright.design.value_types import Derived, Phrase
from coaxwright.network import Unknown, build_network
from coaxwright.rules import combine, shipped_registry
from coaxwright.rules.phrase_book import phrases_of
from coaxwright.rules.wording import fill
from coaxwright.source import read_text

NotMetOf = Callable[..., dict[str, list[NotMet]]]
VerdictsOf = Callable[..., dict[str, list[Verdict]]]
CLEAR, SPAN = "route.aerial-clearance", "jacket.messenger-span"
PLACES = """\
buildings: {{house: {{entry: [gable, wall]{house}}}}}
places:
  yard: {{building: house, exposure: outdoors}}
  roof: {{building: house, exposure: rooftop}}
  gable: {{building: house, exposure: outdoors}}
  wall: {{building: house, exposure: outdoors}}
  den: {{building: house}}
devices:
  DROP: {{kind: coax drop, place: yard}}
  G: {{kind: ground block, place: yard}}
  SP: {{kind: splitter, ways: 2, place: den}}
cables:
"""


def site(route: str, ends: str = "from: DROP, to: G", house: str = "", type_: str = "series 6 messenger") -> str:
    return f"{PLACES.format(house=house)}  C-1: {{{ends}, type: {type_}, route: [{route}]}}\n"


@pytest.mark.parametrize(
    ("separation", "cites"),
    [
        ("5 ft", (("lightning",),)),
        ("6 ft", (("lightning",),)),  # as much as is asked for everywhere: that is published
        ("6.1 ft", ()),
    ],
)
def test_what_decides_beside_a_lightning_conductor(
    not_met_of: NotMetOf, separation: str, cites: tuple[tuple[str, ...], ...]
) -> None:
    route = "yard: {length: 20 ft, beside: [{what: lightning conductor, at: 4 ft}]}"
    text = site(route, house=f", lightning system: {{separation: {separation}}}")
    assert [one.cites for one in not_met_of(CLEAR, text)["C-1"]] == [cites]


def test_below_what_a_steep_roof_asks_for_its_slope_is_no_matter(not_met_of: NotMetOf) -> None:
    """3 ft over a steep roof, 8 ft over any other: at 2 ft the lesser one is missed. Source: NFPA 70, 800.44(B)."""
    text = site("roof: {length: 20 ft, over: roof, height: 2 ft}")
    (told,) = not_met_of(CLEAR, text)["C-1"]
    assert (told.cites, told.values["least"]) == ((("steep roof",),), Length.parse("3 ft"))
    assert told.values["missing"] == Derived(pytest.approx(0.3048), Length.parse("2 ft"))
    (finding,) = findings(CLEAR, text)
    assert "12 in higher" in finding.remedy
    assert told.excess == pytest.approx(0.3048)


def test_the_pull_of_a_span_is_told_in_hundredths_of_its_weight() -> None:
    """1 / (8 x 0.03) = 4.1667 times its weight, for a sag of 3 %. Source: textbook, the parabola of a shallow span."""
    head = "coaxwright: 1\ntitle: Bench (invented)\nbasis: {rulesets: [trade 1]}\n"
    text = site("yard: {length: 60 ft, over: driveway, height: 14 ft}", type_="series 6 outdoor")
    network = build_network(understand(read_text(head + text, "bench.coax.yaml")))
    rule = combine(["trade 1"], shipped_registry()).rules[SPAN]
    limits = Limits(
        {
            (one.name, *one.keys): replace(one, value=Percent.parse("3 %")) if one.name == "sag" else one
            for one in rule.limits.all()
        }
    )
    (told,) = rule.check.judge(network.cables["C-1"], CheckContext(network, Analysis(network)), limits)
    assert isinstance(told, NotMet)
    assert told.values["weights"] == pytest.approx(25 / 6)
    types, phrases = rule.check.cases[told.case], phrases_of(rule.check.name).phrases
    assert "with 4.17 times the weight" in fill(rule.words[told.case].remedy, told.values, types, phrases)


def test_a_protector_is_asked_for_at_the_entry_that_the_cable_passes(not_met_of: NotMetOf) -> None:
    text = site("yard: 9 m, wall: 1 m, den: 3 m", "from: DROP, to: SP", type_="series 6 outdoor")
    assert [one.values["at"] for one in not_met_of("protection.entry-protector", text)["C-1"]] == ["wall"]


@pytest.mark.parametrize(
    ("rule", "tag", "because"),
    [
        ("protection.listed", "G", "not said"),
        ("protection.listed", "SP", "no protector"),
        ("protection.accessible", "G", "not said"),
        ("protection.accessible", "SP", "no protector"),
    ],
)
def test_why_a_protector_is_not_judged(verdicts_of: VerdictsOf, rule: str, tag: str, because: str) -> None:
    assert verdicts_of(rule, site("yard: 9 m"))[tag] == [DoesNotApply(because)]


OPEN = "level.unused-terminated"


def test_one_cable_with_a_feed_is_enough_for_terminators_that_block_it(not_met_of: NotMetOf) -> None:
    text = """\
devices:
  ANT: {kind: antenna}
  PRE: {kind: preamplifier}
  SP: {kind: splitter, ways: 4}
  PI: {kind: power inserter}
  TV: {kind: outlet}
  A: {kind: outlet}
cables:
  C-1: {from: ANT, to: PRE.in, type: series 6, length: 1 m}
  C-2: {from: PRE.out, to: SP.in, type: series 6, length: 9 m}
  C-3: {from: SP.out-1, to: PI.in, type: series 6, length: 9 m}
  C-4: {from: PI.out, to: TV, type: series 6, length: 9 m}
  C-5: {from: SP.out-2, to: A, type: series 6, length: 9 m}
"""
    (told,) = not_met_of(OPEN, text)["SP"]
    assert told.values["terminators"] == Phrase("blocking", {"number": 2})


def test_only_what_has_an_unsettled_port_itself_waits_for_it(verdicts_of: VerdictsOf) -> None:
    text = """\
devices:
  DROP: {kind: coax drop}
  DC: {kind: directional coupler, value: 9 dB}
  SP: {kind: splitter, ways: 2}
  S2: {kind: splitter, ways: 2}
  A: {kind: outlet}
cables:
  C-0: {from: DROP, to: DC.in, type: series 6, length: 1 m}
  C-1: {from: DC, to: S2, type: series 6, length: 1 m}
  C-2: {from: SP.out-1, to: A, type: series 6, length: 1 m}
"""
    said = verdicts_of(OPEN, text)
    assert said["DC"] == [CannotJudge(Unknown("not settled", ("cables", "C-1", "from"), {"device": "DC"}))]
    assert [type(one) for one in said["SP"]] == [NotMet]
    assert said["A"] == [DoesNotApply("divides nothing")]
