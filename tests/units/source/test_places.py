"""Every key and value remembers exactly where it was written."""

from __future__ import annotations

import pytest

from coaxwright.source import Document, Path, read_text
from coaxwright.source.place import position_at


def written(document: Document, path: Path, *, of_key: bool = False) -> str:
    span = document.span(path, of_key=of_key)
    return document.text[span.start.index : span.end.index]


def place(document: Document, path: Path, *, of_key: bool = False) -> tuple[int, int, int, int]:
    span = document.span(path, of_key=of_key)
    return span.start.line, span.start.column, span.end.line, span.end.column


BLOCK = """\
cables:   # runs
  C-101:
    from: 'DROP'

    route:
      - attic: 38 ft
      -  closet:  9 ft

# after

note: |
  two
  lines

many: [a , {b: c}  , "d e"]
nothing:
last: >-
  folded
"""

TIGHT = [
    (("cables", "C-101", "from"), "'DROP'"),
    (("cables", "C-101"), "from: 'DROP'\n\n    route:\n      - attic: 38 ft\n      -  closet:  9 ft"),
    (("cables", "C-101", "route"), "- attic: 38 ft\n      -  closet:  9 ft"),
    (("cables", "C-101", "route", 1), "closet:  9 ft"),
    (("cables", "C-101", "route", 1, "closet"), "9 ft"),
    (("note",), "|\n  two\n  lines"),
    (("many",), '[a , {b: c}  , "d e"]'),
    (("many", 1), "{b: c}"),
    (("many", 1, "b"), "c"),
    (("many", 2), '"d e"'),
    (("nothing",), ""),
    (("last",), ">-\n  folded"),
    ((), BLOCK.removesuffix("\n")),
]


@pytest.mark.parametrize(("path", "text"), TIGHT, ids=[str(path) for path, _ in TIGHT])
def test_spans_are_tight(path: Path, text: str) -> None:
    assert written(read_text(BLOCK, "x"), path) == text


def test_keys_have_their_own_span() -> None:
    document = read_text("'a b': {c : 1}\n? d\n: 2\n", "x")
    assert written(document, ("a b",), of_key=True) == "'a b'"
    assert written(document, ("a b", "c"), of_key=True) == "c"
    assert place(document, ("d",), of_key=True) == (2, 3, 2, 4)


def test_a_text_that_keeps_its_line_breaks_keeps_them_in_its_span() -> None:
    assert written(read_text("a: |+\n  b\n\n\nc: 1\n", "x"), ("a",)) == "|+\n  b\n\n\n"


def test_what_is_absent_is_placed_at_the_nearest_thing_above_it() -> None:
    document = read_text("a:\n  b: 1\n", "x")
    assert place(document, ("a", "z")) == (1, 1, 1, 2)
    assert place(document, ("a", "b", "c")) == (2, 3, 2, 4)
    assert place(document, ("z",)) == (1, 1, 2, 7)
    assert document.has(("a", "b"))
    assert not document.has(("a", "z"))
    assert not document.has(("a", "b", "c"))


def test_columns_count_code_points() -> None:
    document = read_text("é: {😀: x, b: y}\n", "x")
    assert place(document, ("é", "😀"), of_key=True) == (1, 5, 1, 6)
    assert place(document, ("é", "b")) == (1, 14, 1, 15)


@pytest.mark.parametrize("line_break", ["\n", "\r\n", "\r"])
def test_every_line_break_is_one_line(line_break: str) -> None:
    document = read_text(line_break.join(["a: 1", "", "# c", "b: {c: 2}"]), "x")
    assert document.data == {"a": 1, "b": {"c": 2}}
    assert place(document, ("b", "c")) == (4, 8, 4, 9)
    assert document.lines == ["a: 1", "", "# c", "b: {c: 2}"]


def test_a_byte_order_mark_takes_no_column() -> None:
    document = read_text("\ufeffa: 1\n", "x")
    assert document.has_byte_order_mark
    assert document.text == "a: 1\n"
    assert place(document, ("a",)) == (1, 4, 1, 5)
    assert not read_text("a: 1\n", "x").has_byte_order_mark


def test_a_tab_is_one_column() -> None:
    document = read_text("a:\t1\t# c\nb: 'x\ty'\n", "x")
    assert document.data == {"a": 1, "b": "x\ty"}
    assert place(document, ("a",)) == (1, 4, 1, 5)


@pytest.mark.parametrize("text", ["", "# only a comment\n", "---\n", "\n\n"])
def test_nothing_written(text: str) -> None:
    assert read_text(text, "x").data is None


def test_a_file_without_a_final_line_break() -> None:
    document = read_text("a:\n  - b", "x")
    assert document.data == {"a": ["b"]}
    assert place(document, ("a", 0)) == (2, 5, 2, 6)


def test_a_scalar_of_a_megabyte() -> None:
    document = read_text("a: " + "x" * 1_000_000 + "\nb: 1", "x")
    assert place(document, ("a",)) == (1, 4, 1, 1_000_004)
    assert place(document, ("b",)) == (2, 4, 2, 5)


def test_order_is_that_of_the_text() -> None:
    document = read_text("b: {d: 1, c: [2, 3]}\na: 4\n", "x")
    assert list(document.order()) == [
        (),
        ("b",),
        ("b", "d"),
        ("b", "c"),
        ("b", "c", 0),
        ("b", "c", 1),
        ("a",),
    ]


def test_numbers_keep_their_spelling() -> None:
    document = read_text("a: 012\nb: [1e3, '5', x, 0o14]\nc: {d: -0}\n", "x")
    assert document.numbers == {("a",): "012", ("b", 0): "1e3", ("b", 3): "0o14", ("c", "d"): "-0"}


def test_keys_are_texts_as_written() -> None:
    assert read_text("null: 1\n~: 2\n012: 3\n1.10: 4\ntrue: 5\n'<<': 6\n", "x").data == {
        "null": 1,
        "~": 2,
        "012": 3,
        "1.10": 4,
        "true": 5,
        "<<": 6,
    }


@pytest.mark.parametrize(
    ("text", "index", "line", "column"),
    [("ab", 2, 1, 3), ("a\r\nb", 3, 2, 1), ("a\rb\nc", 4, 3, 1), ("a\r\n\r\nbc", 6, 3, 2), ("", 0, 1, 1)],
)
def test_position_at(text: str, index: int, line: int, column: int) -> None:
    assert (position_at(text, index).line, position_at(text, index).column) == (line, column)
