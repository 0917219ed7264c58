"""What was understood of a design: its network and what was computed of it, as plain data.

Pure: the same design gives the same data. The text and the JSON form are two views of it.
"""

from __future__ import annotations

from coaxwright.analysis import Analysis, band_edges_hz
from coaxwright.catalogue import UnknownWords
from coaxwright.design import Device
from coaxwright.network import (
    BuildingNode,
    CableEnd,
    CableLink,
    DeviceNode,
    Entry,
    Known,
    Network,
    PlaceNode,
    ServiceNode,
    Unknown,
    author_values,
)
from coaxwright.network.devices import kind_of
from coaxwright.network.service_overlap import IN_HOME
from coaxwright.reports.network_report.bonds import bonding_items, bonds, length_read
from coaxwright.reports.network_report.gaps import missing_ports, taken, unconnected
from coaxwright.reports.network_report.network import (
    PortUse,
    ReadCable,
    ReadDevice,
    ReadEnd,
    ReadLoss,
    ReadType,
    RouteSpan,
    Wanted,
)
from coaxwright.reports.network_report.parts import NetworkReport, ReadBuilding, ReadEntry, ReadPlace
from coaxwright.reports.network_report.services import service
from coaxwright.reports.network_report.unused import read_units, unused
from coaxwright.rules.phrase_book import cause_text
from coaxwright.source import Document, Path

_LINES = {
    "antenna": "from the antenna {source}",
    "coax drop": "from the coax drop {source}",
    "inter-building": "between buildings, from or to {source}",
    "outdoors": "from outdoors",
}


def network_report(document: Document, network: Network, analysis: Analysis) -> NetworkReport:
    """Everything that was understood of a design."""
    design = network.design
    portless = missing_ports(network)
    return NetworkReport(
        file=document.name,
        title=design.title,
        job=design.job or "",
        sheet=design.sheet or "",
        revision=design.revision or "",
        stage=design.stage,
        rulesets=tuple(design.basis.rulesets),
        units=read_units(document),
        buildings=tuple(_building(node, network) for node in network.buildings.values()),
        places=tuple(_place(node, network) for node in network.places.values()),
        services=tuple(service(node, network) for node in network.services.values()),
        devices=tuple(_device(node, network) for node in network.devices.values()),
        cables=tuple(_cable(link, network, analysis, portless) for link in network.cables.values()),
        entries=tuple(_entry(entry, network) for entry in network.entries),
        bonds=tuple(bonds(network)),
        bonding=tuple(bonding_items(network)),
        taken=tuple(taken(network)),
        own_figures=author_values(network.catalogue, network.cables.values(), network.devices.values()),
        unused=tuple(unused(document, network)),
        unconnected=tuple(unconnected(document, network)),
    )


def _building(node: BuildingNode, network: Network) -> ReadBuilding:
    occupancy = network.occupancy(node.tag)
    return ReadBuilding(
        tag=node.tag,
        occupancy="" if isinstance(occupancy, Unknown) else occupancy,
        entries=node.entries,
        lightning_system=node.has_lightning_system,
    )


def _place(node: PlaceNode, network: Network) -> ReadPlace:
    temperature = node.place.temperature
    return ReadPlace(
        tag=node.tag,
        building=node.building or "",
        building_because=_because(node, network),
        indoors=not node.is_outside,
        exposure=node.exposure,
        exposure_by_default="exposure" not in node.place.model_fields_set,
        temperature=temperature.text if temperature is not None else "",
    )


def _because(node: PlaceNode, network: Network) -> str:
    if node.place.building is not None or not node.building:
        return ""
    return "its entry" if node.tag in network.buildings[node.building].entries else "the only building"


def _device(node: DeviceNode, network: Network) -> ReadDevice:
    device = node.device
    tenants = network.tenants(node.tag)
    held = {
        node.tag,
        *(tag for tag, other in network.devices.items() if other.device.on == node.tag and not node.ports),
    }
    here = tuple(tag for tag, service in network.services.items() if held & _devices_of(service, network))
    fitting = network.fittings.get(node.tag)
    mast = node.mast
    mast_words = "" if mast is None else "metal mast" if mast.metal else "mast not of metal"
    return ReadDevice(
        tag=node.tag,
        what=node.entry.name if node.entry is not None else _not_made(device),
        place=node.place.tag if node.place is not None else "",
        mast=f"{mast_words}, {mast.height.text} high" if mast is not None and mast.height is not None else mast_words,
        on=str(_end(fitting, "")) if fitting is not None else device.on or "",
        state=device.state,
        owner=device.owner,
        wants=tuple(Wanted(service, service in here) for service in device.serves or ()),
        carries=here,
        ports=tuple(
            PortUse(port.name, port.direction.value, port.impedance_ohm, tenants.get(port.name, ""))
            for port in node.ports
        ),
    )


