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
from coaxwright.network.feeding import Stop, Waiting
from coaxwright.network.other_splitters import larger_splitter


def outlet_fed(node: DeviceNode, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """What it serves comes to it: a cable leads there, and lets it pass."""
    network = context.network
    if not network.services:
        yield DoesNotApply("no service")
        return
    if node.device.serves is None and not is_outlet(node):
        yield DoesNotApply("wants none by name")
        return
    for stop in network.survey.feeding.stops(node.tag):
        yield _stopped(node, stop, network)
    waiting = network.survey.feeding.waiting(node.tag)
    if waiting is not None:
        yield _not_met(node, waiting, network)


def _stopped(node: DeviceNode, stop: Stop, network: Network) -> NotMet:
    """A cable leads to it, and what it serves does not pass on the way."""
    reached = stop.reached.tag
    stopped = network.survey.feeding.stopped_at(reached)
    values = {
        "outlets": stopped.outlets,
        "services": stopped.services,
        "reached": reached,
        "kind": stop.reached.device.kind,
    }
    group = ("stopped at", reached) if len(stopped.outlets) > 1 else ()
    verdict = NotMet("stopped", node.path, values, at_key=True, facet=stop.services[0], group=group)
    return replace(verdict, involved=stop.way, root=(*node.path, "serves"))


def _not_met(node: DeviceNode, waiting: Waiting, network: Network) -> NotMet:
    """No cable leads from what it serves; the outlets that wait for one cable are one finding."""
    case, values = _missing_cable(waiting, network)
    group = ("fed over", waiting.head.tag) if len(waiting.outlets) > 1 else ()
    verdict = NotMet(case, node.path, values, at_key=True, group=group)
    return replace(verdict, involved=waiting.faults, root=(*node.path, "serves"))


def _missing_cable(waiting: Waiting, network: Network) -> tuple[str, dict[str, object]]:
    first, head, services = waiting.outlets[0], waiting.head, waiting.services
    values: dict[str, object] = {
        "outlets": tuple(outlet.tag for outlet in waiting.outlets),
        "missing": Phrase("services", {"services": services}) if services else Phrase("any"),
        "head": head.tag,
        "why": Phrase("nothing feeds", {"head": head.tag}) if head is not first else Phrase("no cable"),
    }
    brought = [tag for tag in network.survey.coming_to(first) if tag not in services]
    if brought and len(waiting.outlets) == 1:
        return "other cable", {**values, "brought": brought}
    there = network.survey.openings(services)
    if there.free:
        near, port = min(there.free, key=lambda opening: _distance(first, opening[0]))
        values["free"] = near.port_tag(port) if len(near.ports) > 1 else near.tag
        values["place"] = Phrase("at", {"tag": near.place.tag}) if near.place is not None else None
        return "free port", values
    full = min(there.splitters, key=lambda splitter: _distance(first, splitter), default=None)
    larger = larger_splitter(full, 1, network) if full is not None else None
    if full is not None and larger is not None:
        return "larger made", {**values, "full": full.tag, "larger": larger}
    return "none free", values


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
