"""Every outlet that is not kept in reserve is reached by the services it serves.

One missing cable is one finding for the outlets that wait behind it, and so is one device that does not pass on.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from coaxwright.checks.contract import Check, CheckContext, DoesNotApply, NotMet, Verdict
from coaxwright.checks.limits import Limits
from coaxwright.checks.plan._shared import is_outlet
from coaxwright.checks.selectors import DEVICE
from coaxwright.design.value_types import TAG, TAGS, WORD, Phrase, optional, phrase
from coaxwright.network import DeviceNode, Network
from coaxwright.network.feeding import Stop, is_joined_with_source, missed_services
from coaxwright.network.other_splitters import larger_splitter
from coaxwright.source import Path


def outlet_fed(node: DeviceNode, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """What it serves comes to it: a cable leads there, and lets it pass."""
    network = context.network
    if not network.services:
        yield DoesNotApply("no service")
        return
    if node.device.serves is None and not is_outlet(node):
        yield DoesNotApply("wants none by name")
        return
    for stop in network.survey.stops(node.tag):
        yield _stopped(node, stop, network)
    lacking = _lacking(node, network)
    if lacking is not None:
        yield _not_met(node, lacking, network)


def _lacking(node: DeviceNode, network: Network) -> tuple[str, ...] | None:
    """The services that it misses and that begin at nothing it hangs together with; None where there is none."""
    missed = missed_services(node, network)
    lacking = tuple(tag for tag in missed or () if not is_joined_with_source(tag, node, network))
    return lacking or None


def _waiting(node: DeviceNode, network: Network) -> Iterator[DeviceNode]:
    """The outlets that hang together with one and wait for the same cable, in tag order."""
    for tag in network.survey.joined_with(node.tag).in_order:
        other = network.devices[tag]
        if other.in_use and (other.device.serves is not None or is_outlet(other)) and _lacking(other, network):
            yield other


def _stopped(node: DeviceNode, stop: Stop, network: Network) -> NotMet:
    """A cable leads to it, and what it serves does not pass on the way."""
    reached = stop.reached.tag
    outlets = list(network.survey.stopped_at[reached])
    there = [other for tag in outlets for other in network.survey.stops(tag) if other.reached is stop.reached]
    values = {
        "outlets": outlets,
        "services": sorted({service for other in there for service in other.services}),
        "reached": reached,
        "kind": stop.reached.device.kind,
    }
    group = ("stopped at", reached) if len(outlets) > 1 else ()
    root = (*node.path, "serves")
    return NotMet(
        "stopped", node.path, values, at_key=True, facet=stop.services[0], group=group, involved=stop.way, root=root
    )


def _faults(node: DeviceNode, network: Network) -> Iterator[Path]:
    """What is not as it is written, and may be why no cable leads here: loose ends first."""
    joined = network.survey.joined_with(node.tag)
    links = [link for tag in joined.in_order for link in network.cables_at(tag) if link.in_use]
    yield from (link.path for link in links if any(end.device is None for end in link.ends))
    is_alone = joined.devices == {node.tag}
    for loose in network.survey.loose_ends():
        if loose.nearest in joined.devices or (is_alone and loose.nearest is None):
            yield loose.path[:2]
    yield from (network.devices[tag].path for tag in joined.in_order if network.devices[tag].entry is None)
    for link in links:
        if any(end.port is None for end in link.ends):
            yield link.path
            yield from (end.device.path for end in link.ends if end.device is not None)


def _not_met(node: DeviceNode, lacking: tuple[str, ...], network: Network) -> NotMet:
    """No cable leads from what it serves; the outlets that wait for one cable are one finding."""
    waiting = list(_waiting(node, network))
    case, values = _missing_cable(waiting, network)
    group = ("fed over", str(values["head"])) if len(waiting) > 1 else ()
    involved = tuple(dict.fromkeys(_faults(node, network)))
    verdict = NotMet(case, node.path, values, at_key=True, group=group)
    return replace(verdict, involved=involved, root=(*node.path, "serves"))


def _missing_cable(waiting: list[DeviceNode], network: Network) -> tuple[str, dict[str, object]]:
    node = waiting[0]
    named = [outlet for outlet in waiting if outlet.device.serves is not None]
    services = sorted({tag for outlet in named for tag in _lacking(outlet, network) or ()})
    head = _head(node, network)
    values: dict[str, object] = {
        "outlets": [outlet.tag for outlet in waiting],
        "missing": Phrase("services", {"services": services}) if services else Phrase("any"),
        "head": head.tag,
        "why": Phrase("nothing feeds", {"head": head.tag}) if head is not node else Phrase("no cable"),
    }
    brought = [tag for tag in network.survey.coming_to(node) if tag not in services]
    if brought and len(waiting) == 1:
        return "other cable", {**values, "brought": brought}
    there = network.survey.openings(tuple(services))
    if there.free:
        near, port = min(there.free, key=lambda opening: _distance(node, opening[0]))
        values["free"] = near.port_tag(port) if len(near.ports) > 1 else near.tag
        values["place"] = Phrase("at", {"tag": near.place.tag}) if near.place is not None else None
        return "free port", values
    full = min(there.splitters, key=lambda splitter: _distance(node, splitter), default=None)
    larger = larger_splitter(full, 1, network) if full is not None else None
    if full is not None and larger is not None:
        return "larger made", {**values, "full": full.tag, "larger": larger}
    return "none free", values


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
        "stopped": {"outlets": TAGS, "services": TAGS, "reached": TAG, "kind": WORD},
    },
    does_not_apply={"no service": {}, "wants none by name": {}},
)
