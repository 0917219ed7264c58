"""Every outlet that is not kept in reserve is reached by the services it serves.

One missing cable is one finding: at the first of the outlets that wait behind it.
"""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.checks.contract import Check, CheckContext, DoesNotApply, NotMet, Verdict
from coaxwright.checks.limits import Limits
from coaxwright.checks.plan._shared import is_outlet
from coaxwright.checks.selectors import DEVICE
from coaxwright.design.value_types import TAG, TAGS, WORD, Phrase, optional, phrase
from coaxwright.network import DeviceNode, Network
from coaxwright.network.other_splitters import larger_splitter


def outlet_fed(node: DeviceNode, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """What it serves comes to it, or a wrong tag, port, direction or band is known to keep it away."""
    network = context.network
    if not network.services:
        yield DoesNotApply("no service")
        return
    if node.device.serves is None and not is_outlet(node):
        yield DoesNotApply("wants none by name")
        return
    missed = _missed(node, network)
    if missed is None:
        return
    if _is_told_elsewhere(node, missed, network):
        yield DoesNotApply("kept away")
        return
    first = next(_waiting(node, network))
    if first is not node:
        yield DoesNotApply("waits with another", {"first": first.tag})
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
    if not missed or (not is_outlet(node) and _is_plugged_in(node, missed, network)):
        return None
    return missed


def _is_plugged_in(node: DeviceNode, services: tuple[str, ...], network: Network) -> bool:
    """Whether a set without a cable stands beside an outlet that gives it what it wants: the lead is not drawn."""
    if network.cables_at(node.tag) or node.place is None:
        return False
    beside = [other for other in network.devices.values() if is_outlet(other) and other.place is node.place]
    return any(
        outlet.in_use and all(network.survey.comes_to(service, outlet) for service in services) for outlet in beside
    )


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
        other = network.devices[tag]
        if other.in_use and (other.device.serves is not None or is_outlet(other)):
            missed = _missed(other, network)
            if missed is not None and not _is_told_elsewhere(other, missed, network):
                yield other


def _not_met(waiting: list[DeviceNode], network: Network) -> NotMet:
    node = waiting[0]
    named = [outlet for outlet in waiting if outlet.device.serves is not None]
    services = sorted({tag for outlet in named for tag in _missed(outlet, network) or ()})
    head = _head(node, network)
    values = {
        "outlets": [outlet.tag for outlet in waiting],
        "missing": Phrase("services", {"services": services}) if services else Phrase("any"),
        "head": head.tag,
        "why": Phrase("nothing feeds", {"head": head.tag}) if head is not node else Phrase("no cable"),
    }
    brought = [tag for tag in network.survey.coming_to(node) if tag not in services]
    if brought and len(waiting) == 1:
        return NotMet("other cable", node.path, {**values, "brought": brought}, at_key=True)
    there = network.survey.openings(tuple(services))
    if there.free:
        near, port = min(there.free, key=lambda opening: _distance(node, opening[0]))
        values["free"] = near.port_tag(port) if len(near.ports) > 1 else near.tag
        values["place"] = Phrase("at", {"tag": near.place.tag}) if near.place is not None else None
        return NotMet("free port", node.path, values, at_key=True)
    full = min(there.splitters, key=lambda splitter: _distance(node, splitter), default=None)
    larger = larger_splitter(full, 1, network) if full is not None else None
    if full is not None and larger is not None:
        return NotMet("larger made", node.path, {**values, "full": full.tag, "larger": larger}, at_key=True)
    return NotMet("none free", node.path, values, at_key=True)


def _head(node: DeviceNode, network: Network) -> DeviceNode:
    """What has to be fed: the first, of what hangs together, that no cable comes to."""
    for tag in network.survey.joined_with(node.tag).in_order:
        other = network.devices[tag]
        links = [link for link in network.cables_at(tag) if link.in_use]
        if links and tag not in network.fittings and not any(link.far.device is other for link in links):
            return other
    return node


def _distance(node: DeviceNode, other: DeviceNode) -> tuple[bool, bool]:
    """How near a device stands: in the same place first, then in the same building."""
    here, there = node.place, other.place
    if here is None or there is None:
        return (True, True)
    return (here is not there, here.building != there.building)


_WHAT = {
    "outlets": TAGS,
    "missing": phrase(services={"services": TAGS}, any={}),
    "head": TAG,
    "why": phrase(nothing_feeds={"head": TAG}, no_cable={}),
}

CHECK = Check(
    name="plan.outlet-fed",
    each=DEVICE,
    judge=outlet_fed,
    cases={
        "free port": {**_WHAT, "free": TAG, "place": optional(phrase(at={"tag": TAG}))},
        "larger made": {**_WHAT, "full": TAG, "larger": WORD},
        "none free": _WHAT,
        "other cable": {**_WHAT, "brought": TAGS},
    },
    does_not_apply={
        "no service": {},
        "wants none by name": {},
        "kept away": {},
        "waits with another": {"first": TAG},
    },
)
