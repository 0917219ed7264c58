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
    line_breaks = text.count("\n", 0, index) + text.count("\r", 0, index) - text.count("\r\n", 0, index)
    line_start = max(text.rfind("\n", 0, index), text.rfind("\r", 0, index)) + 1
    return Position(line_breaks + 1, index - line_start + 1, index)
