"""What is alike in several repeated units is told once, of the first of them, with the names of the others."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from typing import Generic, TypeVar

from coaxwright.reports.instances import units as ranges
from coaxwright.reports.network_report.parts import ReadUnit

T = TypeVar("T")

_MOST = 1_000
"""Lists for an author's eyes are not cut."""


@dataclass(slots=True)
class Alike(Generic[T]):
    """Something told once, and the other units in which it is the same."""

    first: T
    others: list[str] = field(default_factory=list)

    @property
    def also(self) -> str:
        """``; also in flat-02 to flat-12``; empty where there is nothing alike."""
        return f"; also in {listed_units(self.others)}" if self.others else ""


class Units:
    """Knows the repeated units of a design by their names."""

    def __init__(self, units: Iterable[ReadUnit]) -> None:
        self.typical = {unit.tag: unit.like for unit in units}

    def of(self, tag: str) -> str:
        """The unit that a thing belongs to; empty for one that stands by itself."""
        unit, slash, _ = tag.partition("/")
        return unit if slash and unit in self.typical else ""

    def own(self, tag: str) -> str:
        """What a thing is called inside its unit."""
        unit = self.of(tag)
        return tag.removeprefix(f"{unit}/") if unit else tag

    def without(self, unit: str, text: str) -> str:
        """A text that no longer tells in which unit it is."""
        return re.sub(rf"(?<![\w/-]){re.escape(unit)}/", "/", text) if unit else text

    def once(self, things: Iterable[tuple[str, T]]) -> Iterator[Alike[T]]:
        """Things by their tags, each once where it is the same in several units, in the order of the first ones."""
        told: dict[tuple[str, str, str], Alike[T]] = {}
        for tag, thing in things:
            unit = self.of(tag)
            key = (self.typical.get(unit, ""), self.own(tag) if unit else tag, self.without(unit, repr(thing)))
            if key in told:
                told[key].others.append(unit)
            else:
                told[key] = Alike(thing)
        yield from told.values()

    def listed(self, tags: Sequence[str]) -> str:
        """Tags with ranges; those of units by what they are called there: ``hall and den in flat-01 to flat-12``."""
        alone = [tag for tag in tags if not self.of(tag)]
        holders: dict[str, list[str]] = {}
        for tag in tags:
            if self.of(tag):
                holders.setdefault(self.own(tag), []).append(self.of(tag))
        in_units: dict[tuple[str, ...], list[str]] = {}
        for own, names in holders.items():
            in_units.setdefault(tuple(names), []).append(own)
        parts = [listed_units(alone)] if alone else []
        parts += [f"{listed_units(own)} in {listed_units(names)}" for names, own in in_units.items()]
        return "; ".join(parts)


def listed_units(names: Iterable[str]) -> str:
    """Tags with ranges, none left out."""
    return ranges(names, most=_MOST)
