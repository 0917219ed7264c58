"""Does what is wanted at an outlet come there?"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from coaxwright.catalogue import Direction, Port
from coaxwright.checks.contract import Check, DoesNotApply, NotMet, Site, Verdict
from coaxwright.checks.limits import Limits
from coaxwright.checks.other_splitters import larger_splitter
from coaxwright.checks.phrasing import listed
from coaxwright.checks.selectors import DEVICE
from coaxwright.plant import SINKS, DeviceNode, Plant, tag_order

_THROUGH = frozenset(("tap", "directional coupler"))
"""Kinds whose way through is the trunk's: an outlet hangs on their taps."""


def outlet_fed(node: DeviceNode, site: Site, limits: Limits) -> Iterator[Verdict]:
    """Every outlet that is not kept in reserve is reached by the services it serves.

    What a wrong tag, a port, a direction or a band keeps away is another rule's. One missing cable is one finding: at
    the first of the outlets that wait behind it.
    """
    plant = site.plant
    if not plant.services:
        yield DoesNotApply("no service is stated")
        return
    if node.device.serves is None and node.device.kind != "outlet":
        yield DoesNotApply("no service is wanted here by name")
        return
    missed = _missed(node, plant)
    if missed is None:
        return
    if _is_told_elsewhere(node, missed, plant):
        yield DoesNotApply("what keeps it away is told by other rules")
        return
    first = next(_waiting(node, plant))
    if first is not node:
        yield DoesNotApply(f"it waits with {first.tag} for one cable")
    else:
        yield _not_met(list(_waiting(node, plant)), plant)


def _missed(node: DeviceNode, plant: Plant) -> tuple[str, ...] | None:
    """The services that do not reach it; None where nothing is missed.

    One that names no services misses all of them where no cable comes to it, and is else content with what comes.
    """
    if node.device.state == "reserve":
        return None
    if node.device.serves is None:
        return None if any(link.in_use for link in plant.cables_at(node.tag)) else tuple(plant.services)
    known = [tag for tag in dict.fromkeys(node.device.serves) if tag in plant.services]
    missed = tuple(tag for tag in known if not _reaches(tag, node, plant))
    if not missed or (node.device.kind != "outlet" and _is_plugged_in(node, missed, plant)):
        return None
    return missed


def _reaches(service: str, node: DeviceNode, plant: Plant) -> bool:
    """Whether a service comes to a device; by the cables alone where it states no frequencies."""
    stated = plant.services[service]
    if stated.service.from_ not in plant.devices or node.tag == stated.service.from_:
        return True  # where it begins is another rule's finding
    return plant.signal(service, "down").reaches(node.tag) if stated.grid_hz("down") else node.tag in stated.devices


def _is_plugged_in(node: DeviceNode, services: tuple[str, ...], plant: Plant) -> bool:
    """Whether a set without a cable stands beside an outlet that gives it what it wants: the lead is not drawn."""
    if plant.cables_at(node.tag) or node.place is None:
        return False
    beside = [one for one in plant.devices.values() if one.device.kind == "outlet" and one.place is node.place]
    return any(one.in_use and all(_reaches(service, one, plant) for service in services) for one in beside)


def _is_told_elsewhere(node: DeviceNode, missed: tuple[str, ...], plant: Plant) -> bool:
    """Whether a reference, a port, a direction or a band is the root of it."""
    survey = plant.survey
    joined = survey.joined_with(node.tag)
    if joined.has_fault:
        return True
    if joined.devices == {node.tag}:  # a cable whose end names nothing may be the one that should come here
        return any(loose.nearest in (None, node.tag) for loose in survey.loose_ends())
    return any(plant.services[service].service.from_ in joined.devices for service in missed)


def _waiting(node: DeviceNode, plant: Plant) -> Iterator[DeviceNode]:
    """The outlets that hang together with one and wait for the same cable, in tag order."""
    for tag in plant.survey.joined_with(node.tag).in_order:
        one = plant.devices[tag]
        if one.in_use and (one.device.serves is not None or one.device.kind == "outlet"):
            missed = _missed(one, plant)
            if missed is not None and not _is_told_elsewhere(one, missed, plant):
                yield one


