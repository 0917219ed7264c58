"""Numbers of things that a limit counts."""

from __future__ import annotations

import re
from typing import ClassVar

from coaxwright.design.quantities.base import Quantity, alternatives

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
