"""Raceways with what they hold, and what runs beside a cable."""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.design import NeighborItem, Raceway
from coaxwright.design.model.site import NextTo
from coaxwright.design.quantities import Beside, Length, Voltage
from coaxwright.frozen_value import frozen_value
from coaxwright.source import Path

_METAL = frozenset(
    ("rigid metal conduit", "intermediate metal conduit", "electrical metallic tubing", "flexible metal conduit")
)
_OPEN = frozenset(("cable tray", "sleeve"))


@frozen_value
class Neighbor:
    """Something beside a cable: what it is, how far off, and how it is wired where it is power."""

    what: str
    path: Path
    distance: Length | None = None
    wiring: str | None = None
    voltage: Voltage | None = None
    only_crosses: bool = False
    is_parted: bool = False
    """Whether a fixed barrier stands between."""


@frozen_value
class RacewayNode:
    """A raceway of the site."""

    tag: str
    raceway: Raceway
    places: tuple[str, ...]
    """Those of its places that are there."""
    holds: tuple[Neighbor, ...]
    """What it holds beside the coax."""

    @property
    def path(self) -> Path:
        return ("raceways", self.tag)

    @property
    def in_use(self) -> bool:
        return self.raceway.state != "abandoned"

    @property
    def is_metal(self) -> bool:
        return self.raceway.kind in _METAL

    @property
    def is_open(self) -> bool:
        """Whether it leaves a cable open to what is around it."""
        return self.raceway.kind in _OPEN


def neighbors_of(written: NextTo | None, path: Path) -> Iterator[Neighbor]:
    """The neighbors written at ``path``, be it one in words or a list."""
    if isinstance(written, Beside):
        yield _neighbor(written, path)
    else:
        for index, item in enumerate(written or ()):
            yield _neighbor(item, (*path, index))


def holdings_of(raceway: Raceway, path: Path) -> Iterator[Neighbor]:
    """What a raceway holds beside the coax, at no distance from it."""
    for index, item in enumerate(raceway.holds or ()):
        here = (*path, "holds", index)
        yield Neighbor(item, here) if isinstance(item, str) else _neighbor(item, here)


def _neighbor(item: Beside | NeighborItem, path: Path) -> Neighbor:
    if isinstance(item, Beside):
        return Neighbor(item.what, path, item.distance)
    return Neighbor(item.what, path, item.at, item.by, item.voltage, item.crossing, item.barrier)