def _not_met(waiting: list[DeviceNode], plant: Plant) -> NotMet:
    node = waiting[0]
    services = sorted({tag for one in waiting if one.device.serves is not None for tag in _missed(one, plant) or ()})
    head = _head(node, plant)
    values = {
        "outlets": listed([one.tag for one in waiting]),
        "missing": _does_not_reach(services),
        "head": head.tag,
        "why": f"nothing feeds {head.tag}" if head is not node else "no cable leads to it",
    }
    brought = [tag for tag in plant.services if tag not in services and _reaches(tag, node, plant)]
    if brought and len(waiting) == 1:
        return NotMet("other cable", node.path, {**values, "brought": listed(brought)}, at_key=True)
    near, port = _nearest(node, services, plant)
    if near is not None and port is not None:
        values["free"] = f"{near.tag}.{port.name}" if len(near.ports) > 1 else near.tag
        values["place"] = f" ({near.place.tag})" if near.place is not None else ""
        return NotMet("free port", node.path, values, at_key=True)
    full = _full(node, services, plant)
    if full is not None:
        values["full"] = full.tag
        larger = larger_splitter(full, 1, plant)
        if larger is not None:
            values["larger"] = larger
            return NotMet("larger made", node.path, values, at_key=True)
    return NotMet("none free", node.path, values, at_key=True)


def _does_not_reach(services: Sequence[str]) -> str:
    if not services:
        return "no service reaches"
    return f"{listed(services)} {'does' if len(services) == 1 else 'do'} not reach"


def _head(node: DeviceNode, plant: Plant) -> DeviceNode:
    """What has to be fed: the first, of what hangs together, that no cable comes to."""
    joined = plant.survey.joined_with(node.tag).in_order
    fed = {link.far.device.tag for link in plant.cables.values() if link.in_use and link.far.device is not None}
    hosts = [tag for tag in joined if tag not in fed and tag not in plant.fittings and plant.cables_at(tag)]
    return plant.devices[hosts[0]] if hosts else node


def _nearest(node: DeviceNode, services: Sequence[str], plant: Plant) -> tuple[DeviceNode | None, Port | None]:
    """The device with a free output that carries what is missed: of the same place, else of the same building."""
    found = [
        (*_distance(node, one), one, port)
        for one in plant.devices.values()
        if one.in_use and one.device.state != "reserve"
        for port in _free_outputs(one, services, plant)[:1]
    ]
    if not found:
        return None, None
    *_, near, port = min(found, key=lambda one: one[:-2])
    return near, port


def _distance(node: DeviceNode, one: DeviceNode) -> tuple[bool, bool, tuple[tuple[int, int, str], ...]]:
    here, there = node.place, one.place
    is_known = here is not None and there is not None
    return (
        not (is_known and here is there),
        not (here is not None and there is not None and here.building == there.building),
        tag_order(one.tag),
    )


def _free_outputs(one: DeviceNode, services: Sequence[str], plant: Plant) -> list[Port]:
    if one.device.kind in SINKS and one.device.variant is None:
        return []
    free = [port for port in plant.free_ports(one.tag) if port.direction is not Direction.IN and port.name != "socket"]
    carrying = [port for port in free if _carries(one, port, services, plant)]
    taps = [port for port in carrying if port.group == "tap"]
    return taps if one.device.kind in _THROUGH else carrying


def _carries(one: DeviceNode, port: Port, services: Sequence[str], plant: Plant) -> bool:
    """Whether a port has every service that is missed; any of the design where none is named."""
    comes = [_comes_to(service, one, port, plant) for service in services or plant.services]
    return all(comes) if services else any(comes)


def _comes_to(service: str, one: DeviceNode, port: Port, plant: Plant) -> bool:
    stated = plant.services[service]
    if not stated.grid_hz("down"):
        return one.tag in stated.devices
    return any(arrival.port.name == port.name for arrival in plant.signal(service, "down").ports_of(one.tag))


def _full(node: DeviceNode, services: Sequence[str], plant: Plant) -> DeviceNode | None:
    """The nearest splitter that carries what is missed."""
    found = [
        one
        for one in plant.devices.values()
        if one.in_use and one.device.kind == "splitter" and _has_all(one, services, plant)
    ]
    return min(found, key=lambda one: _distance(node, one)) if found else None


def _has_all(one: DeviceNode, services: Sequence[str], plant: Plant) -> bool:
    reached = [_reaches(service, one, plant) for service in services or plant.services]
    return all(reached) if services else any(reached)


_WHAT = ("outlets", "missing", "head", "why")

CHECKS = (
    Check(
        name="outlet-fed",
        each=DEVICE,
        judge=outlet_fed,
        cases={
            "free port": (*_WHAT, "free", "place"),
            "larger made": (*_WHAT, "full", "larger"),
            "none free": _WHAT,
            "other cable": ("outlets", "missing", "brought"),
        },
        reads=(
            "services.*.from",
            "services.*.kind",
            "services.*.down",
            "services.*.channels",
            "devices.*.kind",
            "devices.*.serves",
            "devices.*.state",
            "devices.*.place",
            "devices.*.ways",
            "cables.*.from",
            "cables.*.to",
            "cables.*.state",
            "places.*.building",
        ),
    ),
)
