"""Can what is kept in reserve be put to use?"""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.checks.contract import CannotJudge, Check, CheckContext, DoesNotApply, NotMet, Verdict
from coaxwright.checks.limits import Limits
from coaxwright.checks.phrasing import count
from coaxwright.checks.selectors import RESERVE, Item
from coaxwright.network import DeviceNode, Network, Unknown
from coaxwright.network.other_splitters import larger_splitter, spare_outputs

_DIVIDING = frozenset(("splitter", "tap", "multiswitch", "drop amplifier"))
"""Kinds at whose outputs an outlet can be joined later."""


def spare_capacity(item: Item, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """An outlet kept in reserve finds a free output, and a raceway kept in reserve a string to pull by.

    Only what a design keeps in reserve is asked about.
    """
    if item.section == "raceways":
        string = context.network.raceways[item.tag].raceway.pull_string
        if string is None:
            cause = f"{item.tag} does not say whether it has a pull string"
            yield CannotJudge(Unknown(cause, (*item.path, "pull string")))
        elif not string:
            yield NotMet("no string", (*item.path, "pull string"), {"raceway": item.tag})
        return
    node = context.network.devices.get(item.tag) if item.section == "devices" else None
    if node is None or node.device.kind != "outlet":
        yield DoesNotApply("it is neither an outlet nor a raceway")
        return
    if any(link.in_use for link in context.network.cables_at(node.tag)):
        return  # it has its port
    yield from _port_to_spare(node, context.network)


def _port_to_spare(node: DeviceNode, network: Network) -> Iterator[Verdict]:
    """Whether a free output is left for an outlet in reserve, after those before it in tag order."""
    building = _building(node)
    here = [one for one in network.devices.values() if one.in_use and _building(one) == building]
    dividing = [one for one in here if one.device.kind in _DIVIDING]
    if not dividing:
        yield DoesNotApply("nothing divides a signal in its building")
        return
    spare = sum(spare_outputs(one, network) for one in dividing)
    kept = [one for one in here if one.device.kind == "outlet" and one.device.state == "reserve"]
    waiting = [one for one in kept if not any(link.in_use for link in network.cables_at(one.tag))]
    if waiting.index(node) < spare:
        return
    hub = max(dividing, key=lambda one: (one.device.kind == "splitter", len(one.ports)))
    values = {
        "outlet": node.tag,
        "spare": count(spare, "free output"),
        "reserved": count(len(waiting), "outlet"),
        "hub": hub.tag,
    }
    larger = larger_splitter(hub, len(waiting) - spare, network)
    values["larger"] = larger or ""
    yield NotMet("no output" if larger else "no output, no larger", node.path, values, at_key=True)


def _building(node: DeviceNode) -> str | None:
    return node.place.building if node.place is not None else None


_SPARE = ("outlet", "spare", "reserved", "hub", "larger")

CHECKS = (
    Check(
        name="spare-capacity",
        each=RESERVE,
        judge=spare_capacity,
        cases={"no output": _SPARE, "no output, no larger": _SPARE, "no string": ("raceway",)},
        reads=(
            "places.*.building",
            "devices.*.kind",
            "devices.*.ways",
            "devices.*.place",
            "devices.*.state",
            "devices.*.on",
            "cables.*.from",
            "cables.*.to",
            "raceways.*.state",
            "raceways.*.pull string",
        ),
    ),
)
