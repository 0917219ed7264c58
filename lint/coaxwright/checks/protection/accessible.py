"""A ground block or protector can be reached for inspection.

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


def accessible(node: DeviceNode, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """A ground block or protector is not said to be out of reach."""
    if not node.protects:
        yield DoesNotApply("no protector")
    elif node.device.accessible is None:
        yield DoesNotApply("not said")
    elif not node.device.accessible:
        values = {"protector": node.tag, "kind": node.device.kind, "place": place_of(node)}
        yield NotMet("out of reach", (*node.path, "accessible"), values)


CHECK = Check(
    name="protection.accessible",
    each=DEVICE,
    judge=accessible,
    applies_to=those(lambda node: node.device.accessible is not None),
    cases={"out of reach": {"protector": TAG, "kind": WORD, "place": PLACE}},
    does_not_apply={"no protector": {}, "not said": {}},
)
