"""Lines of text within a width: headings, paragraphs, labeled items; nothing ever stands out to the right."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from coaxwright.reports.excerpt import columns, shown

NARROWEST = 60
WIDEST_LABEL = 24
"""Columns that a label may take beside its text; a wider one stands above it."""
_DEEPEST = 20
"""Columns beyond which an indentation grows no more, so that there is always room for words."""


class Page:
    """Gathers lines that are no wider than ``width``."""

    def __init__(self, width: int) -> None:
        self.width = max(NARROWEST, width)
        self.lines: list[str] = []

    def heading(self, text: str) -> None:
        """A section begins."""
        self.gap()
        self.paragraph(text.upper())

    def gap(self) -> None:
        """One empty line, unless there is one already."""
        if self.lines and self.lines[-1]:
            self.lines.append("")

    def paragraph(self, text: str, indent: int = 0, label: str = "", hang: int = 0) -> None:
        """A text, its lines indented, behind a label; lines after the first hang by ``hang`` columns more.

        A label that is wider than its column stands in a line of its own.
        """
        indent = min(indent, _DEEPEST)
        first = " " * indent
        if label:
            label = shown(label)
            if columns(label) + 2 > hang:
                self.lines += _filled(label.split(), first, first + "  ", self.width)
                first = " " * (indent + hang)
            else:
                first += label + " " * (hang - columns(label))
        self.lines += _filled(shown(text).split(), first, " " * (indent + hang), self.width)

    def table(self, rows: Sequence[tuple[str, str]], indent: int = 2, widest: int = WIDEST_LABEL) -> None:
        """Texts behind labels, all beginning in one column."""
        fitting = [columns(shown(label)) for label, _ in rows if columns(shown(label)) <= widest]
        hang = max(fitting, default=0) + 2
        for label, text in rows:
            self.paragraph(text, indent, label, hang)

    def text(self) -> str:
        """All lines, with a final line break."""
        return "\n".join(self.lines) + "\n"


def _filled(words: Sequence[str], first: str, rest: str, width: int) -> Iterator[str]:
    line, is_empty = first, True
    for word in words:
        for piece in _cut(word, width - columns(rest)):
            if not is_empty and columns(line) + 1 + columns(piece) > width:
                yield line
                line, is_empty = rest, True
            elif is_empty and columns(line) + columns(piece) > width:
                yield line.rstrip()
                line = rest
            line += piece if is_empty else f" {piece}"
            is_empty = False
    if not is_empty:
        yield line


def _cut(word: str, room: int) -> Iterator[str]:
    """A word, in pieces where it is wider than a whole line."""
    piece = ""
    for character in word if columns(word) > room else ():
        if columns(piece + character) > room:
            yield piece
            piece = ""
        piece += character
    yield piece or word
