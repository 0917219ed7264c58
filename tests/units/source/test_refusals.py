"""What is no plain YAML data is refused at its exact place, in one sentence."""

from __future__ import annotations

import pytest

from coaxwright.source import Limits, ReadError, read_text

COLON = "a colon does not belong here; check the indentation, or put a value that holds a colon in quotes"
COLON_INSIDE = (
    "a colon does not belong here; a comma is missing before its key, or the value that holds it needs quotes"
)
NOT_IN_LINE = "this line does not line up with the keys above it; check its indentation"

REFUSALS = [
    # decorations and structures that the format has no use for
    ("a: &x 1", "1:4: the anchor &x is not used in a design; write the value out where it is needed"),
    ("&x a: 1", "1:1: the anchor &x is not used in a design; write the value out where it is needed"),
    ("a: *x", "1:4: the alias *x is not used in a design; write the value out; a text that begins with * needs quotes"),
    ("a: 1\n<<: {b: 2}", "2:1: the merge key << is not used in a design; write the keys out"),
    ("a: !bond 1", "1:4: the type tag '!bond' is not used in a design; put a text in quotes instead"),
    ("!!map {a: 1}", "1:1: the type tag 'tag:yaml.org,2002:map' is not used in a design; put a text in quotes instead"),
    ("a: 1\n---\nb: 2", "2:1: a second document begins here; a file holds one design"),
    ("a: 1\n...\nb: 2", "3:1: this does not belong to the design above; check its indentation"),
    ("%YAML 1.1\n---\na: 1", "1:1: directives are not used; remove the % line"),
    ("%TAG ! x:\n---\na: 1", "1:1: directives are not used; remove the % line"),
    ("%FOO bar\n---\na: 1", "1:5: directives are not used; remove the % line"),
    # keys
    ("a: 1\nb: 2\na: 3", "3:1: 'a' stands here twice, first on line 1; give one of them another name"),
    ("{a: 1, 'a': 2}", "1:8: 'a' stands here twice, first on line 1; give one of them another name"),
    ("1: x\n'1': y", "2:1: '1' stands here twice, first on line 1; give one of them another name"),
    (": x", "1:1: a key is missing before the colon"),
    ("'': x", "1:1: a key is missing before the colon"),
    ("a: 1\n: 2", "2:1: a key is missing before the colon"),
    ("[a]: x", "1:1: a key must be words on one line"),
    ("{a: b}: x", "1:1: a key must be words on one line"),
    ("a\nb: 1", "2:2: " + COLON),
    (
        "a: 1\n<<<<<<< HEAD\nb: 1\n=======\nb: 2\n>>>>>>> two\n",
        "2:1: the marks of a merge stand here that was not finished; keep what is right of both sides, and take the "
        "lines with the marks out",
    ),
    ("a: 1\nb\nc: 2", "2:1: a key without its colon; write 'key: value'"),
    # punctuation and indentation
    ("title: Lane 14: rear", "1:15: " + COLON),
    ("a: 1\n  b: 2", "2:4: " + COLON),
    ("a:\n  - b\n c: 1", "3:2: " + NOT_IN_LINE),
    ("a: b\n- c", "2:1: " + NOT_IN_LINE),
    ("- a\nb: 1", "2:1: this line does not line up with the list above it; check its indentation"),
    ("a:\n\tb: 1", "2:1: a tab stands where the indentation is; indent with spaces"),
    ("a: - b", "1:4: a list entry cannot begin here; put '- ' on a line of its own"),
    ("a: @x", "1:4: a value cannot begin with '@'; put it in quotes"),
    ("a: %x", "1:4: a value cannot begin with '%'; put it in quotes"),
    ("a: *", "1:5: a value cannot begin with this sign; put it in quotes"),
    ("a: [?x]", "1:6: a value cannot begin with '?' here; put it in quotes"),
    ("a: {?x: 1}", "1:6: a value cannot begin with '?' here; put it in quotes"),
    ("a: [:x]", "1:5: a value is missing before ':'; write the value, or put one that begins so in quotes"),
    ("a: ]", "1:4: a value is missing before ']'; write the value, or put one that begins so in quotes"),
    ("a: [1, 2", "1:4: a list in brackets is not complete; a comma or ] is missing"),
    ("a: [\n1\nb: 2\n", "1:4: a list in brackets is not complete; a comma or ] is missing"),
    ("p:\n  y: {e: 1\n  r: {e: 2}\n", "2:6: a group in braces is not complete; a comma or } is missing"),
    # slips inside brackets, told where they were made
    ("a: {b: #4}\nc: 1", "1:8: what follows a # is a comment, and no part of the value; put the value in quotes"),
    ("a: [b: #4 x]", "1:8: what follows a # is a comment, and no part of the value; put the value in quotes"),
    ("a: {b: 1 # c\n", "1:4: a group in braces is not complete; a comma or } is missing"),
    ("a: {b: c: d}", "1:9: " + COLON_INSIDE),
    ("a: {b: c d: e}", "1:11: " + COLON_INSIDE),
    ("a: {b: 'it's new'}", "1:12: this follows a ' that closes the value; put a text that holds ' between two \""),
    ('a: {b: "x" y}', '1:12: this follows a " that closes the value; put a text that holds " between two \''),
    ("a: {b:", "1:4: the text ends before this value does; a closing ] or } is missing"),
    ("a: 'Heron's Lane'", "1:11: this follows a value that has ended; put the whole value in one pair of quotes"),
    ('a: "Heron\nb: 1\n', "1:4: this quote is never closed; a closing quote is missing"),
    (
        r'a: "C:\quay"',
        "1:7: a backslash is followed by nothing we know; use single quotes where a backslash is meant as such",
    ),
    ("a: {b:c, d:}", "1:11: a colon needs a space behind it here; put a value that holds a colon in quotes"),
    ("a: 'b\n--- c", "1:4: this quote is not closed before --- or ...; a closing quote is missing"),
    ("a: !<b", "1:7: a value that begins with ! is a type tag, which is not used in a design; put it in quotes"),
    ("a: !b!c d", "1:4: a value that begins with ! is a type tag, which is not used in a design; put it in quotes"),
    ("a: |0\n b", "1:5: 0 cannot follow | or >; leave it out"),
    ("a: |\n \n\tb", "3:1: a tab stands where the indentation is; indent with spaces"),
    ("a: |x\n b", "1:5: nothing may follow | or > on its line; begin the text on the next line"),
    # characters
    ("a: é\u2028", "1:5: the character U+2028 cannot stand in a design; remove or replace it"),
    ("a: b # \x85", "1:8: the character U+0085 cannot stand in a design; remove or replace it"),
    ("a: \x1b[2J", "1:4: the character U+001B cannot stand in a design; remove or replace it"),
    ("a: \ud800", "1:4: the character U+D800 cannot stand in a design; remove or replace it"),
    ("\ufeff\ufeffa: 1", "1:1: the character U+FEFF cannot stand in a design; remove or replace it"),
    (
        r'a: "\x1b[2J"',
        "1:4: the character U+001B cannot stand in a design; remove its escape after the backslash",
    ),
    (r'"a\rb": 1', "1:1: the character U+000D cannot stand in a design; remove its escape after the backslash"),
    (r'a: "\u2028"', "1:4: the character U+2028 cannot stand in a design; remove its escape after the backslash"),
    # sizes
    ("a: " + "9" * 5000, "1:4: a number this long is no figure of a design; put a text in quotes"),
    ("a: -0." + "3" * 5000, "1:4: a number this long is no figure of a design; put a text in quotes"),
    ("a: 0x" + "f" * 5000, "1:4: a number this long is no figure of a design; put a text in quotes"),
    ("[" * 5000 + "]" * 5000, "1:1001: nested too deep; a design needs six levels"),
    ("{a: " * 5000, "1:241: nested deeper than 60 levels; a design needs six"),
    ("- " * 5000 + "x", "1:121: nested deeper than 60 levels; a design needs six"),
    (
        "\n".join(" " * depth + "a:" for depth in range(5000)),
        "61:61: nested deeper than 60 levels; a design needs six",
    ),
]


