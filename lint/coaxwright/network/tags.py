"""The order of tags that a person expects: C-9 before C-10."""

from __future__ import annotations

import re
from collections.abc import Mapping
from difflib import SequenceMatcher
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
    folded = tag.casefold()
    same = [candidate for candidate in known if candidate.casefold() == folded]
    if same:
        return min(same, key=tag_order)
    matcher = SequenceMatcher(b=tag)
    best, close = _CLOSE, list[str]()
    for candidate in known:
        matcher.set_seq1(candidate)
        if matcher.real_quick_ratio() < best or matcher.quick_ratio() < best:
            continue  # both are upper bounds
        ratio = matcher.ratio()
        if ratio > best or not close:
            close = []
        if ratio >= best:
            best = ratio
            close.append(candidate)
    return min(close, key=tag_order) if close else None
