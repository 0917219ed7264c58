"""Words that people write for ours. What is meant by them is the trade's usage: common practice, no source."""

from __future__ import annotations

from typing import get_args

import pytest

from coaxwright.design.contract import committed_schema
from coaxwright.design.nearest import likeliest, nearest_edition, nearest_word
from coaxwright.design.synonyms import folded, synonym_tables
from coaxwright.design.words import (
    BondKind,
    ChannelStandard,
    DeviceKind,
    Exposure,
    Occupancy,
    Owner,
    ServiceKind,
    Stage,
    State,
)
from coaxwright.rules.ruleset_registry import shipped_registry

WORDS = {
    "devices": get_args(DeviceKind),
    "bonding": get_args(BondKind),
    "services": get_args(ServiceKind),
    "exposure": get_args(Exposure),
    "occupancy": get_args(Occupancy),
    "standard": get_args(ChannelStandard),
    "sections": tuple(committed_schema()["properties"]),
    "conductor": tuple(committed_schema()["$defs"]["bonditem"]["properties"]),
    "cable": tuple(committed_schema()["$defs"]["cable"]["properties"]),
}
MEANT = [
    ("devices", "aerial", "antenna"),
    ("devices", "roof aerial", "antenna"),
    ("devices", "DVR", "video recorder"),
    ("devices", "recorder", "video recorder"),
    ("devices", "wall plate", "outlet"),
    ("devices", "Wall-Plate", "outlet"),
    ("devices", "TV point", "outlet"),
    ("devices", "socket", "outlet"),
    ("devices", "earthing block", "ground block"),
    ("devices", "earth block", "ground block"),
    ("devices", "CCTV", "camera"),
    ("devices", "surge arester", "protector"),
    ("devices", "satellite dish", "dish"),
    ("devices", "antenna preamplifier", "preamplifier"),
    ("devices", "2-way splitter", "splitter"),
    ("devices", "preamp", "preamplifier"),
    ("devices", "pad", "attenuator"),
    ("devices", "modem", "cable modem"),
    ("devices", "kettle", None),
    ("bonding", "main earthing terminal", "grounding electrode system"),
    ("bonding", "MET", "grounding electrode system"),
    ("bonding", "earth rod", "ground rod"),
    ("bonding", "IBT", "intersystem bonding termination"),
    ("services", "off-air TV", "terrestrial TV"),
    ("services", "OTA", "terrestrial TV"),
    ("services", "CCTV", "camera video"),
    ("services", "internet", "cable broadband"),
    ("services", "CATV", "cable broadband"),
    ("exposure", "loft", "attic"),
    ("exposure", "underground", "buried"),
    ("exposure", "roof", "rooftop"),
    ("occupancy", "other", "commercial"),
    ("occupancy", "house", "one-family dwelling"),
    ("occupancy", "flats", "multifamily dwelling"),
    ("standard", "ATSC", "8VSB"),
    ("standard", "ATSC 3", "ATSC 3.0"),
    ("standard", "QAM 256", "256-QAM"),
    ("standard", "NTSC", "analog"),
    ("sections", "rooms", "places"),
    ("sections", "grounding", "bonding"),
    ("sections", "equipment", "devices"),
    ("sections", "wiring", "cables"),
    ("sections", "device", "devices"),
    ("conductor", "size", "conductor"),
    ("cable", "color", "color"),
]


@pytest.mark.parametrize(("where", "written", "meant"), MEANT)
def test_a_word_that_people_write_leads_to_ours(where: str, written: str, meant: str | None) -> None:
    assert nearest_word(written, WORDS[where]) == meant


def test_a_meaning_that_is_written_already_gives_way_to_another() -> None:
    fields = ("kind", "variant", "place")
    assert nearest_word("type", fields) == "kind"
    assert nearest_word("type", fields, taken=("kind",)) == "variant"
    assert nearest_word("place", fields, taken=("place",)) == "place"


def test_every_synonym_stands_for_a_word_that_there_is() -> None:
    schema = committed_schema()
    known = {folded(key) for part in (schema, *schema["$defs"].values()) for key in part.get("properties", {})}
    kinds = {folded(word) for kind in (DeviceKind, BondKind, ServiceKind) for word in get_args(kind)}
    closed = (Exposure, Occupancy, Owner, Stage, State, ChannelStandard)
    words = {folded(word) for kind in closed for word in get_args(kind)} | set(shipped_registry().names)
    ours = {folded(word) for table in synonym_tables().values() for word in table}
    assert ours <= known | kinds | words | {"true", "false"}


@pytest.mark.parametrize(
    ("title", "kind"),
    [
        ("kinds of devices", DeviceKind),
        ("kinds of bonding items", BondKind),
        ("kinds of services", ServiceKind),
    ],
)
def test_no_synonym_of_a_kind_is_a_kind_or_stands_for_two(title: str, kind: object) -> None:
    table = synonym_tables()[title]
    assert set(table) <= set(get_args(kind))
    theirs = [folded(word) for words in table.values() for word in words]
    assert len(theirs) == len(set(theirs))
    assert not {folded(word) for word in get_args(kind)} & set(theirs)


def test_the_likeliest_of_many_words_are_kept_in_their_order() -> None:
    words = ["kind", "place", "gain", "input level", "output level", "note"]
    assert likeliest("levels", words, 3) == ["kind", "input level", "output level"]
    assert likeliest("xyzzy", words, 2) == ["kind", "place"]


@pytest.mark.parametrize(
    ("written", "meant"),
    [("NEC 2023", "us 2023"), ("NFPA 70 2020", "us 2020"), ("US 2017", "us 2017"), ("Firm-House 2", "firm-house 2")],
)
def test_a_code_leads_to_the_ruleset_that_holds_it(written: str, meant: str) -> None:
    assert nearest_edition(written) == meant
