"""Small pieces of language: lists, counts, articles, and computed figures as finely as it takes to tell them apart."""

from __future__ import annotations

from collections.abc import Sequence
from math import ceil

from coaxwright.design.quantities import DBMV_OF_DBM_75_OHM, Length, Level, in_feet, in_meters, shown
from coaxwright.design.quantities.telling import frequency as frequency
from coaxwright.design.series import in_series as in_series

LONGEST_LIST = 8
_NUMBERS = ("no", "one", "two")


def listed(words: Sequence[str], last: str = "and", most: int = LONGEST_LIST) -> str:
    """``a, b and c``; long lists are cut with the number left out."""
    if len(words) > most:
        return f"{', '.join(words[:most])} and {len(words) - most} more"
    if len(words) < 2:
        return "".join(words)
    return f"{', '.join(words[:-1])} {last} {words[-1]}"


def plural(noun: str) -> str:
    """A noun, or one with ``of`` or ``to`` behind it, of several: ``things to bond``, ``ports of MS``."""
    first, _, rest = noun.partition(" ")
    return f"{first}s {rest}" if rest.partition(" ")[0] in ("of", "to") else f"{noun}s"


def count(number: int, noun: str, of_several: str = "") -> str:
    """``one output``, ``3 outputs``, ``no outputs``."""
    word = _NUMBERS[number] if number < len(_NUMBERS) else str(number)
    return f"{word} {noun if number == 1 else of_several or f'{noun}s'}"


def ordinal(number: int) -> str:
    """``1st``, ``2nd``, ``3rd``, ``11th``."""
    suffix = "th" if number % 100 in (11, 12, 13) else _ORDINALS.get(number % 10, "th")
    return f"{number}{suffix}"


_ORDINALS = {1: "st", 2: "nd", 3: "rd"}


def article(noun: str) -> str:
    """The noun with ``a`` or ``an``, as it is spoken: an 8-way splitter, a UHF antenna."""
    is_vowel = noun[:1].lower() in tuple("aeio8") or (noun[:1].lower() == "u" and not noun.startswith("UHF"))
    return f"{'an' if is_vowel else 'a'} {noun}"


def length_apart(length: Length, limit: Length) -> str:
    """A length as its author wrote it; computed, as finely as it takes not to look like the limit that it misses."""
    text, decimals = length.text, 2
    if not Length.matches(text):  # a sum of more figures than an author may write looks like no limit
        return text

    def figure(of: Length) -> float:
        return of.length_m if limit.is_metric else of.length_ft

    while decimals < 6 and figure(Length.parse(text)) == figure(limit):
        decimals += 1
        text = (in_meters(length.length_m, decimals) if length.is_metric else in_feet(length.length_ft, decimals)).text
    return text


def short_length(length_m: float, is_metric: bool) -> str:
    """A computed length that may be a short one: ``40 mm``, ``1.5 in``, ``3.2 ft``."""
    if is_metric:
        return f"{shown(length_m * 1000, 1)} mm" if length_m < 1 else in_meters(length_m).text
    return f"{shown(length_m / 0.0254, 2)} in" if length_m < 0.6 else in_feet(length_m / 0.3048).text


def short_length_rounded_up(length_m: float, is_metric: bool) -> str:
    """A short length that is no less as it is written: ``34.6 mm``, ``1.049 in``."""
    unit_m, steps, unit = (0.001, 10, "mm") if is_metric else (0.0254, 1000, "in")
    return f"{shown(ceil(length_m / unit_m * steps - 1e-6) / steps, 3)} {unit}"


def level_text(level_dbmv: float, like: Level, apart_from_dbmv: float | None = None) -> str:
    """A level in 75 ohm in the unit of another, finely enough not to look like the limit that it misses."""
    shift_db = _SHIFTS_DB.get(like.text.lstrip("+-\N{MINUS SIGN}0123456789. "), 0.0)
    limit = None if apart_from_dbmv is None else apart_from_dbmv + shift_db
    unit = "dBm" if shift_db == -DBMV_OF_DBM_75_OHM else "dB\N{MICRO SIGN}V" if shift_db else "dBmV"
    return f"{figure_apart(level_dbmv + shift_db, limit, 1)} {unit}"


def figure_apart(value: float, limit: float | None, decimals: int) -> str:
    """A number to so many places, or as finely as it takes not to look like a limit."""
    while limit is not None and decimals < 6 and shown(value, decimals) == shown(limit, decimals):
        decimals += 1
    return shown(value, decimals)


def decibels(ratio_db: float, apart_from_db: float | None = None) -> str:
    """A ratio to a tenth of a decibel, or as finely as it takes not to look like the limit that it misses."""
    return f"{figure_apart(ratio_db, apart_from_db, 1)} dB"


def ohms(impedance_ohm: float) -> str:
    """An impedance as the trade writes it."""
    return f"{shown(impedance_ohm, 1)} \N{GREEK CAPITAL LETTER OMEGA}"


def level_number(level_dbmv: float, like: Level) -> str:
    """A level in 75 ohm as a number in the unit of another, to a tenth."""
    return level_text(level_dbmv, like).partition(" ")[0]


def level_unit(like: Level) -> str:
    """The unit of a level, in the spelling of this program."""
    return level_text(0.0, like).partition(" ")[2]


_SHIFTS_DB = {
    "dB\N{MICRO SIGN}V": 60.0,
    "dB\N{GREEK SMALL LETTER MU}V": 60.0,
    "dBuV": 60.0,
    "dBm": -DBMV_OF_DBM_75_OHM,
}
"""What is added to a level in dBmV to give it in another unit, in 75 ohm. Source: identity V = sqrt(P R)."""
