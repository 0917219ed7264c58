"""Is the design complete and coherent?"""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.checks.contract import Check, Mend, NotMet, Site, Verdict
from coaxwright.checks.limits import Limits
from coaxwright.checks.phrasing import article, count, listed
from coaxwright.checks.selectors import DEVICE, ITEM, Item
from coaxwright.plant import DeviceNode, PortConflict, tag_order

_ORDINALS = {3: "rd", 2: "nd", 1: "st"}


def reference_known(item: Item, site: Site, limits: Limits) -> Iterator[Verdict]:
    """Every tag, port and catalogue word in an item names something, and one thing only."""
    for fault in site.plant.references_of(item.path):
        facet = ".".join(str(step) for step in fault.path[2:])
        values = {
            "written": fault.written,
            "wanted": article(fault.wanted),
            "known": listed(sorted(fault.known, key=tag_order)),
        }
        if fault.meant is None:
            case = "unknown" if fault.known else "none"
            yield NotMet(case, fault.path, values, at_key=_is_key(fault.path), facet=facet)
        else:
            at_key = _is_key(fault.path)
            mend = Mend(fault.path, fault.meant, at_key)
            values["meant"] = fault.meant
            yield NotMet("misspelt", fault.path, values, at_key=at_key, facet=facet, mend=mend)
    for port in site.plant.undecided_of(item.path):
        choices = [f"{port.device}.{name}" for name in port.choices]
        values = {"device": port.device, "choices": listed(choices, "or")}
        yield NotMet("undecided", port.path, values, facet=str(port.path[-1]))


def port_single_use(device: DeviceNode, site: Site, limits: Limits) -> Iterator[Verdict]:
    """No port carries two cables."""
    for conflict in site.plant.conflicts_at(device.tag):
        case, values = _conflict(device, conflict, site)
        related = tuple((path, "this one as well") for path in conflict.paths[1:])
        yield NotMet(case, conflict.paths[0], values, facet=conflict.wanted, related=related)


def _conflict(device: DeviceNode, conflict: PortConflict, site: Site) -> tuple[str, dict[str, str]]:
    excess = [_owner(path) for path in conflict.paths]
    values = {
        "device": device.tag,
        "kind": device.device.kind,
        "port": conflict.wanted,
        "ports": count(len(conflict.ports), conflict.wanted),
        "tenants": listed(conflict.tenants),
        "excess": listed(excess),
        "ordinal": _ordinal(len(conflict.tenants)),
        "free": listed([f"{device.tag}.{name}" for name in conflict.free], "or"),
    }
    if len(conflict.ports) == 1 and conflict.wanted == conflict.ports[0]:
        return ("taken, another free" if conflict.free else "taken"), values
    if not conflict.ports:
        return "no such port", values
    larger = [ways for ways in site.plant.catalogue.ways(device.device.kind) if ways >= len(conflict.tenants)]
    if conflict.wanted == "output" and larger:
        values["larger"] = article(f"{larger[0]}-way {device.device.kind}")
        return "larger made", values
    return "full", values


def _owner(path: tuple[str | int, ...]) -> str:
    return str(path[1])


def _is_key(path: tuple[str | int, ...]) -> bool:
    """Whether the reference is written as a key: the places of a route are."""
    return (len(path) == 5 and path[2] == "route") or (len(path) == 4 and path[2] == "ports")


def _ordinal(number: int) -> str:
    suffix = "th" if number % 100 in (11, 12, 13) else _ORDINALS.get(number % 10, "th")
    return f"{number}{suffix}"


CHECKS = (
    Check(
        name="reference-known",
        each=ITEM,
        judge=reference_known,
        cases={
            "misspelt": ("written", "wanted", "known", "meant"),
            "unknown": ("written", "wanted", "known"),
            "none": ("written", "wanted"),
            "undecided": ("device", "choices"),
        },
        reads=(
            "buildings.*.entry",
            "places.*.building",
            "services.*.from",
            "devices.*.place",
            "devices.*.on",
            "devices.*.ways",
            "devices.*.variant",
            "devices.*.serves",
            "cables.*.from",
            "cables.*.to",
            "cables.*.type",
            "cables.*.route",
            "bonding.*.from",
            "bonding.*.to",
            "bonding.*.place",
            "bonding.*.electrode",
        ),
    ),
    Check(
        name="port-single-use",
        each=DEVICE,
        judge=port_single_use,
        cases={
            "larger made": ("device", "kind", "ports", "tenants", "excess", "ordinal", "larger"),
            "full": ("device", "kind", "ports", "tenants", "excess", "ordinal"),
            "no such port": ("device", "kind", "port", "tenants"),
            "taken": ("device", "kind", "port", "tenants", "excess"),
            "taken, another free": ("device", "kind", "port", "tenants", "excess", "free"),
        },
        reads=("devices.*.kind", "devices.*.ways", "devices.*.on", "cables.*.from", "cables.*.to", "cables.*.state"),
    ),
)
