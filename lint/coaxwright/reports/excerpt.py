"""The line a finding stands in, with the part meant marked below it by a dimension line, as on a drawing."""

from __future__ import annotations

import re
from unicodedata import category, east_asian_width

from coaxwright.findings import Place

_CUT = "..."
_LEAD = 10
"""Columns to show before the part meant, where a line has to be cut behind it."""
_MISLEADING = re.compile("[\x00-\x08\x0a-\x1f\x7f-\x9f\u061c\u200e\u200f\u2028-\u202e\u2066-\u2069\ud800-\udfff]")
"""Control and direction characters, which make a terminal show another text than is there, and halves of characters."""


def excerpt(place: Place, width: int) -> tuple[str, str]:
    """The text line and the line with the mark, both within ``width`` columns of a terminal."""
    line = shown(place.line_text).replace("\t", " ")
    start = place.span.start.column - 1
    end = place.span.end.column - 1 if place.span.end.line == place.span.start.line else len(line.rstrip())
    end = max(start + 1, min(end, len(line)) if line else start + 1)
    indent = len(line) - len(line.lstrip()) if start >= len(line) - len(line.lstrip()) else 0
    line, start, end = line[indent:], start - indent, end - indent
    if columns(line) > width:
        line, start, end = _cut(line, start, end, width)
    return line, " " * columns(line[:start]) + _mark(max(1, columns(line[start:end])))


def shown(text: str) -> str:
    """A text of the author's, or a file's name, as it is safe on a terminal; every character keeps its place."""
    return text if text.isascii() and text.isprintable() else _MISLEADING.sub("\N{REPLACEMENT CHARACTER}", text)


def columns(text: str) -> int:
    """How many columns of a terminal a text takes: two for wide characters, none for combining and joining ones."""
    return len(text) if text.isascii() else sum(map(_columns_of, text))


def _columns_of(character: str) -> int:
    if category(character) in ("Mn", "Me", "Cf"):
        return 0
    return 2 if east_asian_width(character) in "WF" else 1


def _mark(length: int) -> str:
    return "|" * length if length < 3 else f"|{'-' * (length - 2)}|"


def _cut(line: str, start: int, end: int, width: int) -> tuple[str, int, int]:
    """A window of the line: as much as there is room for of the part meant, of what comes before and after it."""
    room = width - 2 * len(_CUT)
    first = last = start
    last, room = _reach(line, range(last, end), last, room)
    first, before = _reach(line, range(first - 1, -1, -1), first, min(room, _LEAD))
    room -= min(room, _LEAD) - before
    last, room = _reach(line, range(last, len(line)), last, room) if last >= end else (last, room)
    first, room = _reach(line, range(first - 1, -1, -1), first, room)
    left = _CUT if first else ""
    right = _CUT if last < len(line) else ""
    return f"{left}{line[first:last]}{right}", start - first + len(left), min(end, last) - first + len(left)


def _reach(line: str, steps: range, at: int, room: int) -> tuple[int, int]:
    """How far one edge of the window gets in steps of a character, and the room that is left."""
    for index in steps:
        needed = _columns_of(line[index])
        if needed > room:
            break
        room -= needed
        at = index + 1 if steps.step > 0 else index
    return at, room
