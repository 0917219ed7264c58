"""The bonding graph: what is joined to what by bonding conductors, and the way from a thing to an electrode."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Mapping
from functools import cached_property
from heapq import heappop, heappush

from coaxwright.design.quantities import Length, total
from coaxwright.design.words import BondKind
from coaxwright.frozen_value import frozen_value
from coaxwright.network.nodes import BondNode
from coaxwright.network.tags import tag_order
from coaxwright.network.values import Unknown

TERMINATION: BondKind = "intersystem bonding termination"
_BUILDING_POINTS: tuple[BondKind, ...] = (
    TERMINATION,
    "grounding electrode system",
    "service equipment",
    "service raceway",
    "water pipe",
    "structural metal",
    "concrete-encased electrode",
    "ground ring",
)
OWN_POINTS: tuple[BondKind, ...] = ("ground rod", "ground plate")
"""Kinds of electrode that stand apart until a conductor joins them with the building's."""
BONDING_POINTS = (*_BUILDING_POINTS, *OWN_POINTS)
"""What a new bond may be brought to, best first."""
BUILDING_LEVEL = frozenset(_BUILDING_POINTS)
"""Kinds that stand for the electrode system of the building's electrical service.

Source: NFPA 70, 800.100(B) (820.100(B) until 2017) and 250.50, from memory.
"""
ELECTRODES: frozenset[BondKind] = frozenset((*BONDING_POINTS, "lightning electrode system"))
"""Kinds at which a bonding path has arrived. The lightning system's are reached, and never offered for a new bond."""
NO_WAY: frozenset[BondKind] = frozenset(("gas pipe",))
"""Kinds that no bond may rely on, though they are metal. Source: NFPA 70, 250.52(B), from memory."""

_MICROMETRES_PER_M = 1e6  # lengths add up as whole micrometers, so that three times 0.1 m is as long as 0.3 m


