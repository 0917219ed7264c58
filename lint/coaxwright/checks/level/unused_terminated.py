"""Every output of what divides a signal carries a cable or a terminator, and so does the end of a loop.

A wall outlet that stands for itself needs none, nor does what nothing is joined to yet.
Source: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.catalogue import Direction
from coaxwright.checks.contract import Check, CheckContext, DoesNotApply, NotMet, Verdict
from coaxwright.checks.limits import Limits
from coaxwright.checks.selectors import DEVICE
from coaxwright.checks.subject_filters import kinds
from coaxwright.design.value_types import COUNT, IMPEDANCE, TAG, TAGS, WORD, Phrase, phrase
from coaxwright.design.value_types import Values as ValueTypes
from coaxwright.network import DeviceNode
from coaxwright.network.devices import kind_of

_DIVIDING = frozenset(("splitter", "tap", "directional coupler"))
_SHARED = ("multifamily dwelling", "commercial")
"""Occupancies in which several households or firms are on one network, and hear each other's noise."""


def unused_terminated(device: DeviceNode, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """Every output of what divides a signal carries a cable or a terminator, and so does the end of a loop."""
    network = context.network
    is_loop = device.device.kind == "outlet" and len(device.ports) > 1
    if device.device.kind not in _DIVIDING and not is_loop:
        yield DoesNotApply("divides nothing")
        return
    if device.device.state == "reserve" or not network.tenants(device.tag):
        yield DoesNotApply("nothing joined")
        return
    if _is_unsettled(device, context):
        yield DoesNotApply("not settled")
        return
    free = [port for port in network.free_ports(device.tag) if port.direction is Direction.OUT]
    if is_loop:  # a set may be plugged into the socket at any time
        free = [port for port in free if port.name != "socket"]
    if not free:
        return
    occupancy = network.occupancy(device.place.building if device.place is not None else None)
    is_fed = any(network.feeds_over(link.tag) for link in network.cables_at(device.tag))
    values = {
        "device": device.tag,
        "kind": kind_of(device.device),
        "ports": [device.port_tag(port) for port in free],
        "terminators": Phrase("blocking" if is_fed else "plain", {"number": len(free)}),
        "impedance": free[0].impedance_ohm,
    }
    case = "shared" if occupancy in _SHARED else "one dwelling"  # unstated, it is at least what it is in a dwelling
    yield NotMet(case, device.path, values, at_key=True, excess=len(free))


def _is_unsettled(device: DeviceNode, context: CheckContext) -> bool:
    """Whether a cable wants one of its ports and did not get it: too many want one, or a reference is misspelt."""
    network = context.network
    meant = {fault.meant for fault in network.unknown_references if fault.path[-1] in ("from", "to", "on")}
    return (
        bool(network.conflicts_at(device.tag))
        or any(port.device == device.tag for port in network.undecided_ports)
        or not meant.isdisjoint((device.tag, *map(device.port_tag, device.ports)))
    )


_VALUES: ValueTypes = {
    "device": TAG,
    "kind": WORD,
    "ports": TAGS,
    "terminators": phrase(plain={"number": COUNT}, blocking={"number": COUNT}),
    "impedance": IMPEDANCE,
}

CHECK = Check(
    name="level.unused-terminated",
    each=DEVICE,
    judge=unused_terminated,
    applies_to=kinds(*_DIVIDING, "outlet"),
    cases={"shared": _VALUES, "one dwelling": _VALUES},
    does_not_apply={"divides nothing": {}, "nothing joined": {}, "not settled": {}},
)
