"""What makes adding decibels doubtful: unlike impedances, open ports, poor ends, and signals that come by two ways."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Literal

from coaxwright.analysis.mismatches import Joint, Ripple, joint, ripple
from coaxwright.catalogue import Port
from coaxwright.frozen_value import frozen_value
from coaxwright.network import CableEnd, CableLink, DeviceNode, Grid, Known, Network
from coaxwright.network.loops import Loop
from coaxwright.network.service_demand import receiving_port
from coaxwright.physics.comparison import at_least
from coaxwright.source import Path

POOR_RETURN_LOSS_DB = 10.0
"""An end that sends back more is not added in decibels. Source: trade practice, from memory."""
DoubtKind = Literal["unlike impedance", "open port", "poor end", "second way"]


@frozen_value
class ModelWarning:
    """One thing in the network for which its waves are solved rather than its decibels added."""

    kind: DoubtKind
    tag: str
    """The cable or device."""
    port: str
    """Of the device; empty for a cable."""
    path: Path
    return_loss_db: float
    """Where it stands: 0 of an open end, and of what all comes by a second way."""


@frozen_value
class Mismatch:
    """A cable whose impedance is not that of the port at one of its ends, or of both."""

    cable: CableLink
    ends: tuple[tuple[CableEnd, Joint], ...]
    """The ends that are unlike."""
    ripple: Ripple | None
    """Between the two ends, where both are; None where one only is, or its length is not known."""


def mismatches(network: Network, cables: Iterator[CableLink] | tuple[CableLink, ...], freq_hz: float) -> list[Mismatch]:
    """The cables, of those given, that meet ports of another impedance, with the ripple they make at a frequency [Hz].

    In the order given. What is not understood is left out.
    """
    from coaxwright.analysis.losses import line_loss_db

    found = []
    for link in cables:
        joints = [(end, joint(link, end)) for end in link.ends]
        known = [(end, one) for end, one in joints if isinstance(one, Joint)]
        unlike = tuple((end, one) for end, one in known if one.reflection)
        if not unlike:
            continue
        loss_db = line_loss_db(link, freq_hz)
        swing = None
        if len(unlike) == 2 and isinstance(loss_db, Known):
            swing = ripple(link, unlike[0][1], unlike[1][1], loss_db)
        found.append(Mismatch(link, unlike, swing))
    return found


def doubts(network: Network, devices: tuple[DeviceNode, ...], cables: tuple[CableLink, ...]) -> list[ModelWarning]:
    """What is doubtful among some devices and the cables between them, in their order; cables first."""
    found = [
        ModelWarning(
            "unlike impedance", one.cable.tag, "", one.cable.path, min(of.return_loss_db for _, of in one.ends)
        )
        for one in mismatches(network, cables, 1e8)
    ]
    for device in devices:
        measured_db = measured_return_loss_db(device)
        if measured_db is not None and not at_least(measured_db, POOR_RETURN_LOSS_DB):
            found.append(ModelWarning("poor end", device.tag, "", device.path, measured_db))
        found += (
            ModelWarning("open port", device.tag, port.name, device.path, 0.0) for port in open_ports(network, device)
        )
    return found


def second_ways(
    network: Network, service: str, cables: tuple[CableLink, ...], grid_hz: Grid
) -> Iterator[tuple[ModelWarning, Loop]]:
    """The cables, of those given, over which a frequency of the grid comes where it had come before, in their order.

    Only the first way is added in decibels.
    """
    for link in cables:
        loop = network.survey.loop_closed_by(link.tag)
        if loop is None or loop.service != service:
            continue
        if any(grid_hz[0] <= freq_hz <= grid_hz[-1] for freq_hz in loop.hertz):
            yield ModelWarning("second way", link.tag, "", link.path, 0.0), loop


def is_fed_back(network: Network, loop: Loop) -> bool:
    """Whether a loop leads through a part that has power of its own: what it does is settled by no sum and no waves."""
    ends = [end.device for tag in loop.around for end in network.cables[tag].ends]
    return any(node is not None and node.entry is not None and not node.entry.is_passive for node in ends)


def measured_return_loss_db(device: DeviceNode) -> float | None:
    """The poorest return loss [dB] that was measured at a device; None where none was."""
    readings = device.device.readings or ()
    values = [one.return_loss.loss_db for one in readings if one.return_loss is not None]
    return min(values, default=None)


def open_ports(network: Network, device: DeviceNode) -> tuple[Port, ...]:
    """The ports of a device that have nothing behind them and pass a wave on: also an outlet that waits for its set.

    At the socket of any other outlet a set is taken for connected.
    """
    is_waiting = device.device.state == "reserve"
    if len(device.ports) == 1:
        return device.ports if is_waiting else ()
    if device.entry is None or not device.entry.paths:
        return ()
    served = None if is_waiting or device.device.kind != "outlet" else receiving_port(device)
    return tuple(port for port in network.free_ports(device.tag) if port != served)
