"""A signal comes to a device at its input; a passive divider that combines sources is rightly fed at outputs."""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.checks.contract import CannotJudge, Check, CheckContext, DoesNotApply, NotMet, Verdict
from coaxwright.checks.limits import Limits
from coaxwright.checks.selectors import DEVICE
from coaxwright.checks.subject_filters import those
from coaxwright.design.value_types import TAG, TAGS, WORD
from coaxwright.network import Backward, DeviceNode, Network, Unknown, tag_order


def direction_kept(node: DeviceNode, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """Nothing comes to it at an output through which it does not pass."""
    network = context.network
    if len(node.ports) < 2:
        yield DoesNotApply("one port")
        return
    found = network.survey.backward(node.tag)
    if found is None:
        return
    beside = {end.device.tag for link in network.cables_at(node.tag) for end in link.ends if end.device is not None}
    conflicts = [conflict for tag in sorted(beside, key=tag_order) for conflict in network.conflicts_at(tag)]
    if conflicts:
        yield CannotJudge(Unknown("port conflict", conflicts[0].paths[0], {"device": conflicts[0].device}))
        return
    case, other = _case(found, network)
    values = {
        "device": node.tag,
        "kind": node.device.kind,
        "service": found.service,
        "cable": found.cable.tag,
        "port": found.port.name,
        "right": found.right.name,
        "missed": list(found.left_out),
        "other": other,
    }
    end = next((end for end in found.cable.ends if end.device is node), found.cable.far)
    yield NotMet(case, end.path, values)


def _case(found: Backward, network: Network) -> tuple[str, str]:
    """Which way it is wrong, and what holds the input, if anything does."""
    other = network.tenants(found.device.tag).get(found.right.name, "")
    if not found.left_out:
        return "turned round", other
    return ("divider, input taken" if other else "divider"), other


_BACKWARD = {
    "device": TAG,
    "kind": WORD,
    "service": TAG,
    "cable": TAG,
    "port": WORD,
    "right": WORD,
    "missed": TAGS,
    "other": TAG,
}

CHECK = Check(
    name="plan.direction-kept",
    each=DEVICE,
    judge=direction_kept,
    applies_to=those(lambda node: len(node.ports) > 1),
    prefilter=lambda nodes, network: [node for node in nodes if network.survey.backward(node.tag) is not None],
    cases={"turned round": _BACKWARD, "divider": _BACKWARD, "divider, input taken": _BACKWARD},
    cannot_judge={"port conflict": {"device": TAG}},
    does_not_apply={"one port": {}},
)
