"""Small pieces of language that several checks put into their values."""

from __future__ import annotations

from collections.abc import Sequence

from coaxwright.design.quantities import Length, in_feet, in_metres, shown

_NUMBERS = ("no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve")
LONGEST_LIST = 8


def listed(words: Sequence[str], last: str = "and", most: int = LONGEST_LIST) -> str:
    """``a, b and c``; long lists are cut with the number left out."""
    if len(words) > most:
        return f"{', '.join(words[:most])} and {len(words) - most} more"
    if len(words) < 2:
        return "".join(words)
    return f"{', '.join(words[:-1])} {last} {words[-1]}"


def count(number: int, noun: str, plural: str = "") -> str:
    """``one output``, ``3 outputs``, ``no outputs``."""
    name = noun if number == 1 else plural or f"{noun}s"
    word = _NUMBERS[number] if number < 3 else str(number)
    return f"{word} {name}"


def article(noun: str) -> str:
    """The noun with ``a`` or ``an``."""
    return f"{'an' if noun[:1].lower() in 'aeiou' else 'a'} {noun}"


def in_system(length: Length, is_metric: bool) -> float:
    """A length as a number of metres, or of feet: limits are compared in the author's own system."""
    return length.length_m if is_metric else length.length_ft


def length_text(length: Length, limit: Length) -> str:
    """A length as its author wrote it; computed, as finely as it takes not to look like the limit it misses."""
    text, decimals = length.text, 2
    while decimals < 6 and in_system(Length.parse(text), limit.is_metric) == in_system(limit, limit.is_metric):
        decimals += 1
        text = (in_metres(length.length_m, decimals) if length.is_metric else in_feet(length.length_ft, decimals)).text
    return text


def megahertz(freq_hz: float) -> str:
    """A frequency as the trade writes it."""
    return f"{shown(freq_hz / 1e6, 3)} MHz"


def ohms(impedance_ohm: float) -> str:
    """An impedance as the trade writes it."""
    return f"{shown(impedance_ohm, 1)} \N{GREEK CAPITAL LETTER OMEGA}"


def decibels(ratio_db: float, apart_from_db: float | None = None) -> str:
    """A ratio to a tenth of a decibel, or as finely as it takes not to look like the limit that it misses."""
    decimals = 1
    while apart_from_db is not None and decimals < 6 and shown(ratio_db, decimals) == shown(apart_from_db, decimals):
        decimals += 1
    return f"{shown(ratio_db, decimals)} dB"
