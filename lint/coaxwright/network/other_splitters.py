"""What is left of a divider, and the splitters that a remedy offers in place of one that is too small."""

from __future__ import annotations

from coaxwright.catalogue import Direction
from coaxwright.network import DeviceNode, Network


def splitter_with(outputs: int, like: DeviceNode, network: Network) -> str | None:
    """The smallest usual splitter of the sort of ``like`` with at least so many outputs; None where none is made."""
    if like.device.kind != "splitter":
        return None
    ways = next((one for one in network.catalogue.ways("splitter", like.device.variant) if one >= outputs), None)
    return f"{ways}-way splitter" if ways is not None else None


def larger_splitter(like: DeviceNode, more: int, network: Network) -> str | None:
    """A splitter of the same sort with so many outputs more."""
    return splitter_with((like.device.ways or 0) + more, like, network)


def spare_outputs(node: DeviceNode, network: Network) -> int:
    """The outputs of a divider that are free or only closed; of a tap not the way through."""
    taken = network.tenants(node.tag)
    closed = {port for port, tenant in taken.items() if tenant in network.fittings}
    outputs = [port for port in node.ports if port.direction is Direction.OUT]
    taps = [port for port in outputs if port.group == "tap"]
    return sum(port.name not in taken or port.name in closed for port in taps or outputs)
