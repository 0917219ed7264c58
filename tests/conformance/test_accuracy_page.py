"""docs/accuracy.md says what the tests of this folder found; runs behind them."""

from __future__ import annotations

import os

import pytest
from accuracy import NOTES, PAGE, Note, page, rounded_up


def test_the_page_is_up_to_date(whole_folder: bool) -> None:
    if not whole_folder:
        pytest.skip("the page needs every comparison: run the whole folder")
    assert NOTES
    if os.environ.get("COAXWRIGHT_WRITE_ACCURACY") == "1":
        PAGE.write_text(page(NOTES), encoding="utf-8")
    assert PAGE.read_text(encoding="utf-8") == page(NOTES), (
        "the figures changed: COAXWRIGHT_WRITE_ACCURACY=1 pytest tests/conformance"
    )


@pytest.mark.parametrize(
    ("value", "shown"),
    [
        (0.0, "0"),
        (1e-12, "0"),
        (0.0151, "0.016"),
        (0.0125, "0.013"),
        (0.01, "0.01"),
        (9.96, "10"),
        (123.4, "130"),
        (0.30000000004, "0.3"),
    ],
)
def test_deviations_are_rounded_up_to_two_digits(value: float, shown: str) -> None:
    assert rounded_up(value) == shown


def test_a_row_for_each_document_with_its_largest_deviation() -> None:
    notes = [Note("loss", "a table", deviation, "dB", allowed) for deviation, allowed in ((0.1, 0.2), (0.15, 0.3))]
    assert page(notes).endswith("| loss | a table | 2 | 0.15 dB | 0.3 dB |\n")
