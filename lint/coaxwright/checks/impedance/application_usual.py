"""Where a device is taken for another impedance than its service usually has, its impedance is stated.

Anywhere on the way of the service: a kit of 75 ohm is as sound as one of 50.
"""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.analysis import Joint, joint
from coaxwright.checks.contract import Check, CheckContext, DoesNotApply, NotMet, Verdict
from coaxwright.checks.limits import LimitKind, Limits
from coaxwright.checks.selectors import DEVICE
from coaxwright.design.quantities import Impedance
from coaxwright.design.value_types import IMPEDANCE, TAG, WORD
from coaxwright.network import DeviceNode, ServiceNode
from coaxwright.source import Path


def application_usual(node: DeviceNode, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """What is taken for it is usual for each of its services, or something on the way states an impedance."""
    if len({port.impedance_ohm for port in node.ports}) != 1:
        yield DoesNotApply("not one impedance")
        return
    taken_ohm = node.ports[0].impedance_ohm
    services = [context.network.services[tag] for tag in context.network.survey.begins_or_ends(node.tag)]
    if not services:
        yield DoesNotApply("no service")
        return
    unusual = next(_unusual(services, taken_ohm, limits), None)
    if unusual is None:
        return
    service, usual = unusual
    if _states(node) or any(_states(context.network.devices[tag]) for tag in _way(service, context)):
        yield DoesNotApply("stated")
        return
    values = {
        "device": node.tag,
        "kind": node.device.kind,
        "service": service.tag,
        "service_kind": service.service.kind,
        "taken": taken_ohm,
        "usual": usual.impedance_ohm,
    }
    cites = (("usual", service.service.kind),)
    yield NotMet("unusual", node.path, values, at_key=True, cites=cites, involved=tuple(_unlike(node, context)))


def _unusual(services: list[ServiceNode], taken_ohm: float, limits: Limits) -> Iterator[tuple[ServiceNode, Impedance]]:
    """The services that usually have another impedance, each with it."""
    for service in services:
        usual = limits.row(Impedance, "usual", service.service.kind)
        if usual is not None and usual.impedance_ohm != taken_ohm:
            yield service, usual


def _unlike(node: DeviceNode, context: CheckContext) -> Iterator[Path]:
    """The cables at the device that have another impedance."""
    for link in context.network.cables_at(node.tag):
        joints = [joint(link, end) for end in link.ends if link.in_use and end.device is node]
        if any(isinstance(here, Joint) and here.reflection != 0 for here in joints):
            yield link.path


def _way(service: ServiceNode, context: CheckContext) -> list[str]:
    """The devices that a service reaches."""
    return list(dict.fromkeys(arrival.device.tag for arrival in context.network.signal(service.tag, "down").arrivals))


def _states(node: DeviceNode) -> bool:
    """Whether its impedance is stated: as such, of a port, or by a sort or model that has its own."""
    device = node.device
    of_port = any(said.impedance is not None for said in (device.ports or {}).values())
    return device.impedance is not None or of_port or device.variant is not None or device.model is not None


CHECK = Check(
    name="impedance.application-usual",
    each=DEVICE,
    judge=application_usual,
    cases={
        "unusual": {
            "device": TAG,
            "kind": WORD,
            "service": TAG,
            "service_kind": WORD,
            "taken": IMPEDANCE,
            "usual": IMPEDANCE,
        }
    },
    does_not_apply={"not one impedance": {}, "no service": {}, "stated": {}},
    limits={"usual": LimitKind(Impedance, by=("service",))},
)
