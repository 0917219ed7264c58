"""Pieces of drawings: texts that stay inside, rules, and the names of outlets that are alike."""

from __future__ import annotations

import re
from collections.abc import Sequence
from html import escape

from coaxwright.reports.excerpt import columns, shown
from coaxwright.reports.levels.alike import AlikeRows

WIDTH = 1200
SIDE = 24
INK, FAINT_INK, FAINT = "#222222", "#555555", "#cccccc"
_NO_CHARACTERS = re.compile("[\ufffe\uffff]")
"""What stands in no XML file, beside the control characters."""
_OF_A_COLUMN = 0.62
"""Width of an ordinary letter as a share of the size. Measured on common sans-serif fonts, with something to spare."""


def text_width(words: str, size: int) -> float:
    """About how wide a text comes out, in the drawing's units."""
    return columns(words) * size * _OF_A_COLUMN


def fitted(words: str, room: float, size: int = 12) -> str:
    """A text ready for XML, cut to the room there is."""
    words = _NO_CHARACTERS.sub("\N{REPLACEMENT CHARACTER}", shown(words))
    if text_width(words, size) > room:
        while words and text_width(words, size) > room - size:
            words = words[:-1]
        words = f"{words.rstrip()}\N{HORIZONTAL ELLIPSIS}"
    return escape(words)


def text(
    x: float,
    y: float,
    words: str,
    *,
    size: int = 12,
    fill: str = INK,
    anchor: str = "start",
    weight: str = "normal",
    room: float = 0.0,
) -> str:
    """A text; without ``room`` it may go on to the edge."""
    room = room or {"start": WIDTH - SIDE - x, "end": x - 4, "middle": 2 * min(x, WIDTH - x)}[anchor]
    return (
        f'<text x="{x:.1f}" y="{y:.1f}" font-size="{size}" fill="{fill}" text-anchor="{anchor}" '
        f'font-weight="{weight}">{fitted(words, room, size)}</text>'
    )


def rule(x1: float, y1: float, x2: float, y2: float) -> str:
    """A faint line."""
    return f'<line x1="{x1:.1f}" y1="{y1:.1f}" x2="{x2:.1f}" y2="{y2:.1f}" stroke="{FAINT}"/>'


def places(points: Sequence[tuple[float, float]]) -> str:
    """Points of a line."""
    return " ".join(f"{x:.1f},{y:.1f}" for x, y in points)


def name_of(alike: AlikeRows) -> str:
    """``101/BED +2``: two units more are alike."""
    return f"{alike.first.tag} +{len(alike.others)}" if alike.others else alike.first.tag


def all_of(alike: AlikeRows) -> str:
    """``101/BED; also in 102 and 103``."""
    return f"{alike.first.tag}; {alike.also}" if alike.others else alike.first.tag
