"""The author's texts in Markdown. Read by a CommonMark parser in conformance."""

from __future__ import annotations

import pytest

from coaxwright.reports.markdown import plain, wrapped

AS_THEY_ARE = ["C-104", "flat-01/SP.out-2", "as_drawn_2.yaml", "[found in part]", "5 > 3", "100.5(A)", "50 Ω", "3 & 4"]
ESCAPED = {
    "a*b": r"a\*b",
    "`x`": r"\`x\`",
    "<b>": r"\<b>",
    "_x_": r"\_x\_",
    "[a](b)": r"[a\](b)",
    "[a]: b": r"[a\]: b",
    "[ ] x": r"\[ ] x",
    "a | b": r"a \| b",
    "&lt;": r"\&lt;",
    "&#60;": r"\&#60;",
    "a\\b": r"a\\b",
}


@pytest.mark.parametrize("text", AS_THEY_ARE)
def test_ordinary_texts_stay_as_they_are(text: str) -> None:
    assert plain(text) == text


@pytest.mark.parametrize("text", ESCAPED)
def test_what_means_something_is_escaped(text: str) -> None:
    assert plain(text) == ESCAPED[text]


@pytest.mark.parametrize("word", ["-", "+", "#", "###", "1.", "12)", "===", "---", ">x"])
def test_no_word_begins_a_block_by_beginning_a_line(word: str) -> None:
    first, second = wrapped(f"{'x' * 20} {word} y", 21)
    assert first == "x" * 20
    assert second.replace("\\", "") == f"{word} y"
    assert second != f"{word} y"
    (line,) = wrapped(f"x {word} y", 60)
    assert line == f"x {word} y"


@pytest.mark.parametrize("word", ["-5", "1.5", "#1", "20", "+3", "a-"])
def test_other_words_are_left_alone(word: str) -> None:
    assert list(wrapped(f"{'x' * 20} {word} y", 21)) == ["x" * 20, f"{word} y"]


def test_a_word_that_is_too_wide_has_a_line_to_itself() -> None:
    assert list(wrapped(f"a {'x' * 90} b", 60, "- ")) == ["- a", f"  {'x' * 90}", "  b"]
