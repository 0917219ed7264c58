"""No new cable ends at nothing, and an abandoned one is removed as far as it can be reached, or tagged."""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.catalogue import Direction
from coaxwright.checks.contract import Check, CheckContext, NotMet, Verdict
from coaxwright.checks.limits import Limits
from coaxwright.checks.selectors import CABLE_LAID
from coaxwright.design.value_types import QUANTITY, TAG, WORD, Phrase, optional, phrase
from coaxwright.design.words import AERIALS, BELOW_GROUND
from coaxwright.network import SINKS, CableEnd, CableLink, DeviceNode, PlaceNode, Unknown

_WAIT_FOR_MORE = frozenset(("tap", "directional coupler"))
"""Kinds that stand on a trunk for outlets to come."""


def dead_end(link: CableLink, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """A new cable leads on to something in use; an abandoned one is out of reach or tagged."""
    length = None if isinstance(link.length, Unknown) else Phrase("known", {"length": link.length})
    values = {"cable": link.tag, "length": length}
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
        device = link.far.device
        if device is not None and _is_stub(link, device, context):
            yield NotMet("stub", link.far.path, {**values, "device": device.tag, "kind": device.device.kind})


def _is_buried(place: PlaceNode | None) -> bool:
    return place is not None and place.exposure in BELOW_GROUND


def _is_stub(link: CableLink, node: DeviceNode, context: CheckContext) -> bool:
    """Whether a cable ends at a part that passes the signal on, to nothing."""
    if link.far.port is None or not node.in_use or node.device.state == "reserve" or len(node.ports) < 2:
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


_CABLE = {"cable": TAG, "length": optional(phrase(known={"length": QUANTITY}))}

CHECK = Check(
    name="plan.dead-end",
    each=CABLE_LAID,
    judge=dead_end,
    cases={
        "abandoned": _CABLE,
        "at abandoned": {**_CABLE, "device": TAG},
        "stub": {**_CABLE, "device": TAG, "kind": WORD},
    },
)
