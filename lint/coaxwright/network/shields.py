"""Shields of coax as one conductor: what hangs together over them, and which buildings they join."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from typing import TYPE_CHECKING

from coaxwright.frozen_value import frozen_value
from coaxwright.network.bondables import Bondable
from coaxwright.network.bonds import BondPath
from coaxwright.network.tags import tag_order

if TYPE_CHECKING:
    from coaxwright.network.network import Network

PARTS_SHIELDS = "galvanic isolator"


@frozen_value
class JoinedBuildings:
    """Two buildings joined by the shields of coax that is bonded in both."""

    one: str
    other: str
    bonds: tuple[tuple[Bondable, BondPath], tuple[Bondable, BondPath]]
    """A bonded protector of each, with its way to an electrode."""
    cables: tuple[str, ...]
    """The cables that go from building to building, in tag order; empty where no single one does."""


def joined_by_shields(network: Network) -> Iterator[JoinedBuildings]:
    """Pairs of buildings that shields join, each building with the first of those whose electrodes it might share.

    A galvanic isolator parts the shields of its two sides. Buildings whose electrode systems are joined count as one.
    """
    protectors = {
        bondable.device.tag: (number, bondable)
        for number, bondable in enumerate(network.bondables)
        if not bondable.is_mast
    }
    for shield in _shields(network):
        bonded: dict[str, tuple[Bondable, BondPath]] = {}
        for _, bondable in sorted((protectors[tag] for tag in shield & protectors.keys()), key=lambda one: one[0]):
            place, path = bondable.device.place, network.bond_paths[bondable.reference]
            if place is not None and place.building and path is not None:
                bonded.setdefault(place.building, (bondable, path))
        first, *others = sorted(bonded, key=tag_order) or [""]
        told: list[str] = []
        for other in others:
            if not any(network.are_joined(other, known) for known in (*told,)):
                told.append(other)
                yield JoinedBuildings(first, other, (bonded[first], bonded[other]), _between(network, shield, other))


def _between(network: Network, shield: frozenset[str], building: str) -> tuple[str, ...]:
    return tuple(
        dict.fromkeys(
            entry.cable.tag
            for entry in network.entries
            if entry.building == building
            and any(end.device is not None and end.device.tag in shield for end in entry.cable.ends)
        )
    )


def _shields(network: Network) -> Iterator[frozenset[str]]:
    """Devices whose shields hang together over cables in use and over what is screwed onto what."""
    next_to: dict[str, set[str]] = defaultdict(set)
    pairs = [
        (link.near.device, link.far.device)
        for link in network.cables.values()
        if link.in_use and link.near.device is not None and link.far.device is not None
    ]
    pairs += [(network.devices[tag], end.device) for tag, end in network.fittings.items() if end.device is not None]
    for one, other in pairs:
        if PARTS_SHIELDS not in (one.device.kind, other.device.kind):
            next_to[one.tag].add(other.tag)
            next_to[other.tag].add(one.tag)
    seen: set[str] = set()
    for tag in next_to:
        if tag not in seen:
            found, queue = {tag}, [tag]
            while queue:
                further = next_to[queue.pop()] - found
                found |= further
                queue += further
            seen |= found
            yield frozenset(found)
