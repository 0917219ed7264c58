"""The order of tags that a person expects: C-9 before C-10."""

from __future__ import annotations

import re
from collections.abc import Mapping
from difflib import SequenceMatcher, get_close_matches
from functools import lru_cache
from typing import TypeVar

T = TypeVar("T")

_FIGURES = re.compile("([0-9]+)")
_CLOSE = 0.65  # the share of letters in common from which a tag counts as mistyped; tried out, no source


@lru_cache(maxsize=4096)
def tag_order(tag: str) -> tuple[tuple[int, int, str], ...]:
    """A sort key that compares runs of figures as numbers; total, because the text itself ends it."""
    parts = []
    for part in _FIGURES.split(tag):
        if part.isdigit() and part.isascii():
            figures = part.lstrip("0")
            parts.append((0, len(figures), figures))  # as numbers, however long: the shorter is the smaller
        elif part:
            parts.append((1, 0, part.casefold()))
    return (*parts, (-1, 0, tag))  # the shorter tag first: C-9 before C-9a


def in_tag_order(things: Mapping[str, T]) -> dict[str, T]:
    """The same things, in the order of their tags."""
    return {tag: things[tag] for tag in sorted(things, key=tag_order)}


def nearest_tag(tag: str, known: list[str]) -> str | None:
    """The known tag that was probably meant; the first in tag order where several are as near.

    Of ``flat-03/hal`` only the end is compared, and only with what begins as it does, where anything does.
    """
    unit, slash, end = tag.rpartition("/")
    beside = [candidate.removeprefix(f"{unit}/") for candidate in known if slash and candidate.startswith(f"{unit}/")]
    if beside:
        near = nearest_tag(end, beside)
        return None if near is None else f"{unit}/{near}"
    ordered = sorted(known, key=tag_order)
    folded = {candidate.casefold(): candidate for candidate in reversed(ordered)}
    if tag.casefold() in folded:
        return folded[tag.casefold()]
    close = get_close_matches(tag, ordered, n=len(ordered) or 1, cutoff=_CLOSE)
    if not close:
        return None
    best = SequenceMatcher(a=close[0], b=tag).ratio()
    return min((one for one in close if SequenceMatcher(a=one, b=tag).ratio() == best), key=tag_order)
