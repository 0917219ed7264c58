"""Conductor sizes in AWG or mm², with the metal of the conductor."""

from __future__ import annotations

import re
from typing import ClassVar

from coaxwright.design.quantities.base import DECIMAL, Quantity, alternatives
from coaxwright.physics.conductors import awg_area_mm2

_MM2 = ("mm\N{SUPERSCRIPT TWO}", "mm2")
_AWG_NUMBER = "(?:[1-4]/0|[0-9]|[1-3][0-9]|40)"
_SIZE = f"(?:{_AWG_NUMBER} ?AWG|{DECIMAL} ?{alternatives(_MM2)})"
_METALS = {
    "copper": "copper",
    "aluminum": "aluminum",
    "aluminium": "aluminum",
    "copper-clad steel": "copper-clad steel",
    "copper-clad aluminum": "copper-clad aluminum",
    "copper-clad aluminium": "copper-clad aluminum",
    "bronze": "bronze",
    "steel": "steel",
}
METALS: tuple[str, ...] = tuple(dict.fromkeys(_METALS.values()))

_METAL_WORDS = {
    "cu": "copper",
    "al": "aluminum",
    "copper": "copper",
    "aluminum": "aluminum",
    "aluminium": "aluminum",
}
_BY_THE_WAY = frozenset(
    ("bare", "solid", "stranded", "insulated", "covered", "green", "yellow", "green/yellow", "wire")
)
"""What people say of a bonding wire besides; the color is that of the trade."""
_SIZE_IN_WORDS = re.compile(
    rf"(?<![\d./])({_AWG_NUMBER})\s*(?:AWG|ga\b|gauge\b)|({DECIMAL})\s*(?:mm\N{{SUPERSCRIPT TWO}}|mm2|sq\.? ?mm)",
    re.IGNORECASE,
)


class WireSize(Quantity):
    """A conductor's size: an American wire gauge number (ASTM B258) or a cross-section; ``area_mm2`` [mm²]."""

    __slots__ = ("area_mm2", "gauge")
    NAME: ClassVar[str] = "conductor size"
    EXAMPLES: ClassVar[tuple[str, ...]] = ("10 AWG", "1/0 AWG", "4 mm\N{SUPERSCRIPT TWO}")
    UNITS: ClassVar[tuple[str, ...]] = ("AWG", *_MM2)
    PATTERN: ClassVar[str] = f"^{_SIZE}$"

    area_mm2: float
    gauge: int | None
    """The AWG number, 1/0 as 0, 2/0 as -1 and so on; None where the author wrote mm²."""

    def _read(self, match: re.Match[str]) -> None:
        if not self.text.endswith("AWG"):
            self.gauge = None
            self.area_mm2 = float(re.split(" ?mm", self.text, maxsplit=1)[0])
            return
        name = self.text.removesuffix("AWG").rstrip()
        self.gauge = 1 - int(name[0]) if name.endswith("/0") else int(name)
        self.area_mm2 = awg_area_mm2(self.gauge)


class Conductor(Quantity):
    """A conductor by size and metal: ``10 AWG copper``, ``16 mm² solid copper``."""

    __slots__ = ("metal", "size")
    NAME: ClassVar[str] = "conductor"
    EXAMPLES: ClassVar[tuple[str, ...]] = ("10 AWG copper", "4 mm\N{SUPERSCRIPT TWO} copper")
    UNITS: ClassVar[tuple[str, ...]] = tuple(f"AWG {metal}" for metal in _METALS)
    PATTERN: ClassVar[str] = f"^{_SIZE} (?:bare |insulated |covered )?(?:solid |stranded )?{alternatives(_METALS)}$"

    size: WireSize
    metal: str

    @classmethod
    def nearest(cls, text: object) -> str | None:
        """A size without its metal is taken for copper, ``#10 copper`` and ``10 ga Cu`` for ``10 AWG copper``."""
        if not isinstance(text, str):
            return None
        text = text.strip().removeprefix("#")
        for candidate in (text, f"{text} copper"):
            if cls.matches(candidate):
                return candidate
        return cls._of_words(text) or super().nearest(text)

    @classmethod
    def _of_words(cls, text: str) -> str | None:
        """Size and metal out of the words that people use, whatever their order; None where a word says more."""
        size = _SIZE_IN_WORDS.search(text)
        if size is None:
            return None
        words = f"{text[: size.start()]} {text[size.end() :]}".lower().split()
        metals = [_METAL_WORDS[word] for word in words if word in _METAL_WORDS]
        if len(metals) > 1 or any(word not in _METAL_WORDS and word not in _BY_THE_WAY for word in words):
            return None
        number, mm2 = size.groups()
        found = f"{f'{number} AWG' if number else f'{mm2} {_MM2[0]}'} {metals[0] if metals else 'copper'}"
        return found if cls.matches(found) else None

    def _read(self, match: re.Match[str]) -> None:
        size, metal = _SIZE_AND_METAL.fullmatch(self.text).groups()  # type: ignore[union-attr]
        self.size = WireSize.parse(size)
        self.metal = _METALS[metal]


_SIZE_AND_METAL = re.compile(f"({_SIZE}) (?:bare |insulated |covered )?(?:solid |stranded )?({alternatives(_METALS)})")
