"""Build data and spots from the events of libyaml's parser, behind limits and with one clear error.

The parser yields an event for every key, value and bracket with exact marks; building from them ourselves gives
YAML 1.2 values, positions and refusals in one pass, at half the time of a plain load without positions.
What the format has no use for (anchors, aliases, merge keys, type tags, several documents) is refused: it would let
a small file grow without bound, or let a reader see other values than the author wrote.
"""

from __future__ import annotations

from re import compile as regex
from typing import Any

from yaml import YAMLError
from yaml.cyaml import CParser
from yaml.error import Mark
from yaml.events import (
    AliasEvent,
    DocumentStartEvent,
    MappingEndEvent,
    MappingStartEvent,
    ScalarEvent,
    SequenceEndEvent,
    SequenceStartEvent,
    StreamEndEvent,
)

from coaxwright.source.document import Branch, Document, Path, Spot
from coaxwright.source.limits import DEFAULT, Limits
from coaxwright.source.place import Position, Span, position_at
from coaxwright.source.problem import Problem, ReadError
from coaxwright.source.scalars import BEGINS_TYPED, typed
from coaxwright.source.wording import explain, quoted

_FORBIDDEN = regex("[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\u2028\u2029\ud800-\udfff\ufeff\ufffe\uffff]")
"""Control characters, the line separators on which YAML versions disagree, halves of surrogate pairs, stray BOMs."""
_FORBIDDEN_IN_VALUES = regex(f"{_FORBIDDEN.pattern[:-1]}\r]")


def read_text(text: str, name: str, limits: Limits = DEFAULT) -> Document:
    """Read one text.

    Raises ReadError at the first thing that is not plain YAML data, with its place.
    """
    has_byte_order_mark = text.startswith("\ufeff")
    if has_byte_order_mark:
        text = text[1:]
    _refuse_characters(text, name)
    builder = _Builder(text, name, limits)
    try:
        data, spots = builder.build()
    except YAMLError as error:
        raise ReadError(_problem(error, text, name)) from None
    return Document(name, text, data, spots, builder.numbers, has_byte_order_mark)


