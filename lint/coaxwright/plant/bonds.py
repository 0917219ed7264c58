"""The bonding graph: what is joined to what by bonding conductors, and the way from a thing to an electrode."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass
from heapq import heappop, heappush

from coaxwright.design.quantities import Length, total
from coaxwright.design.words import BondKind
from coaxwright.plant.parts import BondNode
from coaxwright.plant.tags import tag_order
from coaxwright.plant.values import Unknown

BUILDING_LEVEL: frozenset[BondKind] = frozenset(
    (
        "intersystem termination",
        "building electrode system",
        "service equipment",
        "service raceway",
        "structural metal",
        "concrete-encased electrode",
        "ground ring",
        "water pipe",
    )
)
"""Kinds that stand for the electrode system of the building's electrical service.

Source: NFPA 70, 800.100(B) (820.100(B) until 2017) and 250.50, from memory.
"""
OWN_ELECTRODES: frozenset[BondKind] = frozenset(("ground rod", "ground plate", "lightning electrode system"))
"""Kinds that are electrodes of their own until they are joined to the building's."""
ELECTRODES = BUILDING_LEVEL | OWN_ELECTRODES
"""Kinds at which a bonding path has arrived; a gas pipe is none."""


@dataclass(frozen=True, slots=True)
class BondPath:
    """The conductors from a thing to the first electrode or termination, in order."""

    conductors: tuple[BondNode, ...]
    electrode: BondNode

    @property
    def length(self) -> Length | Unknown:
        """The whole length, or what is missing to tell it."""
        lengths: list[Length] = []
        for conductor in self.conductors:
            if conductor.length is None:
                return Unknown(f"{conductor.tag} has no length", (*conductor.path, "length"))
            lengths.append(conductor.length)
        return total(lengths)


class BondGraph:
    """Conductors as edges between references such as ``GB1``, ``ANT.mast`` and ``IBT``."""

    def __init__(
        self,
        items: Mapping[str, BondNode],
        ends: Mapping[str, tuple[str | None, str | None]],
        dead: frozenset[str] = frozenset(),
    ) -> None:
        """Both in tag order; ``ends`` are each conductor's two references, None where one names nothing.

        ``dead``: references through which nothing flows, such as the mast of an antenna that is not of metal.
        """
        self._dead = dead
        self._electrodes = {tag: node for tag, node in items.items() if node.item.kind in ELECTRODES and node.in_use}
        self._edges: dict[str, list[tuple[BondNode, str]]] = defaultdict(list)
        self._loose: dict[str, BondNode] = {}
        for tag in ends:
            node = items[tag]
            first, second = ends[tag]
            if not node.in_use:
                continue
            if first is not None and second is not None:
                self._edges[first].append((node, second))
                self._edges[second].append((node, first))
            else:
                for known in (first, second):
                    if known is not None:
                        self._loose.setdefault(known, node)

    def conductors_at(self, reference: str) -> tuple[BondNode, ...]:
        """The conductors joined to a thing."""
        return tuple(conductor for conductor, _ in self._edges[reference]) if reference in self._edges else ()

    def loose_end(self, reference: str) -> BondNode | None:
        """A conductor, joined here or further on, whose other end names nothing, so that where it leads is unknown."""
        queue = [reference]
        seen: set[str] = set()
        while queue:
            here = queue.pop(0)
            if here in self._loose:
                return self._loose[here]
            seen.add(here)
            queue += [there for _, there in self._edges.get(here, ()) if there not in seen]
        return None

    def path(self, reference: str) -> BondPath | None:
        """The shortest way to an electrode or termination; or None.

        The length decides what a surge meets. A way that lacks a length comes after those that do not; of equals, that
        with the fewest conductors, then by tags.
        """
        return self._search(reference, frozenset(self._electrodes))

    def onwards(self, electrode: BondNode) -> BondPath | None:
        """The way from a termination that states no electrode on to what it is joined to; None where it has none."""
        if not _is_bare(electrode):
            return None
        joined = frozenset(tag for tag, node in self._electrodes.items() if not _is_bare(node))
        return self._search(electrode.tag, joined)

    def is_open(self, electrode: BondNode) -> bool:
        """Whether it is a termination that states no electrode and from which no conductor leads on to one."""
        return _is_bare(electrode) and self.onwards(electrode) is None

    def path_to_building(self, reference: str) -> BondPath | None:
        """The way from an electrode of its own on to the electrode system of the building; or None."""
        goals = {tag for tag, node in self._electrodes.items() if node.item.kind in BUILDING_LEVEL}
        return self._search(reference, frozenset(goals))

    def _search(self, reference: str, goals: frozenset[str]) -> BondPath | None:
        # Ties are broken by conductor tags, so the answer does not depend on the order of the file.
        queue: list[tuple[int, float, int, tuple[object, ...], str, tuple[BondNode, ...]]] = [
            (0, 0.0, 0, (), reference, ())
        ]
        seen: set[str] = set()
        while queue:
            unknown, length_m, steps, names, here, way = heappop(queue)
            if here in goals and way:
                return BondPath(way, self._electrodes[here])
            if here in seen or here in self._dead:
                continue
            seen.add(here)
            for conductor, there in self._edges.get(here, ()):
                own = conductor.length
                further = (unknown + (own is None), length_m + (own.length_m if own is not None else 0.0), steps + 1)
                heappush(queue, (*further, (*names, tag_order(conductor.tag)), there, (*way, conductor)))
        return None


def _is_bare(node: BondNode) -> bool:
    """Whether it is a termination that does not say what it is joined to."""
    return node.item.kind == "intersystem termination" and node.item.electrode is None
