"""What a type phrase means: a cable type, or the words that mean none."""

from __future__ import annotations

from collections.abc import Sequence
from enum import StrEnum

from coaxwright.catalogue.entries import CableClass, Center, Jacket, Shield
from coaxwright.catalogue.errors import CatalogueError
from coaxwright.frozen_value import frozen_value

_MARKS = ("CATVP", "CATVR", "CATV", "CATVX")  # the higher replaces the lower. Source: NFPA 70, 800.154, found in part


@frozen_value
class CableType:
    """A class with the options that a buyer's words chose, or that the class takes by default."""

    text: str
    """As the author wrote it."""
    cable_class: CableClass
    shield: Shield
    center: Center
    jackets: tuple[Jacket, ...]
    defaulted: tuple[str, ...]
    """The options that the words did not say, of ``shield``, ``center`` and ``jacket``."""
    words: tuple[str, ...] = ()
    """The words said, in the catalogue's own spelling and the author's order."""

    @property
    def phrase(self) -> str:
        """The type in the catalogue's own words."""
        return " ".join(self.words)

    @property
    def impedance_ohm(self) -> float:
        return self.cable_class.impedance_ohm

    @property
    def outer_diameter_m(self) -> float | None:
        return self.shield.outer_diameter_m

    @property
    def shield_resistance_ohm_per_m(self) -> float | None:
        return self.shield.resistance_ohm_per_m

    @property
    def center_resistance_ohm_per_m(self) -> float | None:
        return self.center.resistance_ohm_per_m

    @property
    def jacket(self) -> Jacket:
        """The jacket as one: it withstands whatever one of its words withstands."""
        return combined(self.jackets)

    def with_jacket(self, name: str) -> CableType:
        """The same type with a jacket; jackets said before stay where they combine with it, and give way otherwise.

        Raises CatalogueError where the class is not made with that jacket.
        """
        jacket = self.cable_class.jackets.get(name)
        if jacket is None:
            known = ", ".join(self.cable_class.jackets)
            raise CatalogueError(self.cable_class.name, f"is not made with the jacket {name!r}; it is with {known}")
        said = () if "jacket" in self.defaulted else self.jackets
        if jacket in said:
            return self
        kept = tuple(other for other in said if other.name in jacket.combines_with)
        words = self._words_with(name, dropped={other.name for other in said} - {other.name for other in kept})
        defaulted = tuple(option for option in self.defaulted if option != "jacket")
        return CableType(" ".join(words), self.cable_class, self.shield, self.center, (*kept, jacket), defaulted, words)

    def _words_with(self, name: str, dropped: set[str]) -> tuple[str, ...]:
        words = list(self.words)
        places = [index for index, word in enumerate(words) if word in dropped]
        words.insert(places[0] if places else len(words), name)
        return tuple(word for word in words if word not in dropped)


def combined(jackets: Sequence[Jacket]) -> Jacket:
    """Several jackets' words as one jacket: the best of each property."""
    if len(jackets) == 1:
        return jackets[0]
    marks = {jacket.us_mark for jacket in jackets}
    return Jacket(
        name=" ".join(jacket.name for jacket in jackets),
        resists_sun_and_wet=any(jacket.resists_sun_and_wet for jacket in jackets),
        burial_rated=any(jacket.burial_rated for jacket in jackets),
        us_mark=next((mark for mark in _MARKS if mark in marks), None),
        combines_with=frozenset.intersection(*(jacket.combines_with for jacket in jackets)),
        description="; ".join(jacket.description for jacket in jackets),
        sources=jackets[0].sources,
    )


class Misreading(StrEnum):
    """Why a type phrase means no cable."""

    UNKNOWN_CLASS = "unknown class"
    CONSTRUCTION_OPEN = "construction open"
    UNKNOWN_WORD = "unknown word"
    CONTRADICTION = "contradiction"
    NOT_MADE = "not made"


@frozen_value
class UnknownWords:
    """A type phrase that means no cable of the catalogue: the word at fault and the nearest right one."""

    text: str
    """As the author wrote it."""
    reason: Misreading
    word: str
    """The author's word, or words, at fault."""
    nearest: str | None = None
    other: str | None = None
    """The earlier word that ``word`` contradicts, or the class that is not made with it."""
    choices: tuple[str, ...] = ()
    """The words that would do in its place."""

    @property
    def message(self) -> str:
        """The problem in one sentence without a full stop."""
        match self.reason:
            case Misreading.UNKNOWN_CLASS:
                problem = f"{self.word!r} names no cable class; usual ones are {', '.join(self.choices)}"
            case Misreading.CONSTRUCTION_OPEN:
                problem = f"{self.word!r} does not fix the construction; write one of {', '.join(self.choices)}"
            case Misreading.UNKNOWN_WORD:
                problem = f"{self.word!r} is no word of a cable type"
            case Misreading.CONTRADICTION:
                problem = f"{self.word!r} contradicts {self.other!r}"
            case Misreading.NOT_MADE:
                problem = f"{self.other} is not made with {self.word!r}; it is with {', '.join(self.choices)}"
        return f"{problem}; did you mean {self.nearest!r}?" if self.nearest else problem
