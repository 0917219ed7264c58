"""The one place where verdicts become sentences.

A text holds placeholders: ``{name}``, or ``{name:format}`` with a format that suits the type of the value. A part in
square brackets drops out where a value in it is absent: ``{run} is {length}[, with a loss of {loss}]``.

| format | of | reads |
|---|---|---|
| (none) | any | as its author wrote it, or computed to the usual precision |
| ``a`` | words, tags, texts | an 8-way splitter |
| ``quoted`` | tags, texts | 'KITCHN'; in double quotes where it holds a single one: "O'Neil" |
| ``list``, ``or list`` | lists | a, b and c; cut after eight; a format of the items may follow: ``or list, as sold`` |
| ``whole list``, ``whole or list`` | lists | not cut |
| ``series`` | lists | in, out-1 to out-8; not cut |
| ``count NOUN`` | counts, lists | one output, 3 outputs, no outputs |
| ``count of NAME`` | counts | the same with a noun that is a value itself |
| ``ONE|MORE`` | counts, lists | the first for one, else the second |
| ``finer than NAME`` | lengths, levels, ratios, shares | as finely as it takes to differ from another value |
| ``short`` | lengths | inches or millimeters where it is short |
| ``short rounded up`` | lengths | inches to a thousandth or millimeters to a tenth, so that it is enough |
| ``rounded up``, ``rounded down`` | computed lengths | to a tenth of a foot or a centimeter, so that it is enough |
| ``number``, ``unit`` | levels | one without the other |
| ``N decimals`` | numbers, ratios, shares, impedances | to at most so many places |
| ``plural`` | words, texts | things to bond |
| ``as sold`` | conductors | the next size sold in the author's own system, gauge or square millimeters |
| ``MHz`` | frequencies | the number of megahertz, without the unit |
| ``sold like NAME`` | conductors | the next size sold in the system of another conductor |
| ``with area`` | conductors | a gauge with its cross-section: 10 AWG copper (5.3 mm²) |
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping, Sequence
from functools import cache
from math import ceil, floor

from coaxwright.design.author import is_metric as writes_metric
from coaxwright.design.quantities import (
    Band,
    Conductor,
    Length,
    LengthPair,
    Level,
    Quantity,
    in_feet,
    in_meters,
    shown,
)
from coaxwright.design.quantities import in_system_of as length_in_system_of
from coaxwright.design.sentences import (
    LONGEST_LIST,
    article,
    count,
    figure_apart,
    frequency,
    in_series,
    length_apart,
    level_text,
    listed,
    ordinal,
    plural,
    short_length,
    short_length_rounded_up,
)
from coaxwright.design.value_types import Derived, Phrase, Values, ValueType
from coaxwright.design.wire_sizes import as_written
from coaxwright.frozen_value import frozen_value

_PLACEHOLDER = re.compile(r"\{([^{}:]*)(?::([^{}]*))?\}")
_BRACKETED = re.compile(r"\[([^\[\]]*\{[^\[\]]*)\]")
_NAME = re.compile(r"[a-z_0-9]+")
_OHM = "\N{GREEK CAPITAL LETTER OMEGA}"

Phrases = Mapping[str, Mapping[str, str]]
"""The texts of parts of sentences: by the name of the value, then by the name of the wording."""


def fill(text: str, values: Mapping[str, object], types: Values, phrases: Phrases, is_metric: bool = False) -> str:
    """A text with its values in place of the placeholders; ``is_metric``: whether its author works in meters."""
    if "{" not in text:
        return text
    filled: list[str] = []
    for part in _parts(text):
        closing = ""
        if part.is_bracketed:
            names = [name for _, name, _ in part.pieces if name]
            if not any(types[name].is_optional for name in names if name in types):
                filled.append("[")  # brackets of the author's own
                closing = "]"
            elif any(values.get(name) is None for name in names):
                continue
        for before, name, said in part.pieces:
            filled.append(before)
            value = values.get(name)
            if value is not None:
                filled.append(_worded(name, value, types[name], said, values, phrases, is_metric))
        filled.append(closing)
    return "".join(filled)


@frozen_value
class _Part:
    """A part of a text, in brackets or not: placeholders with the text before each, by name and format."""

    is_bracketed: bool
    pieces: tuple[tuple[str, str, str], ...]


@cache
def _parts(text: str) -> tuple[_Part, ...]:
    parts: list[_Part] = []
    at = 0
    for bracketed in _BRACKETED.finditer(text):
        parts += (_Part(False, _pieces(text[at : bracketed.start()])), _Part(True, _pieces(bracketed[1])))
        at = bracketed.end()
    return (*parts, _Part(False, _pieces(text[at:])))


def _pieces(text: str) -> tuple[tuple[str, str, str], ...]:
    pieces: list[tuple[str, str, str]] = []
    at = 0
    for placeholder in _PLACEHOLDER.finditer(text):
        pieces.append((text[at : placeholder.start()], placeholder[1], placeholder[2] or ""))
        at = placeholder.end()
    return (*pieces, (text[at:], "", ""))


def faults(text: str, types: Values) -> Iterator[str]:
    """Whatever keeps a text from being filled with values of these types."""
    placeholders = _PLACEHOLDER.findall(text)
    rest = _PLACEHOLDER.sub("", text) if placeholders else text
    if "{" in rest or "}" in rest or not all(_NAME.fullmatch(name) for name, _ in placeholders):
        yield f"braces hold the name of a value, such as {{{next(iter(types), 'cable')}}}"
        return
    for name, said in placeholders:
        if name not in types:
            yield f"there is no value {name!r}; there are {', '.join(types)}"
        elif said and not _suits(said, types[name], types):
            yield f"{name} is a {types[name].name}, for which there is no format {said!r}"


def unworded(types: Values, phrases: Phrases) -> Iterator[str]:
    """The parts of sentences among the values that phrases do not word, or not soundly."""
    for name, of in types.items():
        of = of.items or of
        for wording, inner in (of.phrases or {}).items():
            text = phrases.get(name, {}).get(wording)
            if text is None:
                yield f"there are no words for {name} as {wording!r}"
            else:
                yield from (f"{name} as {wording!r}: {fault}" for fault in faults(text, inner))
                yield from unworded(inner, phrases)


def _suits(said: str, of: ValueType, types: Values) -> bool:
    """Whether a format is one of the type."""
    if of.items is not None:
        said, _, inner = said.partition(", ")
        return (said in _LISTS and (not inner or _suits(inner, of.items, types))) or _counts(said)
    if of.phrases is not None:
        return False
    if of.name == "count":
        return said.removeprefix("count of ") in types if said.startswith("count of ") else _counts(said)
    if said.startswith("finer than "):
        return of.name in _FINER and said.removeprefix("finer than ") in types
    if said.startswith("sold like "):
        return of.name == "conductor" and said.removeprefix("sold like ") in types
    if _DECIMALS.fullmatch(said):
        return of.name in _TO_DECIMALS
    return said in _OF_TYPE.get(of.name, ())


def _counts(said: str) -> bool:
    return said.startswith("count ") or said.count("|") == 1


_LISTS: dict[str, tuple[str, bool]] = {
    "list": ("and", False),
    "or list": ("or", False),
    "whole list": ("and", True),
    "whole or list": ("or", True),
}
_DECIMALS = re.compile(r"([0-6]) decimals")
_TO_DECIMALS = ("number", "ratio in dB", "share", "impedance in ohm", "resistance in ohm")
_FINER = ("length", "level", "ratio in dB", "share")
_OF_TYPE = {
    "tag": ("a", "quoted"),
    "word": ("a", "plural"),
    "text": ("a", "plural", "quoted"),
    "length": ("short", "short rounded up", "rounded up", "rounded down"),
    "level": ("number", "unit"),
    "frequency in Hz": ("MHz",),
    "conductor": ("as sold", "with area"),
}
_LISTS |= {"series": ("and", True), "or series": ("or", True)}


def _worded(
    name: str,
    value: object,
    of: ValueType,
    said: str,
    values: Mapping[str, object],
    phrases: Phrases,
    is_metric: bool,
) -> str:
    if of.items is not None:
        items: Sequence[object] = value  # type: ignore[assignment]
        return _list(name, items, of.items, said, values, phrases, is_metric)
    if of.phrases is not None:
        wording, own = (value.name, value.values) if isinstance(value, Phrase) else (str(value), {})
        return fill(phrases[name][wording], own, of.phrases[wording], phrases, is_metric)
    if isinstance(value, int) and said.startswith("count of "):
        return count(value, str(values[said.removeprefix("count of ")]))
    if isinstance(value, int) and of.name == "count":
        return _counted(value, said)
    if isinstance(value, Conductor):
        return _conductor(value, said, values, is_metric)
    apart = values.get(said.removeprefix("finer than ")) if said.startswith("finer than ") else None
    return _WORDED.get(of.name, _text)(value, said, apart)


def _list(
    name: str,
    items: Sequence[object],
    of: ValueType,
    said: str,
    values: Mapping[str, object],
    phrases: Phrases,
    is_metric: bool,
) -> str:
    if _counts(said):
        return _counted(len(items), said)
    said, _, inner = said.partition(", ")
    last, is_whole = _LISTS[said or "list"]
    shown = items if is_whole else items[:LONGEST_LIST]  # those that are cut are only counted
    words = [_worded(name, item, of, inner, values, phrases, is_metric) for item in shown]
    words += [""] * (len(items) - len(shown))
    if said.endswith("series"):
        words = in_series(words)
    return listed(words, last, len(words) if is_whole else LONGEST_LIST)


def _counted(number: int, said: str) -> str:
    if said.startswith("count "):
        return count(number, said.removeprefix("count "))
    if "|" in said:
        single, _, several = said.partition("|")
        return single if number == 1 else several
    return str(number)


def _conductor(value: Conductor, said: str, values: Mapping[str, object], is_metric: bool) -> str:
    if said.startswith("sold like "):
        like = values[said.removeprefix("sold like ")]
        assert isinstance(like, Conductor)  # the loader has held the value to its type
        return as_written(value, writes_metric(like)).text
    if said == "as sold":
        return as_written(value, is_metric).text
    if said == "with area" and not writes_metric(value):
        return f"{value.text} ({value.size.area_mm2:.2g} mm\N{SUPERSCRIPT TWO})"
    return value.text


def _text(value: object, said: str, _: object) -> str:
    text = value.text if isinstance(value, Quantity) else str(value)
    if said == "quoted":
        return repr(text)
    return article(text) if said == "a" else plural(text) if said == "plural" else text


def _length(value: object, said: str, apart: object) -> str:
    """As its author wrote it; computed, as finely as it takes not to look like the limit it misses."""
    if isinstance(value, LengthPair):
        return value.text
    if isinstance(value, Derived):
        like = value.like.feet if isinstance(value.like, LengthPair) else value.like
        assert isinstance(like, Length)  # the loader has held the value to its type
        length, length_m = length_in_system_of(like, value.value), value.value
    else:
        assert isinstance(value, Length)
        length, length_m = value, value.length_m
    if said.startswith("rounded "):
        return _rounded(length, ceil if said == "rounded up" else floor)
    if said == "short":
        return short_length(length_m, length.is_metric)
    if said == "short rounded up":
        return short_length_rounded_up(length_m, length.is_metric)
    if isinstance(apart, LengthPair):
        apart = apart.for_author(length.is_metric)
    elif isinstance(apart, Derived) and isinstance(apart.like, Length):
        apart = length_in_system_of(apart.like, apart.value)
    return length_apart(length, apart) if isinstance(apart, Length) else length.text


def _rounded(length: Length, to: Callable[[float], int]) -> str:
    steps = length.length_m * 100 if length.is_metric else length.length_ft * 10
    whole = to(round(steps, 6))  # so that 3.0000000004 counts as 3
    return (in_meters(whole / 100) if length.is_metric else in_feet(whole / 10)).text


def _level(value: object, said: str, apart: object) -> str:
    if isinstance(value, Derived):
        assert isinstance(value.like, Level)
        limit = apart.level_dbmv if isinstance(apart, Level) else apart.value if isinstance(apart, Derived) else None
        text = level_text(value.value, value.like, limit)
    else:
        assert isinstance(value, Quantity)
        text = value.text
    number, _, unit = text.partition(" ")
    return number if said == "number" else unit if said == "unit" else text


def _figure(unit: str, decimals: int, scale: float = 1.0) -> Callable[[object, str, object], str]:
    """How a figure of a unit reads: to so many places, where its format names no other number."""

    def worded(value: object, said: str, apart: object) -> str:
        if isinstance(value, Quantity):
            return value.text
        assert isinstance(value, (int, float))
        to = _DECIMALS.fullmatch(said)
        if isinstance(apart, Quantity):
            apart = next(
                (getattr(apart, name) for name in ("ratio_db", "loss_db", "share") if hasattr(apart, name)), None
            )
        limit = apart * scale if isinstance(apart, (int, float)) else None
        return f"{figure_apart(value * scale, limit, int(to[1]) if to else decimals)}{unit}"

    return worded


def _frequency(value: object, said: str, _: object) -> str:
    assert isinstance(value, (int, float))
    return shown(value / 1e6, 3) if said == "MHz" else frequency(value)


def _band(value: object, _: str, __: object) -> str:
    assert isinstance(value, Band)
    return f"{frequency(value.low_hz)} to {frequency(value.high_hz)}"


def _ordinal(value: object, said: str, _: object) -> str:
    assert isinstance(value, int)
    return ordinal(value)


_WORDED: dict[str, Callable[[object, str, object], str]] = {
    "ordinal": _ordinal,
    "length": _length,
    "level": _level,
    "ratio in dB": _figure(" dB", 1),
    "frequency in Hz": _frequency,
    "band": _band,
    "impedance in ohm": _figure(f" {_OHM}", 1),
    "resistance in ohm": _figure(f" {_OHM}", 2),
    "share": _figure(" %", 0, 100.0),
    "number": _figure("", 1),
}


@cache
def placeholders(text: str) -> tuple[str, ...]:
    """The names of the values that a text holds."""
    return tuple(name for name, _ in _PLACEHOLDER.findall(text))
