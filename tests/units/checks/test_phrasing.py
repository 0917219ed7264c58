"""Pieces of language."""

from __future__ import annotations

import pytest

from coaxwright.checks.phrasing import (
    article,
    count,
    decibels,
    frequency,
    in_system,
    length_text,
    listed,
    ohms,
    several,
)
from coaxwright.design.quantities import Length, in_feet, total


@pytest.mark.parametrize(
    ("words", "text"),
    [
        ([], ""),
        (["a"], "a"),
        (["a", "b"], "a and b"),
        (["a", "b", "c"], "a, b and c"),
        (list("abcdefgh"), "a, b, c, d, e, f, g and h"),
        (list("abcdefghij"), "a, b, c, d, e, f, g, h and 2 more"),
    ],
)
def test_listed(words: list[str], text: str) -> None:
    assert listed(words) == text


def test_listed_with_another_last_word() -> None:
    assert listed(["a", "b", "c"], "or") == "a, b or c"


@pytest.mark.parametrize(
    ("number", "text"), [(0, "no outputs"), (1, "one output"), (2, "two outputs"), (3, "3 outputs"), (12, "12 outputs")]
)
def test_count(number: int, text: str) -> None:
    assert count(number, "output") == text


@pytest.mark.parametrize(
    ("noun", "text"),
    [
        ("outlet", "an outlet"),
        ("splitter", "a splitter"),
        ("Entry", "an Entry"),
        ("8-way splitter", "an 8-way splitter"),
        ("16-way splitter", "a 16-way splitter"),
        ("unbalanced splitter", "an unbalanced splitter"),
        ("UHF antenna", "a UHF antenna"),
    ],
)
def test_article(noun: str, text: str) -> None:
    assert article(noun) == text


def test_figures_as_the_trade_writes_them() -> None:
    told = [frequency(freq_hz) for freq_hz in (0, 50, 1.5e3, 1e6, 533e6, 1.5e6, 1002e6, 2150e6, 5.8e9)]
    assert told == ["0 Hz", "50 Hz", "1.5 kHz", "1 MHz", "533 MHz", "1.5 MHz", "1002 MHz", "2150 MHz", "5.8 GHz"]
    assert (ohms(75), ohms(61.54)) == ("75 Ω", "61.5 Ω")
    assert (decibels(14.0), decibels(0.649)) == ("14 dB", "0.6 dB")
    assert in_system(Length.parse("20 ft"), False) == 20
    assert in_system(Length.parse("20 ft"), True) == pytest.approx(6.096)


@pytest.mark.parametrize(
    ("noun", "text"),
    [
        ("place", "places"),
        ("cable type", "cable types"),
        ("port of MS", "ports of MS"),
        ("thing to bond", "things to bond"),
        ("thing to bond to", "things to bond to"),
        ("number of ways of a tap", "numbers of ways of a tap"),
    ],
)
def test_several(noun: str, text: str) -> None:
    assert several(noun) == text


def test_a_sum_of_lengths_that_nobody_may_write_is_still_told() -> None:
    whole = total([Length.parse("999999999 ft"), Length.parse("314 ft")])
    assert length_text(whole, Length.parse("300 ft")) == "1000000313 ft"
    assert length_text(in_feet(300.004), Length.parse("300 ft")) == "300.004 ft"
