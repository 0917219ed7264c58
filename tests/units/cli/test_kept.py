"""Which calls may be answered by a report that is kept, and what of their words bears on it."""

from __future__ import annotations

import pytest

from coaxwright.cli.cached_reports import _parted


@pytest.mark.parametrize(
    ("words", "parted"),
    [
        (["a.coax.yaml", "plans"], ((), ("a.coax.yaml", "plans"))),
        (["--as", "json", "a"], (("--as", "json"), ("a",))),
        (["a", "--as=json"], (("--as", "json"), ("a",))),
        (["a", "--plain", "--width", "80"], (("--plain", "--width", "80"), ("a",))),
        (
            ["a", "--returns-at", "advice", "--as-of=2026-05-31"],
            (("--returns-at", "advice", "--as-of", "2026-05-31"), ("a",)),
        ),
        (["a", "--workers", "4", "--fresh"], ((), ("a",))),
        (["a", "--workers=4"], ((), ("a",))),
        (["--plain"], None),
        (["a", "--as"], None),
        (["a", "--into", "report.txt"], None),
        (["a", "--also=json=report.json"], None),
        (["a", "--timing"], None),
        (["a", "--plainly"], None),
        (["a", "--plain=yes"], None),
        (["a", "--", "b"], None),
        (["a", "-"], None),
    ],
    ids=lambda value: " ".join(value) if isinstance(value, list) else "",
)
def test_words_of_a_call(words: list[str], parted: object) -> None:
    assert _parted(words) == parted
