"""What all quantities share: the number grammar, the error, the schema entry.

A quantity is a text with its unit (``85 ft``). It is parsed once, at the edge, to a float in SI units whose
name carries the unit, and it remembers the author's own text for everything that is shown.

Each dimension is one regular expression. The same expression is the ``pattern`` of the JSON Schema, so the
schema and the parser cannot accept different texts; it keeps to the subset that ECMA 262, Python and the Rust
engine read alike (no look-around, no back-references, ``[0-9]`` for digits).
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from difflib import get_close_matches
from typing import Any, ClassVar, Self

from coaxwright.errors import CoaxwrightError

# At most 9 digits before the point and 15 behind it: no text gives a number that is infinite or costs time.
INTEGER = "[0-9]{1,9}"
DECIMAL = rf"(?:{INTEGER}(?:\.[0-9]{{1,15}})?|\.[0-9]{{1,15}})"
FRACTION = f"(?:{INTEGER} )?[0-9]{{1,3}}/[1-9][0-9]{{0,2}}"
NUMBER = f"(?:{FRACTION}|{DECIMAL})"
SIGNED = f"[-+\N{MINUS SIGN}]?{DECIMAL}"

_MOST_KEPT = 1000

_BARE_NUMBER = re.compile(f"^{SIGNED}")
# A comma before two figures or one is a decimal comma, before three it may part thousands: that is not guessed.
# What follows the number is all of it unit: a figure there (6 ft 4) would be lost in the suggestion.
_NUMBER_THEN_UNIT = re.compile(rf"({SIGNED})(?:,([0-9]{{1,2}}))?\s*([^0-9\s,][^0-9]*(?:/100[^0-9]*)?)")


class QuantityError(CoaxwrightError, ValueError):
    """A text that is no quantity of its dimension: what it is, what was expected, the nearest right unit."""

    def __init__(self, text: object, quantity: type[Quantity], nearest: str | None = None) -> None:
        self.text = text
        self.quantity = quantity
        self.nearest = nearest
        hint = f"; did you mean {nearest!r}?" if nearest else ""
        super().__init__(
            f"{text!r} is not {_article(quantity.NAME)} {quantity.NAME}; write {quantity.expected()}{hint}"
        )


class _CompiledWhenUsed:
    """Stands for a dimension's compiled pattern until it is first asked for: a run uses few of the dimensions."""

    def __get__(self, instance: object, owner: type[Quantity]) -> re.Pattern[str]:
        compiled = re.compile(owner.PATTERN)
        setattr(owner, "_compiled", compiled)  # noqa: B010  it takes the place of this stand-in
        return compiled


