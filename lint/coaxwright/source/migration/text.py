"""Splices that keys and lists need, in block and in flow style; comments keep their places."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from re import compile as regex

from coaxwright.source.document import LINE_BREAK, Document, Path
from coaxwright.source.splice import Splice

_GAP = regex(r"(?:[ \t\r\n]|#[^\r\n]*)*")
"""What may stand between two signs of YAML: space, line breaks, comments."""


def renamed(document: Document, path: Path, name: str) -> Splice:
    """The key at a path under another name, in the quotes in which the author wrote it."""
    span = document.span(path, of_key=True)
    return Splice.of(span, _like(document.text[span.start.index], name))


def reworded_value(document: Document, path: Path, word: str) -> Splice:
    """Another word at a path, in the quotes in which the author wrote the one that stands there."""
    span = document.span(path)
    return Splice.of(span, _like(document.text[span.start.index], word))


def spread(document: Document, path: Path, names: Sequence[str]) -> tuple[Splice, ...]:
    """A list below a key as a key for each of its entries: ``between: [A, B]`` as ``from: A`` and ``to: B``."""
    spreading = _Spreading(document, path, names)
    is_flow = document.text[spreading.start] == "["
    return tuple(spreading.of_flow() if is_flow else spreading.of_block())


def _like(sign: str, name: str) -> str:
    return f"{sign}{name}{sign}" if sign in "\"'" else name


class _Spreading:
    def __init__(self, document: Document, path: Path, names: Sequence[str]) -> None:
        text = self.text = document.text
        key = document.span(path, of_key=True)
        self.key, self.key_end = key.start.index, key.end.index
        self.first, *self.others = (_like(text[self.key], name) for name in names)
        whole = document.span(path)
        self.start, self.end = whole.start.index, whole.end.index
        spans = [document.span((*path, index)) for index in range(len(names))]
        self.entries = [(span.start.index, span.end.index) for span in spans]
        self.in_block = text[document.span(path[:-1]).start.index] != "{"
        line_break = LINE_BREAK.search(text, self.end) or LINE_BREAK.search(text)
        self.new_line = (line_break.group() if line_break else "\n") + " " * (key.start.column - 1)

    def of_flow(self) -> Iterator[Splice]:
        """``[A, B]``: the brackets go, and in block style the comma between two entries."""
        yield Splice(self.key, self.key_end, self.first)
        inside = self.start + 1
        yield Splice(self.start, self.entries[0][0] if self.is_blank(inside, self.entries[0][0]) else inside, "")
        for name, (_, before), (entry, _) in zip(self.others, self.entries, self.entries[1:], strict=False):
            if self.in_block:
                yield from self.to_its_own_line(name, before, entry)
            else:
                yield Splice(entry, entry, f"{name}: ")
        yield from self.closing(self.entries[-1][1])

    def to_its_own_line(self, name: str, before: int, entry: int) -> Iterator[Splice]:
        comma, line = self.after_gap(before), self.line_start(entry)
        if line <= before:
            yield Splice(before, entry, f"{self.new_line}{name}: ")
            return
        if comma < line:
            yield Splice(comma, comma + 1, "")
        yield Splice(line, entry, f"{self.indent}{name}: ")

    def closing(self, last: int) -> Iterator[Splice]:
        """The bracket, and with it the space and the comma that may stand before it."""
        comma = self.after_gap(last)
        behind = comma + 1 if self.text[comma] == "," else comma
        if self.is_blank(last, comma) and self.is_blank(behind, self.end - 1):
            yield Splice(last, self.end, "")
            return
        yield Splice(comma, behind, "")
        yield Splice(self.end - 1, self.end, "")

    def of_block(self) -> Iterator[Splice]:
        """``- A`` above ``- B``: each dash becomes a key."""
        if self.is_blank(self.after_gap(self.key_end) + 1, self.start):
            yield Splice(self.key, self.start + 1, f"{self.first}:")
        else:  # a comment stands between the key and its list, and stays there
            yield Splice(self.key, self.key_end, self.first)
            yield Splice(self.start, self.start + 1, " ")
        for name, (_, before) in zip(self.others, self.entries, strict=False):
            dash = self.after_gap(before)
            yield Splice(self.line_start(dash), dash + 1, f"{self.indent}{name}:")

    @property
    def indent(self) -> str:
        return self.new_line.lstrip("\r\n")

    def after_gap(self, index: int) -> int:
        """The next sign that is neither space nor comment."""
        found = _GAP.match(self.text, index)
        return found.end() if found else index

    def is_blank(self, start: int, end: int) -> bool:
        return not self.text[start:end].strip(" \t\r\n")

    def line_start(self, index: int) -> int:
        return max(self.text.rfind("\n", 0, index), self.text.rfind("\r", 0, index)) + 1
