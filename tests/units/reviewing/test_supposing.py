"""Suppositions change what is computed, never the file."""

from __future__ import annotations

import re
from typing import Any

import pytest

from coaxwright.analysis import Analysis, LossRange
from coaxwright.design import Design, understand
from coaxwright.network import build_network
from coaxwright.reviewing.what_if import SuppositionError, suppose
from coaxwright.source import read_text

SITE = """\
coaxwright: 1
title: x (invented)
basis: {rulesets: [trade 1]}
services:
  net:
    kind: cable broadband
    from: DROP
    down: {band: 55 to 1000 MHz, level: [6 dBmV at 55 MHz, 0 dBmV at 1000 MHz]}
    up: {band: 5 to 42 MHz, wanted: 35 dBmV}
devices:
  DROP: {kind: coax drop}
  SP:   {kind: splitter, ways: 2}
  TV:   {kind: outlet, serves: [net]}
cables:
  C-1: {from: DROP, to: SP, type: series 6 quad outdoor, length: 100 ft}
  C-2: {to: SP.out-2, from: TV, type: series 6, length: 50 ft}
"""


def read() -> tuple[Design, dict[str, Any]]:
    document = read_text(SITE, "x")
    assert isinstance(document.data, dict)
    return understand(document), document.data


def level(*texts: str) -> float:
    design, data = read()
    before = read_text(SITE, "x").data
    analysis = Analysis(build_network(suppose(design, data, texts)))
    assert data == before
    found = analysis.outlets("net")[0].readings[1].level_dbmv
    assert isinstance(found, LossRange)
    return found.nominal


# Series 6 and Series 11 at 1000 MHz: 6.55 and 4.35 dB/100 ft. Source: ANSI/SCTE 74, maximum attenuation, from memory.
@pytest.mark.parametrize(
    ("texts", "gained_db"),
    [
        ((), 0.0),
        (("C-1 in series 11",), 6.55 - 4.35),
        (("amplifier of 12 dB ahead of SP",), 12.0),
        (("pad of 6 dB ahead of TV",), -6.0),
        (("net with 10 dBmV at 55 MHz, 5 dBmV at 1000 MHz",), 5.0),
        (("amplifier of 12 dB ahead of SP", "pad of 3 dB ahead of SP"), 9.0),
    ],
)
def test_a_supposition_changes_the_level_by_what_it_says(texts: tuple[str, ...], gained_db: float) -> None:
    assert level(*texts) - level() == pytest.approx(gained_db, abs=0.01)


def test_another_class_keeps_the_jacket_where_it_is_made_with_it() -> None:
    design, data = read()
    assert suppose(design, data, ["C-1 in series 11"]).cables["C-1"].type == "series 11 outdoor"
    assert suppose(design, data, ["C-1 in series 11 flooded"]).cables["C-1"].type == "series 11 flooded"


def test_what_is_put_in_passes_the_return_path_as_well() -> None:
    design, data = read()
    analysis = Analysis(build_network(suppose(design, data, ["amplifier of 12 dB ahead of SP"])))
    assert len(analysis.outlets("net", "up")[0].readings) == 2


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("C-3 in series 11", "the design has no cable 'C-3'; did you mean 'C-1'?"),
        ("C-1 in series 12", "'series 12' names no cable class; usual ones are"),
        ("pad of 6 dB ahead of TVs", "the design has no device 'TVs'; did you mean 'TV'?"),
        ("pad of 5 dB ahead of TV", "no pad of 5 dB is made; there are 3 dB, 6 dB, 10 dB, 20 dB"),
        ("pad of 6 ahead of TV", "'6' is not a ratio in decibels; write '3.5 dB'"),
        ("amplifier of -6 dB ahead of SP", "amplifier of -6 dB: write a figure above 0 dB"),
        ("pad of 0 dB ahead of SP", "pad of 0 dB: write a figure above 0 dB"),
        ("amplifier of 6 dB ahead of DROP", "no cable leads into DROP, so nothing can be put ahead of it"),
        ("nets with 5 dBmV at 55 MHz", "the design has no service 'nets'; did you mean 'net'?"),
        ("more level", "'more level' is not understood; write it like 'C-104 in series 11', "),
    ],
)
def test_what_is_not_understood_is_told_with_the_nearest_right_word(text: str, said: str) -> None:
    design, data = read()
    with pytest.raises(Exception) as raised:  # noqa: PT011  either of two of our errors; the text is what matters
        suppose(design, data, [text])
    assert said in str(raised.value)
    assert isinstance(raised.value, SuppositionError) or "write" in str(raised.value)


MULTISWITCH = """\
coaxwright: 1
title: x (invented)
basis: {rulesets: [trade 1]}
devices:
  ANT: {kind: antenna}
  LNB: {kind: LNB, outputs: 1}
  MS:  {kind: multiswitch, outputs: 4}
cables:
  C-1: {from: ANT, to: MS.terrestrial, type: series 6, length: 10 m}
  C-2: {from: LNB, to: MS.vertical-low, type: series 6, length: 10 m}
"""


def test_of_several_inputs_the_one_that_is_meant_is_named() -> None:
    document = read_text(MULTISWITCH, "x.coax.yaml")
    assert isinstance(document.data, dict)
    design = understand(document)
    changed = suppose(design, document.data, ["amplifier of 11 dB ahead of MS.terrestrial"])
    assert changed.cables is not None
    assert changed.cables["C-1"].to == "supposed amplifier 1.in"
    assert changed.cables["supposed amplifier 1 jumper"].to == "MS.terrestrial"
    for text, said in (
        ("ahead of MS", "several cables lead into MS: say ahead of which, such as MS.terrestrial, MS.vertical-low"),
        ("ahead of MS.terrestial", "the design has no port of MS 'terrestial'; did you mean 'terrestrial'?"),
        ("ahead of MS.out-1", "no cable leads into MS.out-1, so nothing can be put ahead of it"),
    ):
        with pytest.raises(SuppositionError, match=re.escape(said)):
            suppose(design, document.data, [f"amplifier of 11 dB {text}"])
