"""Where a service is wanted: the outlets and receivers that name it, or, where none does, those it suits."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping

from coaxwright.catalogue import Port
from coaxwright.design.words import DeviceKind, ServiceKind
from coaxwright.network.nodes import DeviceNode, ServiceNode

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


class ServiceDemand:
    """Where services are wanted.

    A device that names services wants those. One that names none wants what reaches it, if that is of its kind.
    """

    def __init__(self, devices: Iterable[DeviceNode]) -> None:
        self._naming: dict[str, list[tuple[int, DeviceNode]]] = defaultdict(list)
        self._naming_none: dict[str, tuple[int, DeviceNode]] = {}
        for number, device in enumerate(devices):
            if not device.in_use or device.device.state == "reserve":
                continue
            if device.device.serves is not None:
                for service in dict.fromkeys(device.device.serves):
                    self._naming[service].append((number, device))
            elif device.device.kind in SINKS:
                self._naming_none[device.tag] = (number, device)
        self._outlets: dict[str, tuple[DeviceNode, ...]] = {}

    def outlets_of(self, node: ServiceNode) -> tuple[DeviceNode, ...]:
        """The devices in use at which a service is wanted, in their order."""
        if node.tag not in self._outlets:
            self._outlets[node.tag] = self._found(node)
        return self._outlets[node.tag]

    def answering(self, node: ServiceNode) -> tuple[DeviceNode, ...]:
        """The devices, of those at which a service is wanted, that send an answer: its modems.

        Where a design draws no modem of the service, one may be plugged in at any outlet.
        """
        if node.service.kind != ANSWERED:
            return ()
        devices = self.outlets_of(node)
        modems = tuple(device for device in devices if device.device.kind == "cable modem")
        return modems or tuple(device for device in devices if device.device.kind == "outlet")

    def _found(self, node: ServiceNode) -> tuple[DeviceNode, ...]:
        found = list(self._naming.get(node.tag, ()))
        for tag in node.devices & self._naming_none.keys():
            number, device = self._naming_none[tag]
            suits = SINKS[device.device.kind]
            if suits is None or node.service.kind in suits:
                found.append((number, device))
        return tuple(device for _, device in sorted(found, key=lambda one: one[0]))


def receiving_port(node: DeviceNode) -> Port | None:
    """The port at which a set is served: the socket of an outlet that passes the signal on, else its one input."""
    by_name = {port.name: port for port in node.ports}
    return by_name.get("socket") or by_name.get("in") or (node.ports[0] if node.ports else None)
