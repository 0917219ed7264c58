"""What is bonded over what, and where a bond would be brought to: each answered once for the whole network."""

from __future__ import annotations

from collections import defaultdict
from functools import cached_property
from typing import TYPE_CHECKING

from coaxwright.network.bondables import Bondable
from coaxwright.network.bonds import BONDING_POINTS
from coaxwright.network.nodes import BondNode
from coaxwright.network.tags import tag_order

if TYPE_CHECKING:
    from coaxwright.network.network import Network


class Bonded:
    """Answers by conductor, by electrode and by building."""

    def __init__(self, network: Network) -> None:
        self.network = network

    def over(self, conductor: str) -> tuple[Bondable, ...]:
        """The things whose way to an electrode goes over a bonding conductor."""
        return self._over.get(conductor, ())

    def beyond(self, conductor: str) -> tuple[BondNode, ...]:
        """The terminations that a bonding conductor joins to the building's electrodes, where something needs them."""
        return self._beyond.get(conductor, ())

    def at(self, electrode: str) -> tuple[Bondable, ...]:
        """The things whose way ends at an electrode or termination."""
        return self._at.get(electrode, ())

    def point(self, building: str | None) -> BondNode | None:
        """Where a new bond in a building would be brought to: its termination, else the best electrode shown."""
        return self._points.get(building)

    @cached_property
    def _over(self) -> dict[str, tuple[Bondable, ...]]:
        over: dict[str, list[Bondable]] = defaultdict(list)
        for bondable in self.network.bondables:
            path = self.network.bond_paths[bondable.reference]
            for conductor in path.conductors if path is not None else ():
                over[conductor.tag].append(bondable)
        return {conductor: tuple(bondables) for conductor, bondables in over.items()}

    @cached_property
    def _at(self) -> dict[str, tuple[Bondable, ...]]:
        reached: dict[str, list[Bondable]] = defaultdict(list)
        for bondable in self.network.bondables:
            path = self.network.bond_paths[bondable.reference]
            if path is not None:
                reached[path.electrode.tag].append(bondable)
        return {electrode: tuple(bondables) for electrode, bondables in reached.items()}

    @cached_property
    def _beyond(self) -> dict[str, tuple[BondNode, ...]]:
        network = self.network
        beyond: dict[str, dict[str, BondNode]] = defaultdict(dict)
        for reached in {path.electrode.tag for path in network.bond_paths.values() if path is not None}:
            here, seen = network.bonds[reached], {reached}
            onwards = network.bonding.onwards(here)
            while onwards is not None:  # one termination may be joined to another before the electrode
                for conductor in onwards.conductors:
                    beyond[conductor.tag][reached] = network.bonds[reached]
                here = onwards.electrode
                onwards = network.bonding.onwards(here) if here.tag not in seen else None
                seen.add(here.tag)
        return {tag: tuple(ends[end] for end in sorted(ends, key=tag_order)) for tag, ends in beyond.items()}

    @cached_property
    def _points(self) -> dict[str | None, BondNode]:
        points: dict[str | None, BondNode] = {}
        shown = [node for node in self.network.bonds.values() if node.item.kind in BONDING_POINTS and node.in_use]
        for node in sorted(shown, key=lambda one: (BONDING_POINTS.index(one.item.kind), tag_order(one.tag))):
            if node.place is not None:
                points.setdefault(node.place.building, node)
        return points
