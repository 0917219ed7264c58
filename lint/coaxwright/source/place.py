"""Positions in a text: 1-based lines and columns, counted in code points as a person's editor shows them."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, order=True)
class Position:
    """A point before a character. ``index`` counts code points from the start of the text, from 0."""

    line: int
    column: int
    index: int


@dataclass(frozen=True, slots=True, order=True)
class Span:
    """From the first character to just behind the last one."""

    start: Position
    end: Position


def position_at(text: str, index: int) -> Position:
    """The position of code point ``index``; line breaks are LF, CR LF and CR."""
    before = text[:index].replace("\r\n", "\n\0").replace("\r", "\n")
    line = before.count("\n") + 1
    column = len(before) - (before.rfind("\n") + 1) + 1
    if before.endswith("\n\0") or "\n\0" in before[before.rfind("\n") :]:
        column -= 1
    return Position(line, column, index)
