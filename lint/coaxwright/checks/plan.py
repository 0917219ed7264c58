"""Is the design complete and coherent?"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from coaxwright.catalogue import Catalogue, UnknownWords
from coaxwright.checks.contract import Check, CheckContext, Correction, NotMet, Verdict
from coaxwright.checks.limits import Limits
from coaxwright.checks.phrasing import LONGEST_LIST, article, count, in_series, listed, several
from coaxwright.checks.selectors import DEVICE, ITEM, Item
from coaxwright.network import DeviceNode, PortConflict, UnknownReference, tag_order
from coaxwright.network.devices import OPTIONS, kind_of, not_made_with, options_of, size_words

_ORDINALS = {3: "rd", 2: "nd", 1: "st"}


def reference_known(item: Item, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """Every tag, port and catalogue word in an item names something, and one thing only."""
    faults = context.network.references_of(item.path)
    for fault in faults:
        facet = ".".join(str(step) for step in fault.path[2:])
        at_key = _is_key(fault.path)
        case, values = _unknown(fault, context)
        mend = Correction(fault.path, fault.meant, at_key) if fault.meant is not None else None
        yield NotMet(case, fault.path, values, at_key=at_key, facet=facet, mend=mend)
    for port in context.network.undecided_of(item.path):
        if any(fault.path == port.path for fault in faults):
            continue  # the port is named, and its name is what is wrong
        choices = [f"{port.device}.{name}" for name in port.choices]
        values = {"device": port.device, "choices": listed(choices, "or")}
        yield NotMet("undecided", port.path, values, facet=str(port.path[-1]))


def _unknown(fault: UnknownReference, context: CheckContext) -> tuple[str, dict[str, str]]:
    """The words for what names nothing."""
    section, tag, key = fault.path[0], str(fault.path[1]), fault.path[-1]
    values = {"written": fault.written}
    if section == "cables" and key == "type":
        read = context.network.cables[tag].type
        assert isinstance(read, UnknownWords)
        said = read.message.partition("; did you mean")[0]
        if read.word != fault.written:
            said = f"the cable type '{fault.written}' is not understood: {said}"
        if fault.meant is None:
            return "type", {"said": said}
        return "type misspelt", {"said": said, "meant": fault.meant}
    if section == "devices" and key in OPTIONS:
        device = context.network.devices[tag].device
        values |= {"device": tag, "kind": article(kind_of(device)), "option": str(key), "known": _listed(fault)}
        if getattr(options_of(device), OPTIONS[str(key)]) is None:
            return "not stated", values
        return "not made", values | {"made": not_made_with(device, str(key))}
    if section == "devices" and key == "model" and fault.written in context.network.catalogue.models:
        device, model = context.network.devices[tag].device, context.network.catalogue.models[fault.written]
        values |= {"device": tag, "kind": article(size_words(device.kind, options_of(device)))}
        return "model differs", values | {"made": article(size_words(model.kind, model.options))}
    if not fault.known:
        return "none", values | {"wanted": article(fault.wanted)}
    is_port = fault.wanted.startswith("port of")
    values["wanted"] = f"{article(fault.wanted)}{'' if is_port else ' of this design'}"
    if fault.meant is not None and is_port:
        return "port misspelt", values | {"meant": fault.meant, "known": _listed(fault)}
    if fault.meant is not None:
        return "misspelt", values | {"meant": fault.meant}
    # Where no electrode is drawn yet only `service` is known, which must not read as if it were the one right answer.
    further = ", or the tag of an electrode that stands in the bonding section" if fault.wanted == "electrode" else ""
    return "unknown", values | {"known": f"{_listed(fault)}{further}"}


def _listed(fault: UnknownReference) -> str:
    """What it could be, where that can be read; of very many tags only how many there are."""
    is_option = fault.path[-1] in OPTIONS
    is_of_catalogue = is_option or fault.wanted.startswith("port of")
    choices = sorted(fault.choices, key=tag_order)
    if not is_option:
        choices = in_series(choices)
    if is_of_catalogue or len(choices) <= LONGEST_LIST:
        return listed(choices, "or", most=len(choices))
    return f"one of the {len(fault.choices)} {several(fault.wanted)}"


def port_single_use(device: DeviceNode, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """No port carries two cables."""
    for conflict in context.network.conflicts_at(device.tag):
        case, values = _conflict(device, conflict, context)
        related = tuple((path, "this one as well") for path in conflict.paths[1:])
        yield NotMet(case, conflict.paths[0], values, facet=conflict.wanted, related=related)


def _conflict(device: DeviceNode, conflict: PortConflict, context: CheckContext) -> tuple[str, dict[str, str]]:
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
    larger = _larger(device, conflict, context.network.catalogue)
    if larger is not None:
        values["larger"] = article(larger)
        return "larger made", values
    return "full", values


def _larger(device: DeviceNode, conflict: PortConflict, catalogue: Catalogue) -> str | None:
    """The smallest device that is alike but for its size, and has a port for each cable that wants one."""
    own = options_of(device.device)
    needed = len(conflict.tenants)
    if conflict.wanted == "output" and own.ways is not None:
        ways = [ways for ways in catalogue.ways(device.device.kind, own.variant) if ways >= needed]
        name = f"{own.variant} {device.device.kind}" if own.variant is not None else device.device.kind
        return f"{ways[0]}-way {name}" if ways else None
    groups = {port.group for port in device.ports if port.name in conflict.ports}
    if own.outputs is None or len(groups) > 1:
        return None
    alike = [
        (options.outputs, entry.name)
        for options, entry in catalogue.made(device.device.kind).items()
        if options.outputs is not None and options.outputs >= needed and replace(options, outputs=own.outputs) == own
    ]
    return min(alike)[1] if alike else None


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
        prefilter=lambda items, network: [item for item in items if item.path in network.misnamed],
        cases={
            "misspelt": ("written", "wanted", "meant"),
            "port misspelt": ("written", "wanted", "meant", "known"),
            "unknown": ("written", "wanted", "known"),
            "none": ("written", "wanted"),
            "type": ("said",),
            "type misspelt": ("said", "meant"),
            "not made": ("made", "known", "option"),
            "not stated": ("device", "kind", "option", "known"),
            "model differs": ("device", "kind", "written", "made"),
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
            "devices.*.inputs",
            "devices.*.outputs",
            "devices.*.value",
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
        prefilter=lambda nodes, network: [node for node in nodes if network.conflicts_at(node.tag)],
        cases={
            "larger made": ("device", "kind", "ports", "tenants", "excess", "ordinal", "larger"),
            "full": ("device", "kind", "ports", "tenants", "excess", "ordinal"),
            "no such port": ("device", "kind", "port", "tenants"),
            "taken": ("device", "kind", "port", "tenants", "excess"),
            "taken, another free": ("device", "kind", "port", "tenants", "excess", "free"),
        },
        reads=(
            "devices.*.kind",
            "devices.*.ways",
            "devices.*.outputs",
            "devices.*.value",
            "devices.*.variant",
            "devices.*.on",
            "cables.*.from",
            "cables.*.to",
            "cables.*.state",
        ),
    ),
)
