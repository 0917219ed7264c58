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

INTEGER = "[0-9]+"
DECIMAL = r"(?:[0-9]+(?:\.[0-9]+)?|\.[0-9]+)"
FRACTION = "(?:[0-9]+ )?[0-9]+/[1-9][0-9]*"
NUMBER = f"(?:{FRACTION}|{DECIMAL})"
SIGNED = f"[-+\N{MINUS SIGN}]?{DECIMAL}"


class QuantityError(CoaxwrightError, ValueError):
    """A text that is no quantity of its dimension: what it is, what was expected, the nearest right unit."""

    def __init__(self, text: object, quantity: type[Quantity], nearest: str | None = None) -> None:
        self.text = text
        self.quantity = quantity
        self.nearest = nearest
        hint = f"; did you mean {nearest!r}?" if nearest else ""
        super().__init__(f"{text!r} is not a {quantity.NAME}; write {quantity.expected()}{hint}")


class Quantity:
    """Base of all quantities; a subclass sets the class attributes and ``_read``."""

    __slots__ = ("text",)

    NAME: ClassVar[str]
    """What a person calls the dimension: ``length``."""
    EXAMPLES: ClassVar[tuple[str, ...]]
    UNITS: ClassVar[tuple[str, ...]]
    PATTERN: ClassVar[str]
    _compiled: ClassVar[re.Pattern[str]]

    text: str

    def __init_subclass__(cls) -> None:
        cls._compiled = re.compile(cls.PATTERN)

    @classmethod
    def parse(cls, text: object) -> Self:
        """Read a text of this dimension.

        Raises QuantityError for anything else, a bare number included.
        """
        if isinstance(text, cls):
            return text
        match = cls._compiled.fullmatch(text) if isinstance(text, str) else None
        if match is None:
            raise QuantityError(text, cls, cls.nearest(text))
        quantity = cls.__new__(cls)
        quantity.text = match.string
        quantity._read(match)
        return quantity

    def _read(self, match: re.Match[str]) -> None:
        raise NotImplementedError

    @classmethod
    def expected(cls) -> str:
        """The accepted spellings in one phrase, for messages."""
        return " or ".join(f"'{example}'" for example in cls.EXAMPLES[:3])

    @classmethod
    def nearest(cls, text: object) -> str | None:
        """The text as it was probably meant: a mistyped unit set right, or None."""
        if not isinstance(text, str):
            return None
        match = re.match(rf"^({SIGNED})\s*(\S.*)$", text.strip())
        if match is None:
            return None
        number, unit = match.groups()
        folded = {candidate.casefold(): candidate for candidate in reversed(cls.UNITS)}
        for candidate in (folded.get(unit.casefold()), *get_close_matches(unit, cls.UNITS, n=1, cutoff=0.5)):
            if candidate and cls._compiled.fullmatch(f"{number} {candidate}"):
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
        return type(self) is type(other) and self.text == other.text  # type: ignore[attr-defined]

    def __hash__(self) -> int:
        return hash((type(self), self.text))

    @classmethod
    def __get_pydantic_core_schema__(cls, source: object, handler: object) -> Any:
        from pydantic_core import core_schema

        return core_schema.no_info_plain_validator_function(
            cls.parse, serialization=core_schema.to_string_ser_schema()
        )

    @classmethod
    def __get_pydantic_json_schema__(cls, core: object, handler: object) -> dict[str, Any]:
        return cls.schema()


def alternatives(units: Mapping[str, object] | tuple[str, ...]) -> str:
    """The units as one regular-expression group, longest first so that no unit hides another."""
    return "(?:" + "|".join(re.escape(unit).replace("\\ ", " ") for unit in sorted(units, key=lambda u: (-len(u), u))) + ")"


def number(text: str) -> float:
    """The value of a decimal or of a whole number with a fraction: ``6 1/2`` is 6.5."""
    if "/" not in text:
        return float(text.replace("\N{MINUS SIGN}", "-"))
    whole, _, fraction = text.rpartition(" ")
    over, under = fraction.split("/")
    return float(whole or 0) + int(over) / int(under)
