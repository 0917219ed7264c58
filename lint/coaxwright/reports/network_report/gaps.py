"""What a design does not say and was taken by default, and what it says that could not be connected."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator

from coaxwright.analysis import ROOM_C
from coaxwright.catalogue import UnknownWords
from coaxwright.design.quantities import shown
from coaxwright.design.sentences import LONGEST_LIST, article, count, in_series, listed
from coaxwright.network import Network, PortConflict, UnknownReference, tag_order
from coaxwright.network.devices import OPTIONS, kind_of, not_made_with, options_of
from coaxwright.reports.network_report.parts import Taken, Unconnected, Whereabouts
from coaxwright.source import Document, Path

_LENGTH_OF_ROUTE_PLACE = 5
"""Steps of the path of a place in a route, which is written as a key."""


def taken(network: Network) -> Iterator[Taken]:
    """What was taken because nothing is written, gathered by what was taken."""
    gathered: dict[tuple[str, str], list[str]] = defaultdict(list)
    design = network.design
    if "stage" not in design.model_fields_set:
        gathered["stage", design.stage].append("the design")
    for tag, building in network.buildings.items():
        if building.building.occupancy is None and design.basis.occupancy is not None:
            gathered["occupancy, from the basis", design.basis.occupancy].append(tag)
        if "lightning_system" not in building.building.model_fields_set:
            gathered["lightning system", "none"].append(tag)
    for tag, place in network.places.items():
        if "exposure" not in place.place.model_fields_set:
            gathered["exposure", place.exposure].append(tag)
        if place.place.building is None and place.building is not None:
            gathered["building", place.building or "one without a name"].append(tag)
    for tag, device in network.devices.items():
        if device.mast is not None and "metal" not in device.mast.model_fields_set:
            gathered["mast", "of metal"].append(tag)
    for tag, link in network.cables.items():
        if not isinstance(link.type, UnknownWords):
            for option in link.type.defaulted:
                chosen = {
                    "shield": link.type.shield.name,
                    "center": link.type.center.name,
                    "jacket": link.type.jacket.name,
                }
                gathered[option, chosen[option]].append(tag)
    passed = {segment.place.tag for link in network.cables.values() for segment in link.segments if segment.place}
    for tag, place in network.places.items():
        if place.place.temperature is None and tag in passed:
            gathered["temperature, for the loss", f"{shown(ROOM_C, 0)} °C"].append(tag)
    for (what, value), tags in gathered.items():
        yield Taken(what, value, tuple(tags))


def unconnected(document: Document, network: Network) -> list[Unconnected]:
    """What could not be connected, in the order of the files, the design's own first."""
    found = [
        _at(document, fault.path, _unknown(fault, network), _is_key(fault.path)) for fault in network.unknown_references
    ]
    misnamed = {fault.path for fault in network.unknown_references}
    for port in network.undecided_ports:
        if port.path in misnamed:
            continue  # the port is named, and its name is what is wrong
        choices = listed([f"{port.device}.{name}" for name in port.choices], "or")
        found.append(_at(document, port.path, f"'{port.device}' could be {choices}, which are not alike"))
    for conflict in network.port_conflicts:
        found += [_at(document, path, _conflict(path, conflict)) for path in conflict.paths]
    return sorted(found, key=lambda connection: _order(document, connection))


def _order(document: Document, connection: Unconnected) -> tuple[object, ...]:
    where = connection.where
    return (where.file != document.name, where.file, where.line, where.column, connection.item, connection.text)


def missing_ports(network: Network) -> dict[Path, str]:
    """Why an end has no port, by where it is written."""
    reasons: dict[Path, str] = {}
    for tag, link in network.cables.items():
        for end in link.ends:
            if end.device is None:
                reasons[end.path] = f"'{end.written}' names no device"
            elif end.port is None and not link.in_use:
                reasons[end.path] = f"{tag} is abandoned and takes no port"
    for conflict in network.port_conflicts:
        reasons.update((path, f"no {conflict.wanted} of {conflict.device} is left") for path in conflict.paths)
    for port in network.undecided_ports:
        reasons[port.path] = f"which port of {port.device} is not decided"
    return reasons


def _at(document: Document, path: Path, text: str, of_key: bool = False) -> Unconnected:
    written = path
    while not document.has(written):
        written = written[:-1]
    start = document.span(written, of_key=of_key or written != path).start
    file = document.owner(written).name
    return Unconnected(Whereabouts(file, start.line, start.column), str(path[1]), text)


def _unknown(fault: UnknownReference, network: Network) -> str:
    hint = f"; did you mean '{fault.meant}'?" if fault.meant is not None else _choices(fault)
    if fault.path[0] == "devices" and fault.path[-1] in OPTIONS:
        return f"{_not_made(str(fault.path[1]), str(fault.path[-1]), network)}{hint}"
    return f"'{fault.written}' is no {fault.wanted}{hint}"


def _choices(fault: UnknownReference) -> str:
    is_option = fault.path[-1] in OPTIONS
    choices = sorted(fault.choices, key=tag_order) if is_option else in_series(fault.choices)
    if not choices:
        return ""
    if len(choices) > LONGEST_LIST and not (is_option or fault.wanted.startswith("port of")):
        return f"; there are {len(fault.choices)} of them"
    return f"; there {'are' if len(fault.choices) > 1 else 'is'} {listed(choices, most=len(choices))}"


def _not_made(tag: str, option: str, network: Network) -> str:
    """Why the catalogue has no such device: an option that it is made in is left out, or is another."""
    device = network.devices[tag].device
    if getattr(options_of(device), OPTIONS[option]) is None:
        return f"{tag} is {article(kind_of(device))} and states no {option}"
    return f"the catalogue has no {not_made_with(device, option)}"


def _conflict(path: Path, conflict: PortConflict) -> str:
    who, device = path[1], conflict.device
    if not conflict.ports:
        return f"{who} finds no {conflict.wanted} at {device}, which has none"
    if conflict.wanted in conflict.ports:
        others = listed([tenant for tenant in conflict.tenants if tenant != who])
        free = f"; {listed([f'{device}.{name}' for name in conflict.free], 'or')} is free" if conflict.free else ""
        return f"{who} finds {device}.{conflict.wanted} taken by {others}{free}"
    has = count(len(conflict.ports), conflict.wanted)
    return f"{who} finds no {conflict.wanted} left at {device}: it has {has}, for {listed(conflict.tenants)}"


def _is_key(path: Path) -> bool:
    return path[0] == "cables" and len(path) == _LENGTH_OF_ROUTE_PLACE
