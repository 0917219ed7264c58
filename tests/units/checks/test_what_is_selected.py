"""What each selector picks from a design, and what it calls it: ``coaxwright.checks.selectors``."""

from __future__ import annotations

import pytest

from coaxwright.checks.selectors import SELECTORS
from coaxwright.checks.subjects import Subject
from coaxwright.design import understand
from coaxwright.network import Network, build_network
from coaxwright.reviewing.effective_rules import catalogue_of
from coaxwright.source import read_text

DESIGN = """\
coaxwright: 1
title: Bench (invented)
basis: {rulesets: [trade 1]}
buildings: {house: {}, barn: {}}
places:
  closet: {building: house}
  den: {building: house}
  loft: {building: barn}
  yard: {exposure: outdoors}
  roof: {exposure: rooftop}
catalogue:
  classes:
    firm six: {like: series 6, velocity: 83 %}
services:
  air: {kind: terrestrial TV, from: ANT, down: {band: 470 to 602 MHz}}
  data: {kind: in-home data, from: MODEM}
devices:
  ANT: {kind: antenna, place: roof, owner: landlord, mast: {height: 2 m}}
  IN: {kind: antenna, place: den}
  OLD: {kind: antenna, place: roof, state: abandoned}
  GB: {kind: ground block, place: yard}
  SP: {kind: splitter, ways: 2, place: closet, state: existing}
  TV: {kind: outlet, place: den, serves: [air]}
  SPARE: {kind: outlet, place: loft, state: reserve, owner: tenant}
  LATER: {kind: outlet, state: reserve}
  MODEM: {kind: cable modem, place: den, serves: [data]}
cables:
  C-1: {from: ANT, to: GB, type: series 6, route: [roof: 3 m, yard: 2 m]}
  C-2: {from: GB, to: SP, type: series 6, route: [yard: 1 m, den: 9 m, closet: 2 m]}
  C-3: {from: SP, to: TV, type: firm six, route: [den: 9 m], owner: tenant}
  C-4: {from: SP, to: SPARE, type: series 6, length: 9 m, state: reserve}
  C-9: {from: SP, to: LATER, type: series 6, length: 9 m, state: abandoned}
raceways:
  R-1: {kind: electrical nonmetallic tubing}
  R-2: {kind: electrical nonmetallic tubing, state: abandoned}
bonding:
  ROD: {kind: ground rod, place: yard, owner: operator}
  IBT: {kind: intersystem bonding termination, place: yard}
  GONE: {kind: ground rod, place: yard, state: abandoned}
  B-1: {from: GB, to: IBT, conductor: 10 AWG copper, length: 3 ft, owner: operator, state: existing}
  B-9: {from: GB, to: ROD, conductor: 10 AWG copper, length: 3 ft, state: abandoned}
variances:
  - {rule: level.isolation, item: SP, facet: air, reason: old, granted by: the owner}
  - {rule: level.isolation, item: SP, reason: old, granted by: the owner}
  - {rule: level.isolation, item: SP, reason: older, granted by: the owner}
"""


def network() -> Network:
    document = read_text(DESIGN, "bench.coax.yaml")
    design = understand(document)
    return build_network(design, catalogue_of(document, design)[0])


PLANT = network()


def subjects(name: str) -> dict[str, list[Subject]]:
    (selector,) = (one for one in SELECTORS if one.name == name)
    found: dict[str, list[Subject]] = {}
    for thing in selector.select(PLANT):
        subject = selector.describe(thing)
        found.setdefault(subject.tag, []).append(subject)
    return found


@pytest.mark.parametrize(
    ("name", "tags"),
    [
        ("device", "ANT GB IN LATER MODEM SP SPARE TV"),
        ("outdoor antenna", "ANT"),
        ("cable", "C-1 C-2 C-3 C-4"),
        ("cable, also an abandoned one", "C-1 C-2 C-3 C-4 C-9"),
        ("thing kept in reserve", "C-4 LATER SPARE"),
        ("outlet and service wanted there", "TV MODEM"),
        ("bonding conductor", "B-1"),
        ("electrode, termination and service equipment", "IBT ROD"),
        ("electrode apart from the building's", "ROD"),
        ("raceway", "R-1"),
        ("service", "air data"),
        ("in-home data service", "data"),
        ("entry of a cable into a building", "C-2 C-4"),  # of which one leads on to the barn
        ("cable class of the design's own", "firm six"),
        ("variance", "SP"),
    ],
)
def test_what_is_picked(name: str, tags: str) -> None:
    assert set(subjects(name)) == ({tags} if name.startswith("cable class") else set(tags.split()))


@pytest.mark.parametrize(
    ("name", "tag", "subject"),
    [
        ("device", "SP", Subject("device", "SP", ("devices", "SP"), "", "closet, house", "owner", "existing")),
        ("device", "ANT", Subject("device", "ANT", ("devices", "ANT"), "", "roof", "landlord", "new")),
        ("device", "LATER", Subject("device", "LATER", ("devices", "LATER"), "", "", "owner", "reserve")),
        ("cable", "C-1", Subject("cable", "C-1", ("cables", "C-1"), "", "roof to yard", "owner", "new")),
        ("cable", "C-2", Subject("cable", "C-2", ("cables", "C-2"), "", "yard to closet")),
        ("cable", "C-3", Subject("cable", "C-3", ("cables", "C-3"), "", "den", "tenant", "new")),
        ("cable", "C-4", Subject("cable", "C-4", ("cables", "C-4"), "", "", "owner", "reserve")),
        (
            "thing with a tag",
            "SPARE",
            Subject("device", "SPARE", ("devices", "SPARE"), "", "loft", "tenant", "reserve"),
        ),
        ("thing with a tag", "LATER", Subject("device", "LATER", ("devices", "LATER"), "", "", "owner", "reserve")),
        ("thing with a tag", "air", Subject("service", "air", ("services", "air"), "", "", "owner", "new")),
        (
            "bonding conductor",
            "B-1",
            Subject("bonding conductor", "B-1", ("bonding", "B-1"), "", "GB to IBT", "operator", "existing"),
        ),
        (
            "electrode, termination and service equipment",
            "ROD",
            Subject("ground rod", "ROD", ("bonding", "ROD"), "", "yard", "operator", "new"),
        ),
        (
            "outlet and service wanted there",
            "TV",
            Subject("device", "TV", ("devices", "TV"), "air", "den, house", "owner", "new"),
        ),
        ("entry of a cable into a building", "C-2", Subject("cable", "C-2", ("cables", "C-2"), "house", "yard")),
    ],
)
def test_what_it_is_called(name: str, tag: str, subject: Subject) -> None:
    assert subjects(name)[tag] == [subject]


def test_a_mast_is_told_apart_from_a_protector() -> None:
    assert {tag: [one.second for one in said] for tag, said in subjects("protector and metal mast").items()} == {
        "GB": [""],
        "ANT": ["mast"],
    }


def test_what_is_granted_is_told_apart_by_its_facet() -> None:
    assert [one.second for one in subjects("variance")["SP"]] == ["level.isolation, air", "level.isolation"]
