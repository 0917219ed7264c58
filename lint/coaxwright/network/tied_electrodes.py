"""Which buildings' electrode systems are joined with one another."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping

from coaxwright.network.bonds import BUILDING_LEVEL
from coaxwright.network.nodes import BondNode, BuildingNode


def joined_buildings(
    buildings: Mapping[str, BuildingNode],
    bonds: Mapping[str, BondNode],
    ends: Mapping[str, tuple[str | None, str | None]],
) -> Mapping[str, frozenset[str]]:
    """For each building, those whose electrode systems are joined with its own, itself among them.

    Joined by what the building says (``tied to``), or by bonding conductors from one system to the other.
    """
    edges: dict[str, set[str]] = defaultdict(set)
    for one, other in _edges(buildings, bonds, ends):
        edges[one].add(other)
        edges[other].add(one)
    return {tag: frozenset(_reached(f"building {tag}", edges)) for tag in buildings}


def _edges(
    buildings: Mapping[str, BuildingNode],
    bonds: Mapping[str, BondNode],
    ends: Mapping[str, tuple[str | None, str | None]],
) -> Iterator[tuple[str, str]]:
    for tag, building in buildings.items():
        for other in building.tied_to:
            yield f"building {tag}", f"building {other}"
    for tag, node in bonds.items():
        first, second = ends.get(tag, (None, None))
        if node.in_use and first is not None and second is not None:
            yield f"bond {first}", f"bond {second}"
        if node.in_use and node.item.kind in BUILDING_LEVEL and node.place is not None and node.place.building:
            yield f"bond {tag}", f"building {node.place.building}"


def _reached(start: str, edges: Mapping[str, Iterable[str]]) -> Iterator[str]:
    seen = {start}
    queue = [start]
    while queue:
        here = queue.pop()
        if here.startswith("building "):
            yield here.removeprefix("building ")
        for there in edges.get(here, ()):
            if there not in seen:
                seen.add(there)
                queue.append(there)
