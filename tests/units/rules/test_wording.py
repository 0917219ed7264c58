"""How values read in sentences: the formats that placeholders name."""

from __future__ import annotations

import pytest

from coaxwright.design.quantities import Band, Decibels, Length, Loss
from coaxwright.design.value_types import (
    BAND,
    COUNT,
    DECIBELS,
    FREQUENCY,
    LENGTH,
    ORDINAL,
    TAG,
    TEXT,
    WORD,
    Derived,
    Values,
    ValueType,
)
from coaxwright.rules.wording import faults, fill

METRES, FEET = Length.parse("3 m"), Length.parse("10 ft")


@pytest.mark.parametrize(
    ("text", "of", "value", "reads"),
    [
        ("{it}", FREQUENCY, 54e6, "54 MHz"),
        ("{it}", FREQUENCY, 50.0, "50 Hz"),
        ("{it:MHz}/54 MHz", FREQUENCY, 42e6, "42/54 MHz"),
        ("{it:MHz} MHz", FREQUENCY, 500e3, "0.5 MHz"),
        ("{it:MHz} MHz", FREQUENCY, 42.1234e6, "42.123 MHz"),
        ("{it}", BAND, Band.parse("5 to 42 MHz"), "5 MHz to 42 MHz"),
        ("{it}", BAND, Band.parse("1.2 GHz to 50 kHz"), "50 kHz to 1200 MHz"),
        ("{it:quoted}", TAG, "KITCHN", "'KITCHN'"),
        ("{it:quoted}", TEXT, "O'Neil", '"O\'Neil"'),
        ("{it:short}", LENGTH, Derived(0.04, METRES), "40 mm"),
        ("{it:short}", LENGTH, Derived(0.5999, FEET), "23.62 in"),
        ("{it:short}", LENGTH, Derived(0.6, FEET), "2 ft"),
        ("{it:short rounded up}", LENGTH, Derived(0.03451, METRES), "34.6 mm"),
        ("{it:short rounded up}", LENGTH, Derived(0.0345, METRES), "34.5 mm"),
        ("{it:short rounded up}", LENGTH, Derived(1.0481 * 0.0254, FEET), "1.049 in"),
        ("{it:short rounded up}", LENGTH, Length.parse("1.049 in"), "1.049 in"),
    ],
)
def test_a_value_reads(text: str, of: ValueType, value: object, reads: str) -> None:
    assert list(faults(text, {"it": of})) == []
    assert fill(text, {"it": value}, {"it": of}, {}) == reads


@pytest.mark.parametrize("limit", [3.01, Decibels.parse("3.01 dB"), Loss.parse("3.01 dB")])
def test_a_ratio_is_finer_than_its_limit_however_that_is_given(limit: object) -> None:
    types: Values = {"least": DECIBELS, "limit": DECIBELS}
    assert fill("{least:finer than limit}", {"least": 3.0103, "limit": limit}, types, {}) == "3.0103 dB"


@pytest.mark.parametrize(
    ("text", "of"), [("{it:MHz}", BAND), ("{it:kHz}", FREQUENCY), ("{it:MHz}", DECIBELS), ("{it:quoted}", LENGTH)]
)
def test_a_format_of_another_type_is_refused(text: str, of: ValueType) -> None:
    assert len(list(faults(text, {"it": of}))) == 1


@pytest.mark.parametrize(
    ("number", "reads"),
    [
        (1, "1st"),
        (2, "2nd"),
        (3, "3rd"),
        (4, "4th"),
        (11, "11th"),
        (12, "12th"),
        (13, "13th"),
        (21, "21st"),
        (111, "111th"),
    ],
)
def test_an_ordinal_reads_as_it_is_spoken(number: int, reads: str) -> None:
    assert list(faults("{it}", {"it": ORDINAL})) == []
    assert fill("{it}", {"it": number}, {"it": ORDINAL}, {}) == reads


@pytest.mark.parametrize(("number", "reads"), [(0, "no outputs"), (1, "one output"), (8, "8 outputs")])
def test_a_count_may_be_of_a_noun_that_is_a_value_itself(number: int, reads: str) -> None:
    types: Values = {"number": COUNT, "what": WORD}
    assert list(faults("{number:count of what}", types)) == []
    assert fill("{number:count of what}", {"number": number, "what": "output"}, types, {}) == reads


def test_a_count_of_a_value_that_is_not_there_is_refused() -> None:
    assert len(list(faults("{number:count of what}", {"number": COUNT}))) == 1
