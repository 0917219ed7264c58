"""What bonds the shield at an entry is of a type that a laboratory has listed.

Where the design says nothing of it, there is nothing to judge.
"""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.checks.contract import Check, CheckContext, DoesNotApply, NotMet, Verdict
from coaxwright.checks.limits import Limits
from coaxwright.checks.protection._shared import PLACE, place_of
from coaxwright.checks.selectors import DEVICE
from coaxwright.checks.subject_filters import those
from coaxwright.design.value_types import TAG, WORD
from coaxwright.network import DeviceNode
from coaxwright.network.customer_premises import serves_premises_only


def listed(node: DeviceNode, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """A ground block or protector is not said to be unlisted."""
    if not node.protects:
        yield DoesNotApply("no protector")
    elif node.device.listed is None:
        yield DoesNotApply("not said")
    elif not node.device.listed:
        in_house = serves_premises_only(context.network, node, context.network.line_of(node))
        values = {"protector": node.tag, "kind": node.device.kind, "place": place_of(node)}
        yield NotMet("not listed", (*node.path, "listed"), values, is_by_practice=in_house)


CHECK = Check(
    name="protection.listed",
    each=DEVICE,
    judge=listed,
    applies_to=those(lambda node: node.device.listed is not None),
    cases={"not listed": {"protector": TAG, "kind": WORD, "place": PLACE}},
    does_not_apply={"no protector": {}, "not said": {}},
)
