"""Where a service is wanted: the outlets and receivers that name it, or, where none does, those it suits."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from coaxwright.catalogue import Port
from coaxwright.design.words import DeviceKind, ServiceKind
from coaxwright.plant.parts import DeviceNode, ServiceNode

SINKS: Mapping[DeviceKind, frozenset[ServiceKind] | None] = {
    "outlet": None,
    "cable modem": frozenset(("cable broadband",)),
    "receiver": frozenset(("cable broadband", "terrestrial TV", "FM radio")),
    "satellite receiver": frozenset(("satellite IF",)),
    "in-home data adapter": frozenset(("in-home data",)),
    "video recorder": frozenset(("camera video",)),
}
"""Kinds at which a service ends, each with the services that it can be for; an outlet can be for any."""
ANSWERED: ServiceKind = "cable broadband"
"""The service that is answered by modems."""


def wanting(node: ServiceNode, devices: Iterable[DeviceNode]) -> Iterator[DeviceNode]:
    """The devices in use at which a service is wanted, in their order.

    A device that names services wants those. One that names none wants what reaches it, if that is of its kind.
    """
    for device in devices:
        if not device.in_use or device.device.state == "reserve":
            continue
        named = device.device.serves
        if named is not None:
            if node.tag in named:
                yield device
        elif device.tag in node.devices and device.device.kind in SINKS:
            suits = SINKS[device.device.kind]
            if suits is None or node.service.kind in suits:
                yield device


def answering(node: ServiceNode, wanted_at: Iterable[DeviceNode]) -> tuple[DeviceNode, ...]:
    """The devices, of those at which a service is wanted, that send an answer: its modems.

    Where a design draws no modem of the service, one may be plugged in at any outlet.
    """
    if node.service.kind != ANSWERED:
        return ()
    devices = tuple(wanted_at)
    modems = tuple(device for device in devices if device.device.kind == "cable modem")
    return modems or tuple(device for device in devices if device.device.kind == "outlet")


def receiving_port(node: DeviceNode) -> Port | None:
    """The port at which a set is served: the socket of an outlet that passes the signal on, else its one input."""
    by_name = {port.name: port for port in node.ports}
    return by_name.get("socket") or by_name.get("in") or (node.ports[0] if node.ports else None)
