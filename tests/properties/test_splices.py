"""Splices change what they name and nothing else, and a point of the text is found again on either side of them."""

from __future__ import annotations

from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coaxwright.source import Splice, apply
from coaxwright.source.splice import Moves

PIECE = st.text("ab é😀\r\n", max_size=4)
PIECES = st.lists(st.tuples(PIECE, PIECE, PIECE), max_size=6)
"""What stays, what is replaced, and by what, over and over."""


def told(pieces: list[tuple[str, str, str]], rest: str) -> tuple[str, str, list[Splice]]:
    """The text before, the text after, and the splices between them."""
    before, after, splices = "", "", []
    for stays, old, new in pieces:
        start = len(before) + len(stays)
        splices.append(Splice(start, start + len(old), new))
        before += stays + old
        after += stays + new
    return before + rest, after + rest, splices


@given(PIECES, PIECE, st.randoms())
def test_the_spliced_text_is_what_stayed_and_what_was_put_in(
    pieces: list[tuple[str, str, str]], rest: str, order: Random
) -> None:
    before, after, splices = told(pieces, rest)
    if all(stays for stays, _, _ in pieces[1:]):  # what touches is made in the order in which it is given
        order.shuffle(splices)
    assert apply(before, splices) == after


@given(PIECES, PIECE)
def test_a_point_that_stays_is_found_again(pieces: list[tuple[str, str, str]], rest: str) -> None:
    before, after, splices = told(pieces, rest)
    moves = Moves(splices)
    old = new = 0
    for number, (stays, replaced, put_in) in enumerate([*pieces, (rest, "", "")]):
        for index in range(min(number, 1), len(stays)):  # the first point may also be where a replacement ends
            assert before[old + index] == after[new + index]
            assert moves.after(old + index) == new + index
            assert moves.before(new + index) == old + index
        old += len(stays) + len(replaced)
        new += len(stays) + len(put_in)


def test_a_point_of_what_is_replaced_is_where_it_begins() -> None:
    moves = Moves([Splice(2, 5, "abcdefg"), Splice(8, 8, "xy")])
    assert [moves.after(index) for index in range(10)] == [0, 1, 2, 2, 2, 9, 10, 11, 12, 15]
    assert [moves.before(index) for index in range(16)] == [0, 1, *[2] * 7, 5, 6, 7, 8, 8, 8, 9]


def test_no_splices_move_nothing() -> None:
    assert Moves([]).after(3) == Moves([]).before(3) == 3
    with pytest.raises(ValueError, match="overlap"):
        apply("abc", [Splice(0, 2, "x"), Splice(1, 3, "y")])
