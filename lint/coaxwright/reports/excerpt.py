"""The line a finding stands in, with the part meant marked below it by a dimension line, as on a drawing."""

from __future__ import annotations

from unicodedata import combining, east_asian_width

from coaxwright.findings import Place

_CUT = "..."


def excerpt(place: Place, width: int) -> tuple[str, str]:
    """The text line and the line with the mark, both within ``width`` columns of a terminal."""
    line = place.line_text.replace("\t", " ")
    start = place.span.start.column - 1
    end = place.span.end.column - 1 if place.span.end.line == place.span.start.line else len(line.rstrip())
    end = max(start + 1, min(end, len(line)) if line else start + 1)
    indent = len(line) - len(line.lstrip()) if start >= len(line) - len(line.lstrip()) else 0
    line, start, end = line[indent:], start - indent, end - indent
    if columns(line) > width:
        line, start, end = _cut(line, start, end, width)
    return line, " " * columns(line[:start]) + _mark(max(1, columns(line[start:end])))


def columns(text: str) -> int:
    """How many columns of a terminal a text takes: two for wide characters, none for combining ones."""
    if text.isascii():
        return len(text)
    return sum(0 if combining(c) else 2 if east_asian_width(c) in "WF" else 1 for c in text)


def _mark(length: int) -> str:
    return "|" * length if length < 3 else f"|{'-' * (length - 2)}|"


def _cut(line: str, start: int, end: int, width: int) -> tuple[str, int, int]:
    """A window of the line around the part meant."""
    room = width - 2 * len(_CUT)
    first = max(0, min(start - 10, len(line) - room))
    if end - first > room:
        first = min(start, max(0, end - room))
    window = line[first : first + room]
    while columns(window) > room:
        window = window[:-1]
    before = _CUT if first else ""
    after = _CUT if first + len(window) < len(line) else ""
    end = min(end, first + len(window))
    return f"{before}{window}{after}", start - first + len(before), end - first + len(before)
