"""The order of tags that a person expects: C-9 before C-10."""

from __future__ import annotations

import re
from difflib import get_close_matches

_FIGURES = re.compile("([0-9]+)")


def tag_order(tag: str) -> tuple[tuple[int, int, str], ...]:
    """A sort key that compares runs of figures as numbers; total, because the text itself ends it."""
    parts = [
        (0, int(part), "") if part.isdecimal() and part.isascii() else (1, 0, part.casefold())
        for part in _FIGURES.split(tag)
        if part
    ]
    return (*parts, (2, 0, tag))


def nearest_tag(tag: str, known: list[str]) -> str | None:
    """The known tag that was probably meant; the first in tag order where several are as near."""
    ordered = sorted(known, key=tag_order)
    folded = {candidate.casefold(): candidate for candidate in reversed(ordered)}
    if tag.casefold() in folded:
        return folded[tag.casefold()]
    near = get_close_matches(tag, ordered, n=1, cutoff=0.6)
    return near[0] if near else None
