"""Lines that begin and end on the premises: they bring nothing in from an operator or from the air."""

from __future__ import annotations

from typing import TYPE_CHECKING

from coaxwright.design.words import AERIALS
from coaxwright.network.entries import Line
from coaxwright.network.nodes import CableLink, DeviceNode

if TYPE_CHECKING:
    from coaxwright.network.network import Network

_FROM_OUTSIDE = AERIALS | {"coax drop", "optical node", "dish"}


def stays_on_premises(network: Network, link: CableLink, line: Line) -> bool:
    """Whether a cable carries the video of cameras alone, or runs between buildings with what begins here alone.

    ``line``: what lies out of doors beyond it. Whether the articles on signals of an operator and from the air bind
    such a line is in dispute.
    """
    services = network.services_on(link.tag)
    if not services:
        return any(end.device is not None and end.device.device.kind == "camera" for end in link.ends)
    if all(node.service.kind == "camera video" for node in services):
        return True
    sources = [network.devices.get(node.service.from_) for node in services]
    return line == "inter-building" and not any(
        source is None or source.device.kind in _FROM_OUTSIDE for source in sources
    )


def serves_premises_only(network: Network, protector: DeviceNode, line: Line) -> bool:
    """Whether every cable at a protector stays on the premises; False where none is joined to it."""
    joined = [link for link in network.cables_at(protector.tag) if link.in_use]
    return bool(joined) and all(stays_on_premises(network, link, line) for link in joined)
