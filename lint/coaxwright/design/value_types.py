"""What the values of a verdict are: tags, words of the format, quantities, counts, lists, and parts of sentences.

A check declares each value of each case by name and type. A verdict carries the values as they were found or computed;
what they read like, in which unit and how finely, is decided once, where findings are worded.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field

from coaxwright.design.quantities import Band, Conductor, Quantity
from coaxwright.frozen_value import frozen_value


@frozen_value
class Derived:
    """A computed figure that is told in the unit its author would use: that of another quantity.

    value: a length [m], or a level [dBmV in 75 ohm]; like: a quantity as its author wrote it, whose system is kept.
    """

    value: float
    like: Quantity


@frozen_value
class Phrase:
    """A part of a sentence: the name of its wording, with the values that fill it."""

    name: str
    values: Mapping[str, object] = field(default_factory=dict)


@frozen_value
class ValueType:
    """The type of one value of a verdict."""

    name: str
    """What a value is, for messages: ``length``, ``list of tags``."""
    holds: tuple[type, ...]
    """The classes of its values."""
    is_optional: bool = False
    """Whether it may be None; then the bracketed part of a sentence around it drops out."""
    items: ValueType | None = None
    """Of a list: the type of each of its items."""
    phrases: Mapping[str, Mapping[str, ValueType]] | None = None
    """Of a part of a sentence: the values of each of its wordings; of a closed word that is worded: none of each."""

    def accepts(self, value: object) -> bool:
        """Whether a value is of the type."""
        if value is None:
            return self.is_optional
        if self.items is not None:
            return isinstance(value, (list, tuple)) and all(map(self.items.accepts, value))
        if self.phrases is not None:
            name, values = (value.name, value.values) if isinstance(value, Phrase) else (value, {})
            types = self.phrases.get(name) if isinstance(name, str) else None
            return types is not None and accepted(values, types)
        if isinstance(value, bool):
            return False
        return isinstance(value, self.holds)


def accepted(values: Mapping[str, object], types: Mapping[str, ValueType]) -> bool:
    """Whether values are those that are declared, each of its type; one that may be absent may be left out."""
    return all(name in types for name in values) and all(of.accepts(values.get(name)) for name, of in types.items())


Values = Mapping[str, ValueType]
"""The values of one case, by name."""

TAG = ValueType("tag", (str,))
"""A tag of the design, or a port of a device: ``SP1``, ``SP1.out-2``."""
WORD = ValueType("word", (str,))
"""A word of the format or the catalogue: a kind, a class, a metal, an exposure."""
TEXT = ValueType("text", (str,))
"""Verbatim, as its author wrote it or as it is to be written."""
CONDUCTOR = ValueType("conductor", (Conductor,))
COUNT = ValueType("count", (int,))
NUMBER = ValueType("number", (int, float))
"""A ratio or another figure without a unit."""
QUANTITY = ValueType("quantity", (Quantity,))
"""As its author or its ruleset wrote it, whatever its dimension."""
LENGTH = ValueType("length", (Quantity, Derived))
LEVEL = ValueType("level", (Quantity, Derived))
DECIBELS = ValueType("ratio in dB", (int, float, Quantity))
FREQUENCY = ValueType("frequency in Hz", (int, float))
BAND = ValueType("band", (Band,))
"""A band of frequencies, from its lower edge to its upper, each in the unit that suits it."""
IMPEDANCE = ValueType("impedance in ohm", (int, float))
RESISTANCE = ValueType("resistance in ohm", (int, float))
SHARE = ValueType("share", (int, float))
"""A part of a whole, 0 to 1, told in percent."""


def optional(of: ValueType) -> ValueType:
    """A value that may be absent."""
    return ValueType(of.name, of.holds, True, of.items, of.phrases)


def list_of(of: ValueType) -> ValueType:
    """Several values of one type, in their order."""
    return ValueType(f"list of {of.name}", (), items=of)


def phrase(**wordings: Values) -> ValueType:
    """A part of a sentence with values of its own: ``phrase(shown={"tag": TAG}, missing={})``.

    Its texts stand in the phrase book, by the check, the name of the value and the name of the wording.
    """
    return ValueType("part of a sentence", (), phrases={name.replace("_", " "): of for name, of in wordings.items()})


def one_of(*words: str) -> ValueType:
    """One of a few words that the phrase book words."""
    return ValueType("closed word", (), phrases={word: {} for word in words})


TAGS = list_of(TAG)
WORDS = list_of(WORD)