@pytest.mark.parametrize(("text", "told"), REFUSALS, ids=[repr(text)[:40] for text, _ in REFUSALS])
def test_one_error_at_its_place(text: str, told: str) -> None:
    with pytest.raises(ReadError) as refused:
        read_text(text, "heron.coax.yaml")
    assert str(refused.value) == f"heron.coax.yaml:{told}"


def test_more_values_than_the_limit() -> None:
    told = "x:1:1: the file holds more than 5 values; divide the site into several files"
    for text in ("[1, 2, 3, 4, 5, 6]", "{a: 1, b: 2, c: 3}"):
        with pytest.raises(ReadError) as refused:
            read_text(text, "x", Limits(values=5))
        assert str(refused.value) == told
    assert read_text("[1, 2, 3]", "x", Limits(values=5)).data == [1, 2, 3]


def test_reading_ends_where_the_values_are_too_many() -> None:
    for text in ("[1, 2, 3, 4, 5, 6, {", "a: 1\nb: 2\nc: 3\n\td: 4\n", "[[], [], [], [], [], ["):
        with pytest.raises(ReadError, match="holds more than 5 values"):
            read_text(text, "x", Limits(values=5))


def test_a_list_longer_than_the_limit_is_told_where_it_begins() -> None:
    for text in ("a: [1, 2, 3, 4, [", "a:\n   - 1\n   - 2\n   - 3\n   - 4\n   - [\n"):
        with pytest.raises(ReadError) as refused:
            read_text(text, "x", Limits(entries=3))
        place = "1:4" if text.startswith("a: [") else "2:4"
        assert str(refused.value) == f"x:{place}: this list holds more than 3 entries; no list of a design is so long"
    assert read_text("a: [1, 2, 3]", "x", Limits(entries=3)).data == {"a": [1, 2, 3]}


def test_depth_at_the_limit_is_read() -> None:
    document = read_text("[" * 60 + "]" * 60, "x")
    depth, value = 0, document.data
    while value:
        assert isinstance(value, list)
        depth, value = depth + 1, value[0]
    assert depth == 59
    with pytest.raises(ReadError):
        read_text("[" * 61 + "]" * 61, "x")


def test_a_long_key_is_shortened_in_the_message() -> None:
    key = "k" * 500
    with pytest.raises(ReadError) as refused:
        read_text(f"{key}: 1\n{key}: 2", "x")
    assert str(refused.value) == (
        f"x:2:1: '{'k' * 59}…' stands here twice, first on line 1; give one of them another name"
    )
