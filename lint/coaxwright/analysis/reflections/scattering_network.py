"""The network of a service for the solver: every part that its waves can reach, and how they are joined."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from math import inf

from coaxwright.analysis.reflections.model_warnings import measured_return_loss_db, open_ports
from coaxwright.analysis.reflections.parts import NotSolved, cable_matrices, device_matrices, end_matrices
from coaxwright.catalogue import Port as DevicePort
from coaxwright.frozen_value import frozen_value
from coaxwright.network import CableLink, DeviceNode, Network, Unknown
from coaxwright.physics.matrices import Matrix
from coaxwright.physics.scatterers import termination
from coaxwright.physics.scattering import Port, ScatteringNetwork

MOST_PARTS = 400
"""Cables and devices; what is larger is not solved, for it would take seconds."""
Start = tuple[DeviceNode, DevicePort]


@frozen_value
class Reached:
    """What waves from a port can reach, in the order of its discovery."""

    devices: tuple[DeviceNode, ...]
    cables: tuple[CableLink, ...]


def reached(network: Network, start: Start) -> Reached:
    """Every device and cable that hangs together with a port, also through devices that pass its signal poorly.

    Raises NotSolved where it is too much, or two cables are on one port.
    """
    devices = {start[0].tag: start[0]}
    cables: dict[str, CableLink] = {}
    waiting = [start]
    while waiting:
        node, port = waiting.pop()
        beyond = network.graph.beyond(node.tag, port.name)
        if len(beyond) > 1:
            raise NotSolved(Unknown("several cables", node.path, {"device": node.tag, "port": port.name}))
        for far, far_port, cable in beyond:
            if cable is not None:
                if cable.tag in cables:
                    continue
                cables[cable.tag] = cable
            if far.tag not in devices:
                devices[far.tag] = far
                waiting += ((far, other) for other in far.ports if other is not far_port)
        if len(devices) + len(cables) > MOST_PARTS:
            raise NotSolved(Unknown("too many parts", start[0].path, {"most": MOST_PARTS}))
    return Reached(tuple(devices.values()), tuple(cables.values()))


def together(parts: Iterable[Reached]) -> Reached:
    """What several starts reach, each thing once."""
    devices: dict[str, DeviceNode] = {}
    cables: dict[str, CableLink] = {}
    for part in parts:
        devices |= {node.tag: node for node in part.devices}
        cables |= {link.tag: link for link in part.cables}
    return Reached(tuple(devices.values()), tuple(cables.values()))


def scattering(network: Network, start: Start, ends: Sequence[Start], freqs_hz: Sequence[float]) -> ScatteringNetwork:
    """The parts between the port where a service begins, which is outer port 0, and its ends, the others in order.

    Free ports and outlets in reserve are open, all other ends have their own impedance. Raises NotSolved.
    """
    return _Build(network, start, ends, freqs_hz).scattering()


class _Build:
    def __init__(self, network: Network, start: Start, ends: Sequence[Start], freqs_hz: Sequence[float]) -> None:
        self.network = network
        self.start = start
        self.ends = ends
        self.freqs_hz = freqs_hz
        self.parts: dict[str, list[Matrix]] = {}
        self.joints: list[tuple[Port, Port]] = []
        self.outer: list[Port] = []

    def scattering(self) -> ScatteringNetwork:
        found = reached(self.network, self.start)
        source = self.start[0]
        numbers = {node.tag: {port.name: n for n, port in enumerate(node.ports)} for node in found.devices}
        for node in found.devices:
            if node is not source and len(node.ports) > 1:
                self.parts[f"device {node.tag}"] = device_matrices(node, self.freqs_hz)
        for cable in found.cables:
            self.parts[f"cable {cable.tag}"] = cable_matrices(cable, self.freqs_hz)
        faces: dict[tuple[str, str], Port] = {}
        for cable in found.cables:
            for side, end in enumerate(cable.ends):
                assert end.device is not None
                assert end.port is not None
                faces[end.device.tag, end.port.name] = Port(f"cable {cable.tag}", side)
        wanted = {(node.tag, port.name) for node, port in self.ends}
        self.end(self.start, faces)
        for one in self.ends:
            self.end(one, faces if len(one[0].ports) == 1 else {}, numbers)
        for node in found.devices:
            if node is source:
                continue
            for port in node.ports:
                key = (node.tag, port.name)
                here = Port(f"device {node.tag}", numbers[node.tag][port.name])
                if len(node.ports) == 1:
                    if key not in wanted and key in faces:
                        self.close(
                            faces[key], inf if open_ports(self.network, node) else port.impedance_ohm, f"end {node.tag}"
                        )
                elif key in faces:
                    self.joints.append((here, faces[key]))
                elif key not in wanted:
                    self.fit(node, port, here)
        return ScatteringNetwork(self.parts, self.joints, self.outer)

    def end(
        self, one: Start, faces: dict[tuple[str, str], Port], numbers: dict[str, dict[str, int]] | None = None
    ) -> None:
        """A source or load: the joint of its impedance with the network, whose other side is outer."""
        node, port = one
        name = f"at {node.tag}.{port.name}"
        measured_db = measured_return_loss_db(node)
        reflection = 0.0 if measured_db is None else float(10 ** (-measured_db / 20))
        self.parts[name] = end_matrices(self.freqs_hz, port.impedance_ohm, reflection)
        facing = faces.get((node.tag, port.name))
        if facing is None and numbers is not None and len(node.ports) > 1:
            facing = Port(f"device {node.tag}", numbers[node.tag][port.name])
        if facing is None:
            raise NotSolved(Unknown("nothing joined", node.path, {"device": node.tag, "port": port.name}))
        self.joints.append((Port(name, 0), facing))
        self.outer.append(Port(name, 1))

    def close(self, facing: Port, impedance_ohm: float, name: str) -> None:
        self.parts[name] = termination(self.freqs_hz, impedance_ohm)
        self.joints.append((Port(name, 0), facing))

    def fit(self, node: DeviceNode, port: DevicePort, here: Port) -> None:
        """A port without a cable: open, or with what is screwed onto it."""
        beyond = self.network.graph.beyond(node.tag, port.name)
        if not beyond:
            is_open = port in open_ports(self.network, node)
            self.close(here, inf if is_open else port.impedance_ohm, f"behind {node.tag}.{port.name}")
            return
        ((part, part_port, _),) = beyond
        if len(part.ports) == 1:
            self.close(here, part_port.impedance_ohm, f"end {part.tag}")
        else:
            name = f"device {part.tag}"
            number = next(n for n, one in enumerate(part.ports) if one.name == part_port.name)
            joint = tuple(sorted((here, Port(name, number))))
            if (joint[0], joint[1]) not in self.joints:
                self.joints.append((joint[0], joint[1]))
