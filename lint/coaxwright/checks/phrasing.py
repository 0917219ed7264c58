"""Small pieces of language that several checks put into their values."""

from __future__ import annotations

from collections.abc import Sequence

from coaxwright.design.quantities import Length, shown

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


def megahertz(freq_hz: float) -> str:
    """A frequency as the trade writes it."""
    return f"{shown(freq_hz / 1e6, 3)} MHz"


def ohms(impedance_ohm: float) -> str:
    """An impedance as the trade writes it."""
    return f"{shown(impedance_ohm, 1)} \N{GREEK CAPITAL LETTER OMEGA}"


def decibels(ratio_db: float) -> str:
    """A ratio to a tenth of a decibel."""
    return f"{shown(ratio_db, 1)} dB"
