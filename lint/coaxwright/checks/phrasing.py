"""Small pieces of language that several checks put into their values."""

from __future__ import annotations

from collections.abc import Sequence

from coaxwright.design.quantities import DBMV_OF_DBM_75_OHM, Length, Level, in_feet, in_metres, shown
from coaxwright.design.quantities.telling import frequency as frequency
from coaxwright.design.series import in_series as in_series

_NUMBERS = ("no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve")
LONGEST_LIST = 8


def listed(words: Sequence[str], last: str = "and", most: int = LONGEST_LIST) -> str:
    """``a, b and c``; long lists are cut with the number left out."""
    if len(words) > most:
        return f"{', '.join(words[:most])} and {len(words) - most} more"
    if len(words) < 2:
        return "".join(words)
    return f"{', '.join(words[:-1])} {last} {words[-1]}"


def several(noun: str) -> str:
    """A noun, or one with ``of`` or ``to`` behind it, of several: ``things to bond``, ``ports of MS``."""
    first, _, rest = noun.partition(" ")
    return f"{first}s {rest}" if rest.partition(" ")[0] in ("of", "to") else f"{noun}s"


def count(number: int, noun: str, plural: str = "") -> str:
    """``one output``, ``3 outputs``, ``no outputs``."""
    name = noun if number == 1 else plural or f"{noun}s"
    word = _NUMBERS[number] if number < 3 else str(number)
    return f"{word} {name}"


def article(noun: str) -> str:
    """The noun with ``a`` or ``an``, as it is spoken: an 8-way splitter, a UHF antenna."""
    is_vowel = noun[:1].lower() in tuple("aeio8") or (noun[:1].lower() == "u" and not noun.startswith("UHF"))
    return f"{'an' if is_vowel else 'a'} {noun}"


def in_system(length: Length, is_metric: bool) -> float:
    """A length as a number of metres, or of feet: limits are compared in the author's own system."""
    return length.length_m if is_metric else length.length_ft


def length_text(length: Length, limit: Length) -> str:
    """A length as its author wrote it; computed, as finely as it takes not to look like the limit it misses."""
    text, decimals = length.text, 2
    if not Length.matches(text):  # a sum of more figures than an author may write looks like no limit
        return text
    while decimals < 6 and in_system(Length.parse(text), limit.is_metric) == in_system(limit, limit.is_metric):
        decimals += 1
        text = (in_metres(length.length_m, decimals) if length.is_metric else in_feet(length.length_ft, decimals)).text
    return text


def ohms(impedance_ohm: float) -> str:
    """An impedance as the trade writes it."""
    return f"{shown(impedance_ohm, 1)} \N{GREEK CAPITAL LETTER OMEGA}"


def decibels(ratio_db: float, apart_from_db: float | None = None) -> str:
    """A ratio to a tenth of a decibel, or as finely as it takes not to look like the limit that it misses."""
    decimals = 1
    while apart_from_db is not None and decimals < 6 and shown(ratio_db, decimals) == shown(apart_from_db, decimals):
        decimals += 1
    return f"{shown(ratio_db, decimals)} dB"


def level_text(level_dbmv: float, like: Level, apart_from_dbmv: float | None = None) -> str:
    """A level in 75 ohm in the unit of another, finely enough not to look like the limit that it misses."""
    shift_db = _SHIFTS_DB.get(like.text.lstrip("+-\N{MINUS SIGN}0123456789. "), 0.0)
    decimals = 1
    while (
        apart_from_dbmv is not None
        and decimals < 6
        and shown(level_dbmv + shift_db, decimals) == shown(apart_from_dbmv + shift_db, decimals)
    ):
        decimals += 1
    unit = "dBm" if shift_db == -DBMV_OF_DBM_75_OHM else "dB\N{MICRO SIGN}V" if shift_db else "dBmV"
    return f"{shown(level_dbmv + shift_db, decimals)} {unit}"


_SHIFTS_DB = {
    "dB\N{MICRO SIGN}V": 60.0,
    "dB\N{GREEK SMALL LETTER MU}V": 60.0,
    "dBuV": 60.0,
    "dBm": -DBMV_OF_DBM_75_OHM,
}
"""What is added to a level in dBmV to give it in another unit, in 75 ohm. Source: identity V = sqrt(P R)."""


def level_number(level_dbmv: float, like: Level) -> str:
    """A level in 75 ohm as a number in the unit of another, to a tenth."""
    return level_text(level_dbmv, like).partition(" ")[0]


def level_unit(like: Level) -> str:
    """The unit of a level, in the spelling of this program."""
    return level_text(0.0, like).partition(" ")[2]
