"""How values read in sentences: the formats that placeholders name."""

from __future__ import annotations

import pytest

from coaxwright.design.quantities import Length
from coaxwright.design.value_types import LENGTH, Derived, ValueType
from coaxwright.rules.wording import faults, fill

METRES, FEET = Length.parse("3 m"), Length.parse("10 ft")


@pytest.mark.parametrize(
    ("text", "of", "value", "reads"),
    [
        ("{it:short}", LENGTH, Derived(0.04, METRES), "40 mm"),
        ("{it:short}", LENGTH, Derived(0.5999, FEET), "23.62 in"),
        ("{it:short}", LENGTH, Derived(0.6, FEET), "2 ft"),
        ("{it:rounded up}", LENGTH, Derived(0.03451, METRES), "34.6 mm"),
        ("{it:rounded up}", LENGTH, Derived(0.0345, METRES), "34.5 mm"),
        ("{it:rounded up}", LENGTH, Derived(1.0481 * 0.0254, FEET), "1.049 in"),
        ("{it:rounded up}", LENGTH, Length.parse("1.049 in"), "1.049 in"),
    ],
)
def test_a_value_reads(text: str, of: ValueType, value: object, reads: str) -> None:
    assert list(faults(text, {"it": of})) == []
    assert fill(text, {"it": value}, {"it": of}, {}) == reads
