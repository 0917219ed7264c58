"""Markdown that reads as well on paper, unrendered: wrapped lines, and the author's texts as plain text in both.

Source: CommonMark 0.31.2, by section: 2.4 backslash escapes, 2.5 entities, 4.1 to 4.3 and 5 what begins a block.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from coaxwright.reports import wording
from coaxwright.reports.excerpt import columns
from coaxwright.reviewing import DesignReview, Review

BLANK = "_" * 24
"""Space to write by hand."""
_SPECIAL = re.compile(r"[\\`*<|~]|^\[(?=[ xX]\](?: |$))|\](?=[(\[:])|(?<![^\W_])_|_(?![^\W_])|&(?=#|\w+;)")
_BEGINS_A_BLOCK = re.compile(r"[-+=]+$|>|#{1,6}$|[0-9]{1,9}[.)]$")


def plain(text: str) -> str:
    """One line of text as Markdown that shows exactly that text.

    An underscore within a word means nothing (6.2), nor do brackets that no link can come of (6.3), so that tags, file
    names and remarks stay as they are.
    """
    return _SPECIAL.sub(lambda found: f"\\{found.group()}", text)


def wrapped(text: str, width: int, first: str = "", indent: str | None = None) -> Iterator[str]:
    """Markdown in lines of at most ``width`` columns, the first behind ``first``, the others behind ``indent``.

    A word that is wider has a line to itself. No word at the beginning of a line is taken for a list or a heading.
    """
    indent = " " * len(first) if indent is None else indent
    line, is_empty, is_first = first, True, True
    for word in text.split(" "):
        if not is_empty and columns(line) + 1 + columns(word) > width:
            yield line
            line, is_empty, is_first = indent, True, False
        if is_empty and (first or not is_first):
            word = _harmless(word)
        line += word if is_empty else f" {word}"
        is_empty = False
    if not is_empty:
        yield line


def said_of(review: Review, width: int, design: DesignReview | None = None) -> Iterator[str]:
    """What there is to say of a punch list, or of a revision, in paragraphs: all, or what is of one design."""
    for line in wording.compared(review, design):
        yield ""
        yield from wrapped(plain(line), width)


def nothing_to_tell(title: str, review: Review, width: int) -> str:
    """What a form for people says where no design was reviewed."""
    said = list(said_of(review, max(60, width)))
    return "\n".join([f"# {title}", *(said or ["", "Nothing was reviewed."])])


def _harmless(word: str) -> str:
    """A word that begins no block where it begins a line: its mark is escaped (2.4), in ``1.`` the point."""
    if not _BEGINS_A_BLOCK.match(word):
        return word
    return f"{word[:-1]}\\{word[-1]}" if word[0].isdigit() else f"\\{word}"
