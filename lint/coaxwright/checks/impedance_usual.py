"""Is an impedance that is not the usual one for a service stated?"""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.analysis import Joint, joint
from coaxwright.checks.contract import Check, CheckContext, DoesNotApply, NotMet, Verdict
from coaxwright.checks.limits import LimitKind, Limits
from coaxwright.checks.phrasing import ohms
from coaxwright.checks.selectors import DEVICE
from coaxwright.design.quantities import Impedance
from coaxwright.network import DeviceNode, ServiceNode


def application_usual(node: DeviceNode, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """Where a device states no impedance and is taken for another than its service usually has, it should state it.

    Silent where anything on the way of the service states one: a kit of 75 ohm is as sound as one of 50.
    """
    if len({port.impedance_ohm for port in node.ports}) != 1:
        yield DoesNotApply("it has no impedance, or several")
        return
    taken_ohm = node.ports[0].impedance_ohm
    services = [context.network.services[tag] for tag in context.network.survey.begins_or_ends(node.tag)]
    service = next((one for one in services if _usual_ohm(one, limits) not in (None, taken_ohm)), None)
    if service is None:
        if not services:
            yield DoesNotApply("no service is said to begin or end here")
        return
    usual = limits.quantity(Impedance, "usual", service.service.kind)
    assert usual is not None  # the service was picked by it
    if _states(node) or any(_states(context.network.devices[tag]) for tag in _way(service, context)):
        yield DoesNotApply("an impedance is stated")
        return
    links = [link for link in context.network.cables_at(node.tag) if link.in_use]
    joints = [joint(link, end) for link in links for end in link.ends if end.device is node]
    if any(isinstance(here, Joint) and here.reflection != 0 for here in joints):
        yield DoesNotApply("it meets a cable of another impedance, which is told there")
        return
    values = {
        "device": node.tag,
        "kind": node.device.kind,
        "service": service.tag,
        "service_kind": service.service.kind,
        "taken": ohms(taken_ohm),
        "usual": ohms(usual.impedance_ohm),
    }
    yield NotMet("unusual", node.path, values, at_key=True, cites=(("usual", service.service.kind),))


def _usual_ohm(service: ServiceNode, limits: Limits) -> float | None:
    usual = limits.quantity(Impedance, "usual", service.service.kind)
    return None if usual is None else usual.impedance_ohm


def _way(service: ServiceNode, context: CheckContext) -> list[str]:
    """The devices that a service reaches."""
    return list(dict.fromkeys(arrival.device.tag for arrival in context.network.signal(service.tag, "down").arrivals))


def _states(node: DeviceNode) -> bool:
    """Whether its impedance is stated: as such, of a port, or by a sort or model that has its own."""
    device = node.device
    of_port = any(said.impedance is not None for said in (device.ports or {}).values())
    return device.impedance is not None or of_port or device.variant is not None or device.model is not None


CHECKS = (
    Check(
        name="application-usual",
        each=DEVICE,
        judge=application_usual,
        cases={"unusual": ("device", "kind", "service", "service_kind", "taken", "usual")},
        reads=(
            "services.*.kind",
            "services.*.from",
            "devices.*.serves",
            "devices.*.impedance",
            "devices.*.ports",
            "devices.*.variant",
            "cables.*.type",
        ),
        limits={"usual": LimitKind(Impedance, by=("service",))},
    ),
)
