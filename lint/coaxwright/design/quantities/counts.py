"""Numbers of things that a limit counts."""

from __future__ import annotations

import re
from typing import ClassVar, get_args

from coaxwright.design.quantities.base import DECIMAL, Quantity, alternatives
from coaxwright.design.words import FireClass

_SPOTS = ("spot", "spots")


class Spots(Quantity):
    """A number of spots at which something stands; ``number`` [-]."""

    __slots__ = ("number",)
    NAME: ClassVar[str] = "number of spots"
    EXAMPLES: ClassVar[tuple[str, ...]] = ("1 spot", "2 spots")
    UNITS: ClassVar[tuple[str, ...]] = _SPOTS
    PATTERN: ClassVar[str] = f"^[1-9][0-9]? {alternatives(_SPOTS)}$"

    number: int

    def _read(self, match: re.Match[str]) -> None:
        self.number = int(self.text.partition(" ")[0])


class Times(Quantity):
    """How many times one figure has to hold another; ``factor`` [-]."""

    __slots__ = ("factor",)
    NAME: ClassVar[str] = "multiple"
    EXAMPLES: ClassVar[tuple[str, ...]] = ("1.5 times", "2 times")
    UNITS: ClassVar[tuple[str, ...]] = ("times",)
    PATTERN: ClassVar[str] = f"^{DECIMAL} times$"

    factor: float

    def _read(self, match: re.Match[str]) -> None:
        self.factor = float(self.text.partition(" ")[0])


class Floors(Quantity):
    """A number of floors that a cable may pass; ``number`` [-]."""

    __slots__ = ("number",)
    NAME: ClassVar[str] = "number of floors"
    EXAMPLES: ClassVar[tuple[str, ...]] = ("1 floor", "2 floors")
    UNITS: ClassVar[tuple[str, ...]] = ("floor", "floors")
    PATTERN: ClassVar[str] = "^[0-9]{1,2} floors?$"

    number: int

    def _read(self, match: re.Match[str]) -> None:
        self.number = int(self.text.partition(" ")[0])


class InSeries(Quantity):
    """How many of a kind may follow one another; ``number`` [-]."""

    __slots__ = ("number",)
    NAME: ClassVar[str] = "number in series"
    EXAMPLES: ClassVar[tuple[str, ...]] = ("2 in series",)
    UNITS: ClassVar[tuple[str, ...]] = ("in series",)
    PATTERN: ClassVar[str] = "^[1-9][0-9]? in series$"

    number: int

    def _read(self, match: re.Match[str]) -> None:
        self.number = int(self.text.partition(" ")[0])


class FireClassAtLeast(Quantity):
    """The lowest reaction-to-fire class that will do; ``fire_class`` as EN 13501-6 names it."""

    __slots__ = ("fire_class",)
    NAME: ClassVar[str] = "reaction-to-fire class"
    EXAMPLES: ClassVar[tuple[str, ...]] = ("Eca", "Cca")
    UNITS: ClassVar[tuple[str, ...]] = ()
    PATTERN: ClassVar[str] = f"^{alternatives(get_args(FireClass))}$"

    fire_class: str

    def _read(self, match: re.Match[str]) -> None:
        self.fire_class = self.text
