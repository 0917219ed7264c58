"""A text that was read: plain data, and beside it a tree of spots that knows where each part stands."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from functools import cached_property
from re import compile as regex
from typing import Any, TypeAlias

from yaml.error import Mark
from yaml.events import ScalarEvent

from coaxwright.frozen_value import frozen_value
from coaxwright.source.place import Position, Span, position_at

Path = tuple[str | int, ...]
"""The way from the top of the data to one value: ``("cables", "C-104", "route", 0)``."""

LINE_BREAK = regex("\r\n|\n|\r")


class Branch:
    """The spot of a mapping or a list: its own marks, its keys' scalars, the spots of its values."""

    __slots__ = ("end", "items", "keys", "start")

    def __init__(self, start: Mark) -> None:
        self.start = start
        self.end = start
        self.keys: dict[str, ScalarEvent] = {}
        self.items: dict[str | int, Spot] = {}


Spot: TypeAlias = Branch | ScalarEvent
"""The parser's own event is the spot of a scalar: keeping it costs nothing."""


@frozen_value
class Instance:
    """One of several like units, and what a thing of it is called in the typical unit."""

    name: str
    typical: str
    tag: str


@dataclass(frozen=True)
class Document:
    """One file's data and places.

    ``numbers`` holds the written text of each unquoted scalar that YAML 1.2 reads as a number, for tags such as
    ``101`` and ``012`` that must be taken as written.
    """

    name: str
    """The file as findings name it: relative, with forward slashes."""
    text: str
    """Decoded, without a byte-order mark, line breaks untouched."""
    data: object
    spots: Spot | None
    numbers: dict[Path, str] = field(default_factory=dict)
    has_byte_order_mark: bool = False
    beside: Mapping[str, Document] = field(default_factory=dict, kw_only=True)
    """Files that it names without drawing them in, a firm's catalogues and rulesets, by their paths as written."""

    def span(self, path: Path, *, of_key: bool = False) -> Span:
        """Where the value at ``path`` stands (or its key, or the nearest thing above it that exists)."""
        spot = self.spots
        key: ScalarEvent | None = None
        for step in path:
            if not isinstance(spot, Branch) or step not in spot.items:
                return self._between(key.start_mark, key.end_mark) if key is not None else self._spot_span(spot)
            key = spot.keys.get(step) if isinstance(step, str) else None
            spot = spot.items[step]
        if of_key and key is not None:
            return self._between(key.start_mark, key.end_mark)
        return self._spot_span(spot)

    def has(self, path: Path) -> bool:
        """Whether something is written at ``path``."""
        spot = self.spots
        for step in path:
            if not isinstance(spot, Branch) or step not in spot.items:
                return False
            spot = spot.items[step]
        return True

    def with_file(self, changed: Document) -> Document:
        """The same design with one of its files changed; a design of one file becomes that file."""
        return changed

    def owner(self, path: Path) -> Document:
        """The file in which a path is written; a design of one file has but one answer."""
        return self

    def written(self, path: Path) -> Path:
        """Where a path stands in the text; another path only for what a repeated unit holds."""
        return path

    def instance(self, path: Path) -> Instance | None:
        """The repeated unit that a path lies in."""
        return None

    def sharing(self, path: Path) -> tuple[str, ...]:
        """The repeated units that what is written at a path holds for."""
        return ()

    @property
    def repeats(self) -> bool:
        """Whether it was written out from repeated units."""
        return False

    def below(self, path: Path) -> Document:
        """What stands at a path of this file, as a document of its own that keeps its places."""
        data: Any = self.data
        spot: Any = self.spots
        for step in path:
            data, spot = data[step], spot.items[step]
        numbers = {at[len(path) :]: text for at, text in self.numbers.items() if at[: len(path)] == path}
        return Document(self.name, self.text, data, spot, numbers, self.has_byte_order_mark)

    def order(self) -> Iterator[Path]:
        """Every path, in the order of the text."""
        if self.spots is not None:
            yield from _walk(self.spots, ())

    @cached_property
    def lines(self) -> list[str]:
        """The text's lines without their breaks."""
        return LINE_BREAK.split(self.text)

    def _spot_span(self, spot: Spot | None) -> Span:
        if spot is None:
            start = Position(1, 1, 0)
            return Span(start, start)
        if isinstance(spot, Branch):
            return self._between(spot.start, spot.end)
        return self._between(spot.start_mark, spot.end_mark)

    def _between(self, start: Mark, end: Mark) -> Span:
        """From mark to mark, without the line breaks that the parser counts to a block text (``|`` or ``>``)."""
        first = Position(start.line + 1, start.column + 1, start.index)
        last = Position(end.line + 1, end.column + 1, end.index)
        keeps = "+" in self.text[start.index : start.index + 3]  # a text that keeps its last line breaks: |+
        if start.index < end.index and self.text[end.index - 1] in " \n\r" and not keeps:
            last = position_at(self.text, len(self.text[: end.index].rstrip(" \t\n\r")))
        return Span(first, last)


def _walk(spot: Spot, path: Path) -> Iterator[Path]:
    yield path
    if isinstance(spot, Branch):
        for step, child in spot.items.items():
            yield from _walk(child, (*path, step))