class _Builder:
    """One pass over the events; the stack holds the open mappings and lists."""

    def __init__(self, text: str, name: str, limits: Limits) -> None:
        self.text = text
        self.name = name
        self.limits = limits
        self.numbers: dict[Path, str] = {}
        self.stack: list[tuple[Any, Branch, str | int]] = []

    def build(self) -> tuple[object, Spot | None]:
        get = CParser(self.text).get_event
        stack = self.stack
        limits = self.limits
        decorated = "&" in self.text or "!" in self.text
        questioned = "?" in self.text
        escaped = "\\" in self.text
        top: object = None
        top_spot: Spot | None = None
        # The innermost open collection, its spot, and the key that waits for its value (in a list, the next index).
        container: Any = None
        branch: Any = None
        key: Any = None
        documents = 0
        budget = limits.values
        value: Any
        spot: Any
        while True:
            event = get()
            kind = type(event)
            if kind is ScalarEvent:
                if decorated and (event.anchor is not None or event.tag is not None):
                    self.refuse_decoration(event)
                if escaped and event.style == '"':
                    self.refuse_escaped_characters(event)
                budget -= 1
                if budget < 0:
                    self.refuse_size()
                value = event.value
                if key is None and branch is not None:
                    if value in branch.keys or not value or (value == "<<" and event.implicit[0]):
                        self.refuse_key(event, branch)
                    if questioned and self.text[event.start_mark.index - 1] == "?":
                        self.refuse_question_mark(event)
                    branch.keys[value] = event
                    key = value
                    continue
                # Most values begin as no number or word does: they cost no call.
                if value[:1] in BEGINS_TYPED and event.implicit[0]:
                    try:
                        value = typed(value)
                    except OverflowError:
                        raise self.refusal(
                            event.start_mark,
                            event.end_mark,
                            "a number this long is no figure of a design",
                            "put a text in quotes",
                        ) from None
                    if value.__class__ is int or value.__class__ is float:
                        self.note_number(event, key)
                spot = event
            elif kind is MappingStartEvent or kind is SequenceStartEvent:
                if decorated and (event.anchor is not None or event.tag is not None):
                    self.refuse_decoration(event)
                if branch is not None:
                    if key is None:
                        raise self.refusal(event.start_mark, event.end_mark, "a key must be words on one line", "")
                    stack.append((container, branch, key))
                    if len(stack) >= limits.depth:
                        raise self.refusal(
                            event.start_mark,
                            event.end_mark,
                            f"nested deeper than {limits.depth} levels",
                            "a design needs six",
                        )
                branch = Branch(event.start_mark)
                branch.end = event.end_mark if event.flow_style else None
                budget -= 1
                if budget < 0:
                    self.refuse_size()
                if kind is MappingStartEvent:
                    container = {}
                    key = None
                else:
                    container = []
                    key = 0
                continue
            elif kind is MappingEndEvent or kind is SequenceEndEvent:
                value = container
                spot = branch
                # A block collection's own end mark lies behind the blank lines that follow it: its last part ends it.
                spot.end = event.end_mark if spot.end is not None else _end_of_last(spot)
                if stack:
                    container, branch, key = stack.pop()
                else:
                    container = branch = key = None
            elif kind is DocumentStartEvent:
                documents += 1
                if documents > 1:
                    raise self.refusal(
                        event.start_mark, event.end_mark, "a second document begins here", "a file holds one design"
                    )
                if event.tags or (event.version is not None and event.version != (1, 2)):
                    raise self.refusal(event.start_mark, event.end_mark, "directives are not used", "remove the % line")
                continue
            elif kind is StreamEndEvent:
                return top, top_spot
            elif kind is AliasEvent:
                raise self.refusal(
                    event.start_mark,
                    event.end_mark,
                    f"the alias *{event.anchor} is not used in a design",
                    "write the value out; a text that begins with * needs quotes",
                )
            else:
                continue

            if branch is None:
                top, top_spot = value, spot
                continue
            branch.items[key] = spot
            if key.__class__ is int:
                container.append(value)
                key += 1
                if key > limits.entries:
                    raise self.refusal(
                        branch.start,
                        branch.start,
                        f"this list holds more than {limits.entries:,} entries",
                        "no list of a design is so long",
                    )
            else:
                container[key] = value
                key = None

    def note_number(self, event: ScalarEvent, key: str | int | None) -> None:
        path = [step for _, _, step in self.stack]
        if key is not None:
            path.append(key)
        self.numbers[tuple(path)] = event.value

    def refuse_decoration(self, event: ScalarEvent | MappingStartEvent | SequenceStartEvent) -> None:
        if event.anchor is not None:
            what, expected = (
                f"the anchor &{event.anchor} is not used in a design",
                "write the value out where it is needed",
            )
        else:
            what, expected = f"the type tag {quoted(event.tag)} is not used in a design", "put a text in quotes instead"
        raise self.refusal(event.start_mark, event.end_mark, what, expected)

    def refuse_escaped_characters(self, event: ScalarEvent) -> None:
        """What may not stand in the text itself may not come in as an escape such as ``\\x1b`` either."""
        found = _FORBIDDEN_IN_VALUES.search(event.value)
        if found is not None:
            what = f"the character U+{ord(found.group()):04X} cannot stand in a design"
            raise self.refusal(event.start_mark, event.end_mark, what, "remove its escape after the backslash")

    def refuse_key(self, event: ScalarEvent, branch: Branch) -> None:
        if not event.value:
            raise self.refusal(event.start_mark, event.end_mark, "a key is missing before the colon", "")
        first = branch.keys.get(event.value)
        if first is None:
            raise self.refusal(
                event.start_mark, event.end_mark, "the merge key << is not used in a design", "write the keys out"
            )
        raise self.refusal(
            event.start_mark,
            event.end_mark,
            f"{quoted(event.value)} stands here twice, first on line {first.start_mark.line + 1}",
            "give one of them another name",
        )

    def refuse_question_mark(self, event: ScalarEvent) -> None:
        """Within brackets the parser takes ``?x`` for the key ``x``, where YAML 1.2 has the text ``?x``."""
        raise self.refusal(event.start_mark, event.end_mark, "a value cannot begin with '?' here", "put it in quotes")

    def refuse_size(self) -> None:
        start = Position(1, 1, 0)
        raise ReadError(
            Problem(
                self.name,
                Span(start, start),
                f"the file holds more than {self.limits.values:,} values",
                "divide the site into several files",
            )
        )

    def refusal(self, start: Mark, end: Mark, what: str, expected: str) -> ReadError:
        first = Position(start.line + 1, start.column + 1, start.index)
        last = Position(end.line + 1, end.column + 1, end.index)
        return ReadError(Problem(self.name, Span(first, last), what, expected))


def _end_of_last(branch: Branch) -> Mark:
    if not branch.items:
        return branch.start
    last = next(reversed(branch.items.values()))
    return last.end if isinstance(last, Branch) else last.end_mark


def _refuse_characters(text: str, name: str) -> None:
    found = _FORBIDDEN.search(text)
    if found is None:
        return
    place = position_at(text, found.start())
    code = f"U+{ord(found.group()):04X}"
    after = Position(place.line, place.column + 1, place.index + 1)
    raise ReadError(
        Problem(name, Span(place, after), f"the character {code} cannot stand in a design", "remove or replace it")
    )


def _problem(error: YAMLError, text: str, name: str) -> Problem:
    what, expected, index = explain(error, text)
    start = position_at(text, min(index, len(text)))
    end = Position(start.line, start.column + 1, start.index + 1) if index < len(text) else start
    return Problem(name, Span(start, end), what, expected)
