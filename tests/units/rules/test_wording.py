"""How values read in sentences: the formats that placeholders name."""

from __future__ import annotations

import pytest

from coaxwright.design.quantities import Band, Decibels, Loss
from coaxwright.design.value_types import BAND, DECIBELS, FREQUENCY, Values, ValueType
from coaxwright.rules.wording import faults, fill


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
    ],
)
def test_a_value_reads(text: str, of: ValueType, value: object, reads: str) -> None:
    assert list(faults(text, {"it": of})) == []
    assert fill(text, {"it": value}, {"it": of}, {}) == reads


@pytest.mark.parametrize("limit", [3.01, Decibels.parse("3.01 dB"), Loss.parse("3.01 dB")])
def test_a_ratio_is_finer_than_its_limit_however_that_is_given(limit: object) -> None:
    types: Values = {"least": DECIBELS, "limit": DECIBELS}
    assert fill("{least:finer than limit}", {"least": 3.0103, "limit": limit}, types, {}) == "3.0103 dB"


@pytest.mark.parametrize(("text", "of"), [("{it:MHz}", BAND), ("{it:kHz}", FREQUENCY), ("{it:MHz}", DECIBELS)])
def test_a_format_of_another_type_is_refused(text: str, of: ValueType) -> None:
    assert len(list(faults(text, {"it": of}))) == 1
