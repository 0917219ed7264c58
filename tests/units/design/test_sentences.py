"""Pieces of language."""

from __future__ import annotations

import pytest

from coaxwright.design.quantities import Length, Level, in_feet, in_meters, in_system, total
from coaxwright.design.sentences import (
    article,
    count,
    decibels,
    frequency,
    length_apart,
    level_number,
    level_text,
    level_unit,
    listed,
    ohms,
    plural,
)


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
    assert plural(noun) == text


def test_a_sum_of_lengths_that_nobody_may_write_is_still_told() -> None:
    whole = total([Length.parse("999999999 ft"), Length.parse("314 ft")])
    assert length_apart(whole, Length.parse("300 ft")) == "1000000313 ft"
    assert length_apart(in_feet(300.004), Length.parse("300 ft")) == "300.004 ft"


@pytest.mark.parametrize(
    ("length", "limit", "text"),
    [
        (in_feet(300.00444), "300 ft", "300.004 ft"),
        (in_feet(300.000004), "300 ft", "300.000004 ft"),
        (in_feet(300.0000004), "300 ft", "300 ft"),
        (in_meters(90.00444), "90 m", "90.004 m"),
        (Length.parse("90.0 m"), "90 m", "90 m"),
        (Length.parse("90.01 m"), "90 m", "90.01 m"),
        (in_feet(300.00444), "290 ft", "300 ft"),
    ],
)
def test_a_length_is_told_as_finely_as_it_takes_not_to_look_like_its_limit(
    length: Length, limit: str, text: str
) -> None:
    assert length_apart(length, Length.parse(limit)) == text


@pytest.mark.parametrize(
    ("figure", "limit", "text"),
    [
        (13.94, 14.0, "13.9"),
        (13.96, 14.0, "13.96"),
        (13.999996, 14.0, "13.999996"),
        (13.9999996, 14.0, "14"),
        (13.96, None, "14"),
        (13.96, 15.0, "14"),
    ],
)
def test_a_figure_is_told_as_finely_as_it_takes_not_to_look_like_its_limit(
    figure: float, limit: float | None, text: str
) -> None:
    assert decibels(figure, limit) == f"{text} dB"
    assert level_text(figure, Level.parse("14 dBmV"), limit) == f"{text} dBmV"


@pytest.mark.parametrize(
    ("like", "text"),
    [
        ("14 dBmV", "2 dBmV"),
        ("+14 dBmV", "2 dBmV"),
        ("-14 dBmV", "2 dBmV"),
        ("\N{MINUS SIGN}14.5 dBmV", "2 dBmV"),
        ("74 dB\N{MICRO SIGN}V", "62 dB\N{MICRO SIGN}V"),
        ("74 dB\N{GREEK SMALL LETTER MU}V", "62 dB\N{MICRO SIGN}V"),
        ("74 dBuV", "62 dB\N{MICRO SIGN}V"),
        ("-40 dBm", "-46.8 dBm"),
    ],
)
def test_a_level_is_told_in_the_unit_of_another(like: str, text: str) -> None:
    """0 dBmV is 60 dBuV; 1 mV in 75 ohm is 10 log(1e-6 / 75 / 1e-3) = -48.75 dBm: textbook identities."""
    number, _, unit = text.partition(" ")
    assert level_text(2.0, Level.parse(like)) == text
    assert (level_number(2.0, Level.parse(like)), level_unit(Level.parse(like))) == (number, unit)


def test_a_level_in_another_unit_is_told_as_finely_as_it_takes() -> None:
    assert level_text(13.96, Level.parse("74 dBuV"), 14.0) == "73.96 dB\N{MICRO SIGN}V"
    assert level_text(0.04, Level.parse("-48.8 dBm"), 0.0) == "-48.7 dBm"
    assert level_text(0.01, Level.parse("-48.8 dBm"), 0.03) == "-48.74 dBm"
