"""An outlet kept in reserve finds a free output, and a raceway kept in reserve a string to pull by.

Only what a design keeps in reserve is judged.
"""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.checks.contract import CannotJudge, Check, CheckContext, DoesNotApply, NotMet, Verdict
from coaxwright.checks.limits import Limits
from coaxwright.checks.plan._shared import building_of, is_outlet
from coaxwright.checks.selectors import RESERVE, Item
from coaxwright.design.value_types import COUNT, TAG, WORD
from coaxwright.network import DeviceNode, Network, Unknown
from coaxwright.network.other_splitters import larger_splitter, spare_outputs

_DIVIDING = frozenset(("splitter", "tap", "multiswitch", "drop amplifier"))
"""Kinds at whose outputs an outlet can be joined later."""


def spare_capacity(item: Item, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """A raceway has a pull string; an outlet that is not joined yet has an output left."""
    if item.section == "raceways":
        string = context.network.raceways[item.tag].raceway.pull_string
        if string is None:
            yield CannotJudge(Unknown("pull string not said", (*item.path, "pull string"), {"raceway": item.tag}))
        elif not string:
            yield NotMet("no string", (*item.path, "pull string"), {"raceway": item.tag})
        return
    node = context.network.devices.get(item.tag) if item.section == "devices" else None
    if node is None or not is_outlet(node):
        yield DoesNotApply("neither outlet nor raceway")
    elif not _is_joined(node, context.network):
        yield from _port_to_spare(node, context.network)


def _port_to_spare(node: DeviceNode, network: Network) -> Iterator[Verdict]:
    """Whether a free output is left for an outlet in reserve, after those before it in tag order."""
    building = building_of(node)
    here = [device for device in network.devices.values() if device.in_use and building_of(device) == building]
    dividing = [device for device in here if device.device.kind in _DIVIDING]
    if not dividing:
        yield DoesNotApply("nothing divides")
        return
    spare = sum(spare_outputs(device, network) for device in dividing)
    kept = [device for device in here if is_outlet(device) and device.device.state == "reserve"]
    waiting = [device for device in kept if not _is_joined(device, network)]
    if waiting.index(node) < spare:
        return
    hub = max(dividing, key=lambda device: (device.device.kind == "splitter", len(device.ports)))
    values = {"outlet": node.tag, "spare": spare, "reserved": len(waiting), "hub": hub.tag}
    larger = larger_splitter(hub, len(waiting) - spare, network)
    if larger is None:
        yield NotMet("no output, no larger", node.path, values, at_key=True)
    else:
        yield NotMet("no output", node.path, {**values, "larger": larger}, at_key=True)


def _is_joined(node: DeviceNode, network: Network) -> bool:
    return any(link.in_use for link in network.cables_at(node.tag))


_SPARE = {"outlet": TAG, "spare": COUNT, "reserved": COUNT, "hub": TAG}

CHECK = Check(
    name="plan.spare-capacity",
    each=RESERVE,
    judge=spare_capacity,
    cases={"no output": {**_SPARE, "larger": WORD}, "no output, no larger": _SPARE, "no string": {"raceway": TAG}},
    cannot_judge={"pull string not said": {"raceway": TAG}},
    does_not_apply={"neither outlet nor raceway": {}, "nothing divides": {}},
)
