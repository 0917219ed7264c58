"""The committed schemas and reference page are what the models generate."""

from __future__ import annotations

from pathlib import Path

import pytest

from coaxwright.publish import generated

TOP = Path(__file__).parents[3]


@pytest.mark.parametrize("path", generated(TOP), ids=lambda path: path.name)
def test_committed_file_is_up_to_date(path: Path) -> None:
    assert path.read_text(encoding="utf-8") == generated(TOP)[path], (
        "the models changed: run python -m coaxwright.publish"
    )
