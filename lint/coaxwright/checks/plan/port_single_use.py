"""No port carries two cables."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from coaxwright.catalogue import Catalogue
from coaxwright.checks.contract import Check, CheckContext, NotMet, Verdict
from coaxwright.checks.limits import Limits
from coaxwright.checks.selectors import DEVICE
from coaxwright.design.value_types import COUNT, ORDINAL, TAG, TAGS, WORD, Phrase, Values, phrase
from coaxwright.network import DeviceNode, PortConflict
from coaxwright.network.devices import options_of


def port_single_use(device: DeviceNode, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """As many cables want a port of the device as there are ports."""
    for conflict in context.network.conflicts_at(device.tag):
        case, values = _conflict(device, conflict, context.network.catalogue)
        related = tuple((path, "as well") for path in conflict.paths[1:])
        yield NotMet(case, conflict.paths[0], values, facet=conflict.wanted, related=related)


def _conflict(device: DeviceNode, conflict: PortConflict, catalogue: Catalogue) -> tuple[str, dict[str, object]]:
    values: dict[str, object] = {
        "device": device.tag,
        "kind": device.device.kind,
        "port": conflict.wanted,
        "ports": Phrase("ports", {"number": len(conflict.ports), "what": conflict.wanted}),
        "tenants": list(conflict.tenants),
        "excess": [str(path[1]) for path in conflict.paths],
        "ordinal": len(conflict.tenants),
    }
    if len(conflict.ports) == 1 and conflict.wanted == conflict.ports[0]:
        free = [device.tag + "." + name for name in conflict.free]
        return ("taken, another free", values | {"free": free}) if free else ("taken", values)
    if not conflict.ports:
        return "no such port", values
    larger = _larger(device, conflict, catalogue)
    return ("full", values) if larger is None else ("larger made", values | {"larger": larger})


def _larger(device: DeviceNode, conflict: PortConflict, catalogue: Catalogue) -> str | None:
    """The smallest device that is alike but for its size, and has a port for each cable that wants one."""
    own = options_of(device.device)
    needed = len(conflict.tenants)
    if conflict.wanted == "output" and own.ways is not None:
        ways = [ways for ways in catalogue.ways(device.device.kind, own.variant) if ways >= needed]
        name = own.variant + " " + device.device.kind if own.variant is not None else device.device.kind
        return str(ways[0]) + "-way " + name if ways else None
    groups = {port.group for port in device.ports if port.name in conflict.ports}
    if own.outputs is None or len(groups) > 1:
        return None
    alike = [
        (options.outputs, entry.name)
        for options, entry in catalogue.made(device.device.kind).items()
        if options.outputs is not None and options.outputs >= needed and replace(options, outputs=own.outputs) == own
    ]
    return min(alike)[1] if alike else None


_CONFLICT: Values = {
    "device": TAG,
    "kind": WORD,
    "port": WORD,
    "ports": phrase(ports={"number": COUNT, "what": WORD}),
    "tenants": TAGS,
    "excess": TAGS,
    "ordinal": ORDINAL,
}

CHECK = Check(
    name="plan.port-single-use",
    each=DEVICE,
    judge=port_single_use,
    prefilter=lambda nodes, network: [node for node in nodes if network.conflicts_at(node.tag)],
    cases={
        "larger made": {**_CONFLICT, "larger": WORD},
        "full": _CONFLICT,
        "no such port": _CONFLICT,
        "taken": _CONFLICT,
        "taken, another free": {**_CONFLICT, "free": TAGS},
    },
    related=("as well",),
)
