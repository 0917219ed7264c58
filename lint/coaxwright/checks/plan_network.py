"""Does the network hang together: is everything fed, once, in the right direction, and does no cable end nowhere?"""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.catalogue import Direction
from coaxwright.checks.contract import CannotJudge, Check, CheckContext, DoesNotApply, NotMet, Verdict
from coaxwright.checks.limits import Limits
from coaxwright.checks.phrasing import article, frequency, listed
from coaxwright.checks.selectors import CABLE, CABLE_LAID, DEVICE
from coaxwright.checks.subject_filters import those
from coaxwright.design.words import AERIALS, BELOW_GROUND
from coaxwright.network import SINKS, Backward, CableEnd, CableLink, DeviceNode, PlaceNode, Unknown

_WAIT_FOR_MORE = frozenset(("tap", "directional coupler"))
"""Kinds that stand on a trunk for outlets to come."""


def loop_free(link: CableLink, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """No cable closes a loop: no frequency comes to a port by two ways, or round again."""
    loop = context.network.survey.loop_closed_by(link.tag)
    if loop is None:
        if not context.network.services_on(link.tag):
            yield DoesNotApply("no service is said to run on it")
        return
    if loop.unknown is not None:
        yield CannotJudge(loop.unknown)
        return
    low, high = frequency(loop.hertz[0]), frequency(loop.hertz[-1])
    values = {
        "cable": link.tag,
        "service": loop.service,
        "device": loop.meets_at.tag,
        "around": listed(list(loop.around)),
        "frequencies": low if low == high else f"{low} to {high}",
    }
    others = tuple((("cables", tag), "in the loop as well") for tag in loop.around if tag != link.tag)
    yield NotMet("round" if loop.comes_round else "two ways", link.path, values, at_key=True, related=others)


def direction_kept(node: DeviceNode, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """A signal comes to a device at its input; a passive divider that combines sources is rightly fed at outputs."""
    if len(node.ports) < 2:
        yield DoesNotApply("nothing passes through it")
        return
    found = context.network.survey.backward(node.tag)
    if found is None:
        return
    beside = {
        end.device.tag for link in context.network.cables_at(node.tag) for end in link.ends if end.device is not None
    }
    if any(context.network.conflicts_at(tag) for tag in beside):
        yield DoesNotApply("a cable there finds no port, which another rule tells")
        return
    values = {
        "device": node.tag,
        "kind": article(node.device.kind),
        "service": found.service,
        "cable": found.cable.tag,
        "port": found.port.name,
        "right": found.right.name,
        "missed": listed(list(found.left_out)),
    }
    case, values["other"] = _case_backward(found, context)
    end = next((end for end in found.cable.ends if end.device is node), found.cable.far)
    yield NotMet(case, end.path, values)


def _case_backward(found: Backward, context: CheckContext) -> tuple[str, str]:
    """The wording, by whether the input is taken, and by what."""
    other = context.network.tenants(found.device.tag).get(found.right.name, "")
    if not found.left_out:
        return "turned round", other
    return ("divider, input taken" if other else "divider"), other


def dead_end(link: CableLink, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """No new cable ends at nothing, and an abandoned one is removed as far as it can be reached, or tagged."""
    values = {"cable": link.tag, "length": "" if isinstance(link.length, Unknown) else f" of {link.length.text}"}
    if link.cable.state == "abandoned":
        hidden = link.segments and all(
            segment.raceway is not None or _is_buried(segment.place) for segment in link.segments
        )
        if link.cable.labels is None and not hidden:
            yield NotMet("abandoned", (*link.path, "state"), values)
    elif link.cable.state == "new":
        for end in link.ends:
            if end.device is not None and not end.device.in_use:
                at = {**values, "device": end.device.tag}
                yield NotMet("at abandoned", end.path, at, facet=str(end.path[-1]))
        if _is_stub(link, link.far, context):
            assert link.far.device is not None
            device = link.far.device
            yield NotMet("stub", link.far.path, {**values, "device": device.tag, "kind": article(device.device.kind)})


def _is_buried(place: PlaceNode | None) -> bool:
    return place is not None and place.exposure in BELOW_GROUND


def _is_stub(link: CableLink, end: CableEnd, context: CheckContext) -> bool:
    """Whether a cable ends at a part that passes the signal on, to nothing."""
    node = end.device
    if node is None or end.port is None or not node.in_use or node.device.state == "reserve" or len(node.ports) < 2:
        return False
    kind = node.device.kind
    if kind in SINKS or kind in AERIALS or kind in _WAIT_FOR_MORE or node.entry is None:
        return False
    network = context.network
    if any(other is not link and other.in_use for other in network.cables_at(node.tag)):
        return False
    if not _is_fed(link.near, context):
        return False  # a sheet that begins in the middle: nobody can tell which end is the far one
    if node.protects and _sends(link.near.device):
        return False  # the drop is brought in and bonded, and the house comes later
    return not any(node.tag in (loose.nearest, loose.written) for loose in network.survey.loose_ends())


def _is_fed(end: CableEnd, context: CheckContext) -> bool:
    """Whether a signal begins at the device of an end, or a cable brings one there."""
    node = end.device
    if node is None or _sends(node):
        return node is not None
    return any(link.in_use and link.far.device is node for link in context.network.cables_at(node.tag))


def _sends(node: DeviceNode | None) -> bool:
    """Whether signals only begin at it, as at a drop or an antenna."""
    return node is not None and all(port.direction is Direction.OUT for port in node.ports)


_LOOP = ("cable", "service", "device", "around", "frequencies")
_BACKWARD = ("device", "kind", "service", "cable", "port", "right", "missed", "other")
_NETWORK = ("devices.*.kind", "devices.*.on", "cables.*.from", "cables.*.to", "cables.*.state")
_SERVICES = ("services.*.from", "services.*.kind", "services.*.down", "services.*.channels")

CHECKS = (
    Check(
        name="loop-free",
        each=CABLE,
        judge=loop_free,
        cases={"round": _LOOP, "two ways": _LOOP},
        reads=(*_NETWORK, *_SERVICES, "services.*.up"),
    ),
    Check(
        name="direction-kept",
        each=DEVICE,
        judge=direction_kept,
        applies_to=those(lambda node: len(node.ports) > 1),
        prefilter=lambda nodes, network: [node for node in nodes if network.survey.backward(node.tag) is not None],
        cases={"turned round": _BACKWARD, "divider": _BACKWARD, "divider, input taken": _BACKWARD},
        reads=(*_NETWORK, *_SERVICES, "devices.*.serves"),
    ),
    Check(
        name="dead-end",
        each=CABLE_LAID,
        judge=dead_end,
        cases={
            "abandoned": ("cable", "length"),
            "at abandoned": ("cable", "length", "device"),
            "stub": ("cable", "length", "device", "kind"),
        },
        reads=(*_NETWORK, "devices.*.state", "cables.*.labels", "cables.*.route", "cables.*.length"),
    ),
)
