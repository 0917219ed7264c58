"""Numbers of things that a limit counts."""

from __future__ import annotations

import re
from typing import ClassVar

from coaxwright.design.quantities.base import DECIMAL, Quantity, alternatives

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
