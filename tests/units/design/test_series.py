"""Numbered names that follow one another."""

from __future__ import annotations

import pytest

from coaxwright.design.series import in_series


@pytest.mark.parametrize(
    ("words", "told"),
    [
        ([], []),
        (["in", "out-1", "out-2"], ["in", "out-1", "out-2"]),
        (["in", "out-1", "out-2", "out-3", "tap"], ["in", "out-1 to out-3", "tap"]),
        (["out-1", "out-2", "out-4", "out-5", "out-6"], ["out-1", "out-2", "out-4 to out-6"]),
        (["1", "2", "3"], ["1", "2", "3"]),
        (["out-08", "out-9", "out-10"], ["out-08", "out-9", "out-10"]),
    ],
)
def test_in_series(words: list[str], told: list[str]) -> None:
    assert in_series(words) == told
