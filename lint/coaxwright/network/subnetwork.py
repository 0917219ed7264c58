"""The coax between several devices: what lies on ways from one of them to another, whatever passes there."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable
from typing import TYPE_CHECKING

from coaxwright.frozen_value import frozen_value

if TYPE_CHECKING:  # the network asks this of itself
    from coaxwright.network.network import Network


@frozen_value
class Subnetwork:
    """Devices, those asked for among them, and the cables that join them, in tag order."""

    devices: tuple[str, ...] = ()
    cables: tuple[str, ...] = ()


def between(network: Network, ends: Iterable[str]) -> Subnetwork:
    """What lies between devices: all that hangs together with them, without whatever leads to none of them.

    What is screwed onto a device ends there, and lies between nothing.
    """
    kept = frozenset(ends)
    joints: dict[str, list[tuple[str, str]]] = defaultdict(list)
    for tag, link in network.cables.items():
        near, far = link.near.device, link.far.device
        if link.in_use and near is not None and far is not None and near is not far:
            joints[near.tag].append((tag, far.tag))
            joints[far.tag].append((tag, near.tag))
    loose = [tag for tag, found in joints.items() if len(found) == 1 and tag not in kept]
    while loose:
        tag = loose.pop()
        for cable, other in joints.pop(tag, ()):
            joints[other].remove((cable, tag))
            if len(joints[other]) < 2 and other not in kept:
                loose.append(other)
    met = _joined(joints, kept)
    cables = {cable for one in met for cable, _ in joints[one]}
    return Subnetwork(
        tuple(tag for tag in network.devices if tag in met), tuple(tag for tag in network.cables if tag in cables)
    )


def _joined(joints: dict[str, list[tuple[str, str]]], kept: frozenset[str]) -> set[str]:
    """The devices that hang together with one of those kept at least."""
    met: set[str] = set()
    queue = [tag for tag in kept if joints.get(tag)]
    while queue:
        here = queue.pop()
        if here not in met:
            met.add(here)
            queue += [other for _, other in joints[here]]
    return met
