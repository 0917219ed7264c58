"""The few of its subjects that a check can say anything of; to all others it does not apply.

Most rules speak of what most designs do not have: power beside a cable, a booster, a buried stretch. A check that says
what it is about is asked of that alone. It would say the same without: a test asks it of the others as well.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from typing import TypeVar

from coaxwright.checks.contract import SubjectFilter
from coaxwright.design.words import Exposure
from coaxwright.network import CableLink, DeviceNode, Network, Segment

S = TypeVar("S")


def those(test: Callable[[S], object]) -> SubjectFilter[S]:
    """The subjects that pass a test."""
    return lambda subjects, network: [one for one in subjects if test(one)]


def all_if(test: Callable[[Network], object]) -> SubjectFilter[S]:
    """Every subject of a design that passes a test, of others none."""
    return lambda subjects, network: subjects if test(network) else ()


def kinds(*wanted: str) -> SubjectFilter[DeviceNode]:
    """The devices of these kinds."""
    return those(lambda node: node.device.kind in wanted)


def described(test: Callable[[Segment], object]) -> SubjectFilter[CableLink]:
    """The cables with a stretch of which more is said than its length, and that passes a test."""
    return lambda links, network: [link for link in network.stretches.described if any(map(test, link.segments))]


def accompanied(links: Sequence[CableLink], network: Network) -> Sequence[CableLink]:
    """The cables beside which anything runs or stands, or in whose raceway."""
    return network.stretches.accompanied


def in_raceway(links: Sequence[CableLink], network: Network) -> Sequence[CableLink]:
    """The cables with a stretch in a raceway."""
    return network.stretches.in_raceway


def at(exposures: Iterable[Exposure], or_unplaced: bool = False) -> SubjectFilter[CableLink]:
    """The cables with a stretch of these exposures; also those of which not all is placed, where that is asked for."""

    def concerned(links: Sequence[CableLink], network: Network) -> Sequence[CableLink]:
        found = {link.tag: link for link in network.stretches.at(exposures)}
        if or_unplaced:
            found |= {link.tag: link for link in network.stretches.unplaced}
        return list(found.values())

    return concerned