def _devices_of(service: ServiceNode, network: Network) -> frozenset[str]:
    """What a service reaches; of in-home data, what joins its stations."""
    if service.service.kind == IN_HOME:
        return frozenset(network.traffic.in_home_coax(service.tag).devices)
    return service.devices


def _services_on(link: CableLink, network: Network) -> tuple[ServiceNode, ...]:
    """The services that go over a cable, in-home data among them."""
    return tuple(
        node
        for tag, node in network.services.items()
        if link.tag in (network.traffic.in_home_coax(tag).cables if node.service.kind == IN_HOME else node.cables)
    )


def _not_made(device: Device) -> str:
    """What a device is whose size the catalogue does not have: ``5-way splitter``."""
    sizes = ((device.ways, "way"), (device.outputs, "output"), (device.inputs, "input"))
    size = next((f"{number}-{word} " for number, word in sizes if number is not None), "")
    return f"{size}{kind_of(device)}"


def _cable(link: CableLink, network: Network, analysis: Analysis, portless: dict[Path, str]) -> ReadCable:
    losses, loss_unknown = _losses(link, network, analysis)
    return ReadCable(
        tag=link.tag,
        near=_end(link.near, portless.get(link.near.path, "")),
        far=_end(link.far, portless.get(link.far.path, "")),
        turned=link.near.path[-1] == "to",
        type=_type(link),
        route=tuple(RouteSpan(s.tag, s.place is not None, s.length.text) for s in link.segments),
        length=length_read(link.length),
        losses=losses,
        loss_unknown=loss_unknown,
        state=link.cable.state,
        owner=link.cable.owner,
        carries=tuple(node.tag for node in _services_on(link, network)),
    )


def _end(end: CableEnd, unknown: str) -> ReadEnd:
    return ReadEnd(
        device=end.device.tag if end.device is not None else "",
        port=end.port.name if end.port is not None else "",
        written=end.written,
        unknown=unknown,
    )


def _type(link: CableLink) -> ReadType:
    if isinstance(link.type, UnknownWords):
        return ReadType(link.cable.type, "", "", "", "", (), link.type.message)
    read = link.type
    return ReadType(
        written=link.cable.type,
        cable_class=read.cable_class.name,
        shield=read.shield.name,
        center=read.center.name,
        jacket=read.jacket.name,
        by_default=read.defaulted,
        unknown="",
    )


def _losses(link: CableLink, network: Network, analysis: Analysis) -> tuple[tuple[ReadLoss, ...], str]:
    reached = _services_on(link, network)
    edges_hz = band_edges_hz(reached)
    if edges_hz is None:
        return (), "the services on it state no frequencies" if reached else "no service reaches it"
    return tuple(_loss(analysis.line_loss_db(link, freq_hz), freq_hz) for freq_hz in dict.fromkeys(edges_hz)), ""


def _loss(loss_db: Known | Unknown, freq_hz: float) -> ReadLoss:
    if isinstance(loss_db, Unknown):
        return ReadLoss(freq_hz, None, None, None, cause_text(loss_db))
    return ReadLoss(freq_hz, loss_db.low, loss_db.nominal, loss_db.high, "")


def _entry(entry: Entry, network: Network) -> ReadEntry:
    protector = network.protector_at(entry)
    return ReadEntry(
        cable=entry.cable.tag,
        building=entry.building,
        outside=entry.outside.tag if entry.outside is not None else "",
        inside=entry.inside.tag if entry.inside is not None else "",
        line=_LINES[entry.line].format(source=entry.source or "a building without a name"),
        protector=protector.tag if isinstance(protector, DeviceNode) else "",
        unknown=cause_text(protector) if isinstance(protector, Unknown) else "",
    )
