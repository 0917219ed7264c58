"""The things whose metal has to be bonded."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from coaxwright.frozen_value import frozen_value
from coaxwright.network.customer_premises import serves_premises_only
from coaxwright.network.entries import Line
from coaxwright.network.nodes import DeviceNode
from coaxwright.source import Path

if TYPE_CHECKING:
    from coaxwright.network.network import Network


@frozen_value
class Bondable:
    """A thing whose metal has to be bonded: a protector's body or a metal mast."""

    reference: str
    """As bonding conductors name it: ``GB1``, ``ANT.mast``."""
    device: DeviceNode
    is_mast: bool
    line: Line
    """What the coax it belongs to comes from out of doors; a mast's is ``antenna``."""
    is_in_house: bool = False
    """Whether all that is joined to it stays on the premises, so that no article on coax is sure to bind it."""

    @property
    def path(self) -> Path:
        return (*self.device.path, "mast") if self.is_mast else self.device.path


def bondables(network: Network) -> Iterator[Bondable]:
    """Everything whose metal has to be bonded, in tag order, masts behind their antenna's own body."""
    for tag, node in network.devices.items():
        if not node.in_use:
            continue
        if node.protects:
            line = network.line_of(node)
            yield Bondable(tag, node, False, line, serves_premises_only(network, node, line))
        mast = node.mast
        if mast is not None and mast.metal and node.place is not None and node.place.is_outside:
            yield Bondable(f"{tag}.mast", node, True, "antenna")
