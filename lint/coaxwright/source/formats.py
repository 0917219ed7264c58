"""The format of a file: the number in its first line, and what is told of a file of another format than this one."""

from __future__ import annotations

from shlex import quote

from coaxwright.source.document import Document
from coaxwright.source.includes import PART
from coaxwright.source.problem import Problem

FORMAT = 1
"""The format that this program reads and writes."""
OLDEST = 0
"""The oldest format that can be brought up to this one."""
DESIGN = "coaxwright"


def format_line(document: Document) -> str | None:
    """The key of the line that says the format: a design's, or a part's; None where there is no such line."""
    data = document.data if isinstance(document.data, dict) else {}
    return next((key for key in data if key in (DESIGN, PART)), None)


def format_of(document: Document) -> int | None:
    """The format of a file; None where it does not say it, or says it in anything but a whole number."""
    key = format_line(document)
    written = document.data[key] if key is not None and isinstance(document.data, dict) else None
    if isinstance(written, float) and written.is_integer():
        return int(written)
    return written if isinstance(written, int) and not isinstance(written, bool) else None


def other_format(document: Document) -> Problem | None:
    """What is wrong with a file of an older or a newer format; None for one of this format, or of none."""
    key, found = format_line(document), format_of(document)
    if key is None or found is None or found < OLDEST or found == FORMAT:
        return None
    remedy = f"to bring it up, run coaxwright renew {quote(document.name)}" if found < FORMAT else "take a newer one"
    number = document.numbers[(key,)] if found > FORMAT else str(found)
    what = f"this file is of format {number}"
    return Problem(document.name, document.span((key,)), what, f"this program reads format {FORMAT}: {remedy}")
