"""One file through all the steps that lie between its format and ours, then from former words to the present ones."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Mapping, Sequence
from copy import deepcopy
from dataclasses import dataclass, replace
from types import MappingProxyType

from coaxwright.frozen_value import frozen_value
from coaxwright.source.document import LINE_BREAK, Document
from coaxwright.source.formats import DESIGN, FORMAT, format_line, format_of
from coaxwright.source.former_words import DESIGN_WORDS, Branching, Former, find
from coaxwright.source.former_words.finding import apply as replace_words
from coaxwright.source.migration import sketch_stage
from coaxwright.source.migration.step import Change, Step
from coaxwright.source.migration.text import renamed, reworded_value
from coaxwright.source.place import Position, Span, position_at
from coaxwright.source.problem import Problem, ReadError
from coaxwright.source.reader import read_text
from coaxwright.source.splice import Moves, Splice, apply

STEPS: Mapping[int, Step] = MappingProxyType({0: sketch_stage.STEP})
"""The step that leads on from each older format."""


@frozen_value
class Made:
    """One change that was made: where it stands in the text that it led to, and what it was."""

    place: Position
    what: str


@dataclass(frozen=True)
class Renewal:
    """A file as it was and as it is in this format."""

    old: Document
    new: Document
    changes: tuple[Made, ...] = ()
    moves: tuple[Moves, ...] = ()

    @property
    def is_new(self) -> bool:
        """Whether the file was changed: it was of an older format, or written in former words."""
        return bool(self.moves)

    def in_the_old(self, problem: Problem) -> Problem:
        """A problem of the new text, at its place in the text as it stands."""
        ends = []
        for end in (problem.span.start, problem.span.end):
            index = end.index
            for moves in reversed(self.moves):
                index = moves.before(index)
            ends.append(position_at(self.old.text, index))
        return replace(problem, span=Span(ends[0], max(ends)))


def renew(document: Document, steps: Mapping[int, Step] = STEPS, newest: int = FORMAT) -> Renewal:
    """The file in the newest format and its present words; as it is where it is of a newer one, or says none.

    Raises ReadError at what cannot be brought up, with its place in the text as it stands.
    """
    renewal = Renewal(document, document)
    found = format_of(document)
    for number in range(found, newest) if found is not None and found in steps else ():
        renewal = _one_step(renewal, number, steps[number])
    return _with_words(renewal, DESIGN_WORDS) if format_of(renewal.new) == newest else renewal


def reworded(document: Document, words: Branching) -> Renewal:
    """A file that a design names, a firm's catalogue or ruleset, in the present words.

    Raises ReadError like ``renew``.
    """
    return _with_words(Renewal(document, document), words)


def _one_step(renewal: Renewal, number: int, step: Step) -> Renewal:
    document = renewal.new
    try:
        changes = [_format_line(document, number), *step.changes(document)]
    except ReadError as error:
        raise ReadError(renewal.in_the_old(error.problem)) from None
    data = {**step.data(document.data), format_line(document): number + 1}
    renewed = _changed(renewal, changes, data)
    if renewed is None:
        raise ReadError(_not_by_itself(renewal.old, number))
    return renewed


def _with_words(renewal: Renewal, words: Branching) -> Renewal:
    document = renewal.new
    former = find(document, words)
    if not former:
        return renewal
    data = deepcopy(document.data)
    replace_words(data, former)
    renewed = _changed(renewal, [_change_of_word(document, word) for word in former], data)
    if renewed is None:
        first = former[0]
        span = document.span(first.path, of_key=first.is_key)
        what = f"{first.old!r} is written in a way that cannot be changed without a person"
        problem = Problem(document.name, span, what, f"write {first.new!r}, then try again")
        raise ReadError(renewal.in_the_old(problem))
    return renewed


def _change_of_word(document: Document, word: Former) -> Change:
    splice = renamed(document, word.path, word.new) if word.is_key else reworded_value(document, word.path, word.new)
    return Change(f"{word.old!r} is now {word.new!r}", (splice,))


def _changed(renewal: Renewal, changes: Sequence[Change], data: object) -> Renewal | None:
    """The file with some changes made; None where the changed text does not read as the changed data."""
    document = renewal.new
    splices = [splice for change in changes for splice in change.splices]
    new = _read(document, splices)
    if new is None or new.data != data:
        return None
    moves = Moves(splices)
    starts = [0, *(found.end() for found in LINE_BREAK.finditer(new.text))]
    made = [
        *((moves.after(change.place.index), change.what) for change in renewal.changes),
        *((moves.after(change.splices[0].start), change.what) for change in changes),
    ]
    return Renewal(
        renewal.old,
        new,
        tuple(Made(_position(starts, index), what) for index, what in sorted(made)),
        (*renewal.moves, moves),
    )


def _format_line(document: Document, number: int) -> Change:
    key = format_line(document)
    assert key is not None
    splice = Splice.of(document.span((key,)), str(number + 1))
    return Change(f"'{key}: {number}' is now '{key}: {number + 1}'", (splice,))


def _read(document: Document, splices: Sequence[Splice]) -> Document | None:
    try:
        new = read_text(apply(document.text, splices), document.name)
    except (ReadError, ValueError):  # what the splices left is no YAML, or they overlap
        return None
    return replace(new, has_byte_order_mark=document.has_byte_order_mark)


def _position(starts: Sequence[int], index: int) -> Position:
    line = bisect_right(starts, index)
    return Position(line, index - starts[line - 1] + 1, index)


def _not_by_itself(document: Document, number: int) -> Problem:
    what = f"this file of format {number} is written in a way that cannot be brought up without a person"
    expected = "write each list on one line, then try again"
    return Problem(document.name, document.span((format_line(document) or DESIGN,)), what, expected)