class Quantity:
    """Base of all quantities; a subclass sets the class attributes and ``_read``."""

    __slots__ = ("text",)

    NAME: ClassVar[str]
    """What a person calls the dimension: ``length``."""
    EXAMPLES: ClassVar[tuple[str, ...]]
    UNITS: ClassVar[tuple[str, ...]]
    PATTERN: ClassVar[str]
    _compiled: ClassVar = _CompiledWhenUsed()
    _kept: ClassVar[dict[str, Any]] = {}
    """Texts that were read: the same few stand in one drawing after the other."""

    text: str

    def __init_subclass__(cls) -> None:
        super().__init_subclass__()
        cls._kept = {}

    @classmethod
    def parse(cls, text: object) -> Self:
        """Read a text of this dimension.

        Raises QuantityError for anything else, a bare number included.
        """
        if isinstance(text, cls):
            return text
        if not isinstance(text, str):
            raise QuantityError(text, cls)
        quantity: Self | None = cls._kept.get(text)
        if quantity is not None:
            return quantity
        match = cls._compiled.fullmatch(text)
        if match is None:
            raise QuantityError(text, cls, cls.nearest(text))
        quantity = cls.__new__(cls)
        quantity.text = match.string
        quantity._read(match)
        if len(cls._kept) < _MOST_KEPT:
            cls._kept[text] = quantity
        return quantity

    def _read(self, match: re.Match[str]) -> None:
        raise NotImplementedError

    @classmethod
    def matches(cls, text: str) -> bool:
        """Whether a text is of this dimension."""
        return cls._compiled.fullmatch(text) is not None

    @classmethod
    def is_number(cls, text: str) -> bool:
        """Whether a text is a bare number, to which a unit of this dimension can be put."""
        return bool(cls.UNITS) and _BARE_NUMBER.fullmatch(text) is not None

    @classmethod
    def expected(cls, number: str | None = None) -> str:
        """The accepted spellings in one phrase, for messages; with the author's own number if that is given."""
        if number is not None:
            own = [_BARE_NUMBER.sub(number, example, count=1) for example in cls.EXAMPLES[:2]]
            return " or ".join(f"'{example}'" for example in own if cls.matches(example)) or cls.expected()
        return " or ".join(f"'{example}'" for example in cls.EXAMPLES[:3])

    @classmethod
    def nearest(cls, text: object) -> str | None:
        """The text as it was probably meant: a mistyped unit or decimal comma set right, or None."""
        if not isinstance(text, str):
            return None
        match = _NUMBER_THEN_UNIT.fullmatch(text.strip())
        if match is None:
            return None
        number, decimals, unit = match.groups()
        if decimals:
            number = f"{number}.{decimals}"
        unit = unit.rstrip(".")
        folded = {candidate.casefold(): candidate for candidate in reversed(cls.UNITS)}
        for candidate in (folded.get(unit.casefold()), *get_close_matches(unit, cls.UNITS, n=1, cutoff=0.5)):
            if candidate and cls.matches(f"{number} {candidate}"):
                return f"{number} {candidate}"
        return None

    @classmethod
    def schema(cls) -> dict[str, Any]:
        """The JSON Schema of a text of this dimension; ``quantity`` names the dimension for our messages."""
        return {
            "type": "string",
            "pattern": cls.PATTERN,
            "quantity": cls.NAME,
            "examples": list(cls.EXAMPLES),
        }

    def __str__(self) -> str:
        return self.text

    def __repr__(self) -> str:
        return f"{type(self).__name__}({self.text!r})"

    def __eq__(self, other: object) -> bool:
        return type(self) is type(other) and self.text == other.text

    def __hash__(self) -> int:
        return hash((type(self), self.text))

    @classmethod
    def __get_pydantic_core_schema__(cls, source: object, handler: object) -> Any:
        from pydantic_core import core_schema

        return core_schema.no_info_plain_validator_function(cls.parse, serialization=core_schema.to_string_ser_schema())

    @classmethod
    def __get_pydantic_json_schema__(cls, core: object, handler: object) -> dict[str, Any]:
        return cls.schema()


def _article(noun: str) -> str:
    return "an" if noun[0] in "aeiou" else "a"


def alternatives(units: Mapping[str, object] | tuple[str, ...]) -> str:
    """The units as one regular-expression group, longest first so that no unit hides another."""
    return f"(?:{'|'.join(_escaped(unit) for unit in sorted(units, key=lambda u: (-len(u), u)))})"


def _escaped(text: str) -> str:
    """A text as a pattern, with backslashes before syntax characters alone (ECMA 262, 22.2.1, Unicode mode)."""
    return re.sub(r"[\\^$.*+?()\[\]{}|]", r"\\\g<0>", text)


def number(text: str) -> float:
    """The value of a decimal or of a whole number with a fraction: ``6 1/2`` is 6.5."""
    if "/" not in text:
        return float(text.replace("\N{MINUS SIGN}", "-"))
    whole, _, fraction = text.rpartition(" ")
    over, under = fraction.split("/")
    return float(whole or 0) + int(over) / int(under)


def nearest_range(quantity: type[Quantity], text: object) -> str | None:
    """A range as it was probably meant: a dash, dots or ``until`` in place of ``to``."""
    if not isinstance(text, str):
        return None
    meant = _RANGE.sub(" to ", text.strip(), count=1)
    return meant if quantity.matches(meant) else None


_RANGE = re.compile(r"(?<=[0-9a-zA-Z])\s*(?:-|\u2013|\u2014|\u2026|\.\.+|until|through)\s*")
