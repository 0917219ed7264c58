"""Outlets of repeated units that come out alike are told once, with the other units in which it is the same."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Sequence
from dataclasses import dataclass, field

from coaxwright.reports.instances import units
from coaxwright.reports.levels.gather import OutletRow

_MOST = 1_000
"""Lists for an author's eyes are not cut."""


@dataclass(slots=True)
class AlikeRows:
    """An outlet, and those that the same is told of."""

    first: OutletRow
    others: list[OutletRow] = field(default_factory=list)

    @property
    def also(self) -> str:
        """``also in 102 and 103``; empty where no other unit is alike."""
        return f"also in {units((row.unit for row in self.others), _MOST)}" if self.others else ""


def merge_units(rows: Sequence[OutletRow], told: Callable[[OutletRow], Hashable]) -> list[AlikeRows]:
    """The rows in their order, those of one typical unit's outlet together where ``told`` of them is the same."""
    found: dict[Hashable, AlikeRows] = {}
    for row in rows:
        own = row.tag.removeprefix(f"{row.unit}/") if row.unit else row.tag
        key = (row.typical, own, told(row))
        if key in found and row.unit:
            found[key].others.append(row)
        else:
            found[key] = AlikeRows(row)
    return list(found.values())