@frozen_value
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
                return Unknown("conductor without length", (*conductor.path, "length"), {"conductor": conductor.tag})
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
        self._masts = dead
        self._dead = dead | {tag for tag, node in items.items() if node.item.kind in NO_WAY}
        self._electrodes = {tag: node for tag, node in items.items() if node.item.kind in ELECTRODES and node.in_use}
        self._goals = frozenset(self._electrodes)
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
            if here in self._dead:
                continue
            if here in self._loose:
                return self._loose[here]
            seen.add(here)
            queue += [there for _, there in self._edges.get(here, ()) if there not in seen]
        return None

    def astray(self, reference: str) -> tuple[BondNode, str] | None:
        """A conductor over which a thing is brought to what no bond may rely on, with the tag of that."""
        queue, seen = [reference], {reference}
        while queue:
            here = queue.pop(0)
            for conductor, there in self._edges.get(here, ()) if here not in self._dead else ():
                if there in self._dead and there not in self._masts:
                    return conductor, there
                if there not in seen:
                    seen.add(there)
                    queue.append(there)
        return None

    def meets(self, reference: str) -> frozenset[str]:
        """The electrodes and terminations that a thing is brought to, not by way of one another."""
        queue, seen = [reference], {reference}
        while queue:
            here = queue.pop(0)
            if here in self._dead or (here in self._electrodes and here != reference):
                continue
            further = [there for _, there in self._edges.get(here, ()) if there not in seen]
            seen.update(further)
            queue += further
        return frozenset(seen & self._electrodes.keys())

    def joined_with(self, reference: str, counts: Callable[[BondNode], bool]) -> frozenset[str]:
        """What hangs together with an item, itself among it: over conductors that count, and as terminations state."""
        queue, seen = [reference], {reference}
        while queue:
            here = queue.pop(0)
            if here in self._dead:
                continue
            further = [there for conductor, there in self._edges.get(here, ()) if counts(conductor)]
            stated = self._electrodes[here].item.electrode if here in self._electrodes else None
            if stated in self._electrodes:
                further.append(stated)
            further += self._stating.get(here, ())
            queue += [there for there in further if there not in seen]
            seen.update(further)
        return frozenset(seen)

    @cached_property
    def _stating(self) -> dict[str, list[str]]:
        """For each electrode, the items that state it as theirs."""
        found: dict[str, list[str]] = defaultdict(list)
        for tag, node in self._electrodes.items():
            if node.item.electrode is not None:
                found[node.item.electrode].append(tag)
        return dict(found)

    def path(self, reference: str) -> BondPath | None:
        """The shortest way to an electrode or termination; or None.

        The length decides what a surge meets. A way that lacks a length comes after those that do not; of equals, that
        with the fewest conductors, then by tags.
        """
        return self._search(reference, self._goals)

    def onwards(self, termination: BondNode) -> BondPath | None:
        """The way that is drawn from a termination on to what it is joined to.

        That is the electrode that it states, else the nearest item that does not wait for a conductor itself. None
        where it is said to be joined to the service, where no conductor leads on, and for what is no termination.
        """
        stated = termination.item.electrode
        if termination.item.kind != TERMINATION or stated in ("service", termination.tag):
            return None
        if stated is not None and stated in self._electrodes:
            return self._search(termination.tag, frozenset((stated,)))
        joined = (tag for tag in self._electrodes if tag != termination.tag and self._is_joined(tag))
        return self._search(termination.tag, frozenset(joined))

    def _is_joined(self, electrode: str) -> bool:
        """Whether what a termination states, and what that states in turn, leads to an electrode or to the service."""
        seen: set[str] = set()
        while electrode not in seen:
            seen.add(electrode)
            node = self._electrodes.get(electrode)
            if node is None or node.item.kind != TERMINATION:
                return True  # a tag that names nothing is a fault of its own
            if node.item.electrode is None:
                return False
            if node.item.electrode == "service":
                return True
            electrode = node.item.electrode
        return False

    def open_end(self, electrode: BondNode) -> Unknown | None:
        """What is not said of the way from a termination on to an electrode; None where the way is told.

        A bar on a wall is no electrode, nor is a row of bars that name one another.
        """
        here, seen = electrode, {electrode.tag}
        while here.item.kind == TERMINATION and here.item.electrode != "service":
            at, stated = (*here.path, "electrode"), here.item.electrode
            if stated is not None and stated not in self._electrodes:
                return Unknown("joined to no electrode", at, {"termination": here.tag, "written": stated})
            way = self.onwards(here) if stated is None else None
            if stated is None and way is None:
                return Unknown("electrode not stated", at, {"termination": here.tag})
            here = self._electrodes[stated] if stated is not None else way.electrode if way is not None else here
            if here.tag in seen:
                return Unknown("terminations alone", at, {"termination": electrode.tag})
            seen.add(here.tag)
        return None

    def path_to_building(self, reference: str) -> BondPath | None:
        """The way from an electrode of its own on to the electrode system of the building; or None."""
        goals = {tag for tag, node in self._electrodes.items() if node.item.kind in BUILDING_LEVEL}
        return self._search(reference, frozenset(goals))

    def _search(self, reference: str, goals: frozenset[str]) -> BondPath | None:
        # Every part of the key adds up along the way, so the first way that reaches a goal is the best; conductor tags
        # come last, so the answer does not depend on the order of the file.
        queue: list[tuple[int, int, int, tuple[object, ...], str, tuple[BondNode, ...]]] = [
            (0, 0, 0, (), reference, ())
        ]
        seen: set[str] = set()
        while queue:
            unknown, length_um, steps, names, here, way = heappop(queue)
            if here in goals and way:
                return BondPath(way, self._electrodes[here])
            if here in seen or here in self._dead:
                continue
            seen.add(here)
            for conductor, there in self._edges.get(here, ()):
                own = conductor.length
                own_um = round(own.length_m * _MICROMETRES_PER_M) if own is not None else 0
                further = (unknown + (own is None), length_um + own_um, steps + 1)
                heappush(queue, (*further, (*names, tag_order(conductor.tag)), there, (*way, conductor)))
        return None
