"""Does what is wanted at an outlet come there?"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from coaxwright.checks.contract import Check, CheckContext, DoesNotApply, NotMet, Verdict
from coaxwright.checks.limits import Limits
from coaxwright.checks.phrasing import listed
from coaxwright.checks.selectors import DEVICE
from coaxwright.network import DeviceNode, Network
from coaxwright.network.other_splitters import larger_splitter


def outlet_fed(node: DeviceNode, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """Every outlet that is not kept in reserve is reached by the services it serves.

    What a wrong tag, a port, a direction or a band keeps away is another rule's. One missing cable is one finding: at
    the first of the outlets that wait behind it.
    """
    network = context.network
    if not network.services:
        yield DoesNotApply("no service is stated")
        return
    if node.device.serves is None and node.device.kind != "outlet":
        yield DoesNotApply("no service is wanted here by name")
        return
    missed = _missed(node, network)
    if missed is None:
        return
    if _is_told_elsewhere(node, missed, network):
        yield DoesNotApply("what keeps it away is told by other rules")
        return
    first = next(_waiting(node, network))
    if first is not node:
        yield DoesNotApply(f"it waits with {first.tag} for one cable")
    else:
        yield _not_met(list(_waiting(node, network)), network)


def _missed(node: DeviceNode, network: Network) -> tuple[str, ...] | None:
    """The services that do not reach it; None where nothing is missed.

    One that names no services misses all of them where no cable comes to it, and is else content with what comes.
    """
    if node.device.state == "reserve":
        return None
    if node.device.serves is None:
        return None if any(link.in_use for link in network.cables_at(node.tag)) else tuple(network.services)
    known = [tag for tag in dict.fromkeys(node.device.serves) if tag in network.services]
    missed = tuple(tag for tag in known if not network.survey.comes_to(tag, node))
    if not missed or (node.device.kind != "outlet" and _is_plugged_in(node, missed, network)):
        return None
    return missed


def _is_plugged_in(node: DeviceNode, services: tuple[str, ...], network: Network) -> bool:
    """Whether a set without a cable stands beside an outlet that gives it what it wants: the lead is not drawn."""
    if network.cables_at(node.tag) or node.place is None:
        return False
    beside = [one for one in network.devices.values() if one.device.kind == "outlet" and one.place is node.place]
    return any(one.in_use and all(network.survey.comes_to(service, one) for service in services) for one in beside)


def _is_told_elsewhere(node: DeviceNode, missed: tuple[str, ...], network: Network) -> bool:
    """Whether a reference, a port, a direction or a band is the root of it."""
    survey = network.survey
    joined = survey.joined_with(node.tag)
    if joined.has_fault:
        return True
    if joined.devices == {node.tag}:  # a cable whose end names nothing may be the one that should come here
        return any(loose.nearest in (None, node.tag) for loose in survey.loose_ends())
    return any(network.services[service].service.from_ in joined.devices for service in missed)


def _waiting(node: DeviceNode, network: Network) -> Iterator[DeviceNode]:
    """The outlets that hang together with one and wait for the same cable, in tag order."""
    for tag in network.survey.joined_with(node.tag).in_order:
        one = network.devices[tag]
        if one.in_use and (one.device.serves is not None or one.device.kind == "outlet"):
            missed = _missed(one, network)
            if missed is not None and not _is_told_elsewhere(one, missed, network):
                yield one


def _not_met(waiting: list[DeviceNode], network: Network) -> NotMet:
    node = waiting[0]
    services = sorted({tag for one in waiting if one.device.serves is not None for tag in _missed(one, network) or ()})
    head = _head(node, network)
    values = {
        "outlets": listed([one.tag for one in waiting]),
        "missing": _does_not_reach(services),
        "head": head.tag,
        "why": f"nothing feeds {head.tag}" if head is not node else "no cable leads to it",
    }
    brought = [tag for tag in network.survey.coming_to(node) if tag not in services]
    if brought and len(waiting) == 1:
        return NotMet("other cable", node.path, {**values, "brought": listed(brought)}, at_key=True)
    there = network.survey.openings(tuple(services))
    if there.free:
        near, port = min(there.free, key=lambda one: _distance(node, one[0]))
        values["free"] = f"{near.tag}.{port.name}" if len(near.ports) > 1 else near.tag
        values["place"] = f" ({near.place.tag})" if near.place is not None else ""
        return NotMet("free port", node.path, values, at_key=True)
    if there.splitters:
        full = min(there.splitters, key=lambda one: _distance(node, one))
        larger = larger_splitter(full, 1, network)
        if larger is not None:
            return NotMet("larger made", node.path, {**values, "full": full.tag, "larger": larger}, at_key=True)
    return NotMet("none free", node.path, values, at_key=True)


def _does_not_reach(services: Sequence[str]) -> str:
    if not services:
        return "no service reaches"
    return f"{listed(services)} {'does' if len(services) == 1 else 'do'} not reach"


def _head(node: DeviceNode, network: Network) -> DeviceNode:
    """What has to be fed: the first, of what hangs together, that no cable comes to."""
    for tag in network.survey.joined_with(node.tag).in_order:
        one = network.devices[tag]
        links = [link for link in network.cables_at(tag) if link.in_use]
        if links and tag not in network.fittings and not any(link.far.device is one for link in links):
            return one
    return node


def _distance(node: DeviceNode, one: DeviceNode) -> tuple[bool, bool]:
    """How near a device stands: in the same place first, then in the same building."""
    here, there = node.place, one.place
    if here is None or there is None:
        return (True, True)
    return (here is not there, here.building != there.building)


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
