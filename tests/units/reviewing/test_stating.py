"""How to state a figure that is missing: the key to write, and where."""

from __future__ import annotations

import pytest

from coaxwright.reviewing.missing_value_hint import UNSAID, missing_value_hint
from coaxwright.source import Path


@pytest.mark.parametrize(
    ("root", "told"),
    [
        (("cables", "C-103", "length"), "write 'length: …' at C-103"),
        (("places", "ceiling", "return air"), "write 'return air: …' at ceiling"),
        (("basis", "occupancy"), "write 'occupancy: …' in 'basis'"),
        (("services", "net", "up", "wanted"), "write 'wanted: …' at up of net"),
        (("devices", "ANT", "mast", "height"), "write 'height: …' at mast of ANT"),
        (("cables", "C-1", "route", 0, "eaves", "height"), "write 'height: …' at eaves of C-1"),
        (("cables", "C-1", "route", 0), UNSAID),
        ((), UNSAID),
    ],
)
def test_what_to_write(root: Path, told: str) -> None:
    assert missing_value_hint(root, is_written=False) == told


def test_what_is_written_already_is_told_by_its_cause() -> None:
    assert missing_value_hint(("cables", "C-103", "type"), is_written=True) == UNSAID
