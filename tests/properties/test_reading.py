"""Whatever is written as plain YAML data reads back equal, with exact places; whatever is not gives one error."""

from __future__ import annotations

import io
import math

import yaml
from hypothesis import given, settings
from hypothesis import strategies as st
from ruamel.yaml import YAML

from coaxwright.source import Document, ReadError, read_text

SAFE = st.characters(
    exclude_categories=("Cc", "Cs", "Zl", "Zp"), exclude_characters="\ufeff\ufffe\uffff", max_codepoint=0x1FFFF
)
# In brackets the dumper leaves ?x and :x unquoted, which the parser refuses there: a stated limit, tested as such.
WORDS = st.text(SAFE, max_size=12).filter(lambda text: text[:1] not in {"?", ":"})
TEXTS = st.one_of(
    WORDS,
    st.sampled_from(
        ["no", "on", "012", "1e3", "12:30:45", "2027-06-30", "null", "~", "a: b", "- x", "#1", "é😀", "<<"]
    ),
)
KEYS = WORDS.filter(lambda key: key and key.strip() == key and key != "<<")
SCALARS = st.one_of(
    TEXTS,
    st.integers(-(10**12), 10**12),
    st.floats(allow_nan=False, allow_infinity=False),
    st.booleans(),
    st.none(),
)
DATA = st.recursive(
    SCALARS,
    lambda inner: st.one_of(st.lists(inner, max_size=4), st.dictionaries(KEYS, inner, max_size=4)),
    max_leaves=12,
)


def dumped(data: object, flow: bool) -> str:
    dumper = YAML(typ="safe", pure=True)
    dumper.default_flow_style = flow
    dumper.width = 4096
    stream = io.StringIO()
    dumper.dump(data, stream)
    return stream.getvalue()


def assert_places_are_right(document: Document) -> None:
    lines = document.text.split("\n")
    for path in document.order():
        value = document.data
        for step in path:
            value = value[step]  # type: ignore[index]
        span = document.span(path)
        for point in (span.start, span.end):
            assert sum(len(line) + 1 for line in lines[: point.line - 1]) + point.column - 1 == point.index
        text = document.text[span.start.index : span.end.index]
        if not isinstance(value, (dict, list)):
            assert_reads_as(text, value)
        if path and isinstance(path[-1], str):
            key = document.span(path, of_key=True)
            again = read_text(f"{document.text[key.start.index : key.end.index]}: 1\n", "x").data
            assert again == {path[-1]: 1}


def assert_reads_as(text: str, value: object) -> None:
    # The indentation of the first line is lost with the span, so a text over several lines is put below a key.
    again = read_text(f"a: {text}\n", "x").data if "\n" not in text else None
    if again is not None:
        assert isinstance(again, dict)
        assert again["a"] == value


@given(DATA, st.booleans())
@settings(max_examples=120, deadline=None)
def test_what_another_program_dumped_reads_equal(data: object, flow: bool) -> None:
    document = read_text(dumped(data, flow), "x")
    assert document.data == data
    assert_places_are_right(document)


# A program of 1.1 leaves 0E0 and 0o7, texts to it, unquoted; here they are numbers.
LETTERED = st.text(SAFE, max_size=12).map(lambda text: f"x{text}")


@given(st.dictionaries(KEYS, st.one_of(LETTERED, st.booleans(), st.none()), max_size=5))
@settings(max_examples=80, deadline=None)
def test_what_a_reader_of_1_1_dumped_reads_equal(data: dict[str, object]) -> None:
    for flow in (False, True):
        text = yaml.safe_dump(data, default_flow_style=flow, allow_unicode=True, width=4096)
        assert read_text(text, "x").data == data


DESIGN = """\
coaxwright: 1
title: "Heron Lane 14"   # invented
basis: {rulesets: [us 2023, trade 1]}
devices:
  SP1: {kind: splitter, ways: 3, place: 'closet'}
  101:
    kind: outlet
    serves: [broadband]
note: |
  two
  lines
"""
PIECES = st.sampled_from(
    [
        "",
        " ",
        "\n",
        "\r\n",
        "\r",
        "\t",
        ":",
        ": ",
        "- ",
        "?",
        "[",
        "]",
        "{",
        "}",
        ",",
        "&a",
        "*a",
        "!",
        "!!int",
        "%",
        "|",
        ">",
        "'",
        '"',
        "\\",
        "#",
        "@",
        "`",
        "<<: ",
        "---\n",
        "...",
        "\ufeff",
        "\u2028",
        "\0",
        "é",
        "😀",
        "1e999",
        "0x",
        "~",
    ]
)
CHANGES = st.lists(st.tuples(st.integers(0, len(DESIGN)), st.integers(0, 6), PIECES), min_size=1, max_size=5)


@given(CHANGES)
@settings(max_examples=500, deadline=None)
def test_a_damaged_text_gives_data_or_one_error_inside_the_text(changes: list[tuple[int, int, str]]) -> None:
    text = DESIGN
    for at, removed, inserted in changes:
        text = text[:at] + inserted + text[at + removed :]
    try:
        document = read_text(text, "x")
    except ReadError as error:
        span = error.problem.span
        read = text.removeprefix("\ufeff")
        assert 0 <= span.start.index <= span.end.index <= len(read)
        lines = read.replace("\r\n", "\n").replace("\r", "\n").split("\n")
        assert 1 <= span.start.line <= len(lines)
        assert 1 <= span.start.column <= len(lines[span.start.line - 1]) + 1
    else:
        for path in document.order():
            assert 0 <= document.span(path).start.index <= document.span(path).end.index <= len(document.text)


@given(st.text(st.sampled_from("ab:-?[]{},&*!|>'\"\\#%@`~ \n\t0.<é"), max_size=40))
@settings(max_examples=500, deadline=None)
def test_any_text_gives_data_or_one_error(text: str) -> None:
    problem = None
    try:
        data = read_text(text, "x").data
    except ReadError as error:
        data, problem = None, error.problem
    assert data is None or isinstance(data, (dict, list, str, int, float, bool))
    assert problem is None or (problem.span.end.index <= len(text) and problem.message)


def test_comparison_of_floats_is_exact() -> None:
    for value in (0.1, 1e-300, math.pi):
        assert read_text(f"a: {value!r}", "x").data == {"a": value}
