"""Is a protector of a kind that is listed, and where somebody can get at it?"""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.checks.contract import Check, CheckContext, DoesNotApply, NotMet, Verdict
from coaxwright.checks.limits import Limits
from coaxwright.checks.selectors import DEVICE
from coaxwright.checks.subject_filters import those
from coaxwright.network import DeviceNode
from coaxwright.network.customer_premises import serves_premises_only


def listed_protector(node: DeviceNode, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """What bonds the shield at an entry is of a listed type; where the design says nothing of it, nothing is told."""
    if not node.protects or node.device.listed is None:
        yield DoesNotApply("nothing is said of its listing" if node.protects else "it protects nothing")
    elif not node.device.listed:
        in_house = serves_premises_only(context.network, node, context.network.line_of(node))
        yield NotMet("not listed", (*node.path, "listed"), _values(node), is_by_practice=in_house)


def accessible_protector(node: DeviceNode, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """A protector can be reached for inspection; where the design says nothing of it, nothing is told."""
    if not node.protects or node.device.accessible is None:
        yield DoesNotApply("nothing is said of how it is reached" if node.protects else "it protects nothing")
    elif not node.device.accessible:
        yield NotMet("out of reach", (*node.path, "accessible"), _values(node))


def _values(node: DeviceNode) -> dict[str, str]:
    place = node.place.tag if node.place is not None else "a place not stated"
    return {"protector": node.tag, "kind": node.device.kind, "place": place}


_WORDS = ("protector", "kind", "place")

CHECKS = (
    Check(
        name="listed-protector",
        each=DEVICE,
        judge=listed_protector,
        applies_to=those(lambda node: node.device.listed is not None),
        cases={"not listed": _WORDS},
        reads=("devices.*.kind", "devices.*.listed"),
    ),
    Check(
        name="accessible-protector",
        each=DEVICE,
        judge=accessible_protector,
        applies_to=those(lambda node: node.device.accessible is not None),
        cases={"out of reach": _WORDS},
        reads=("devices.*.kind", "devices.*.accessible"),
    ),
)
