"""What was understood of a design: its plant and what was computed of it, as plain data.

Pure: the same design gives the same data. The text and the JSON form are two views of it.
"""

from __future__ import annotations

from coaxwright.analysis import Analysis, band_edges_hz
from coaxwright.catalogue import UnknownWords
from coaxwright.design import Device
from coaxwright.plant import (
    BuildingNode,
    CableEnd,
    CableLink,
    DeviceNode,
    Entry,
    Known,
    PlaceNode,
    Plant,
    ServiceNode,
    Unknown,
    own_figures,
)
from coaxwright.plant.devices import kind_of
from coaxwright.plant.sharing import IN_HOME
from coaxwright.reports.understood_bonds import bonding_items, bonds, length_read
from coaxwright.reports.understood_gaps import missing_ports, taken, unconnected
from coaxwright.reports.understood_network import (
    PortUse,
    ReadCable,
    ReadDevice,
    ReadEnd,
    ReadLoss,
    ReadType,
    Stretch,
    Wanted,
)
from coaxwright.reports.understood_parts import ReadBuilding, ReadEntry, ReadPlace, Understood
from coaxwright.reports.understood_services import service
from coaxwright.reports.understood_unused import read_units, unused
from coaxwright.source import Document, Path

_LINES = {
    "antenna": "from the antenna {source}",
    "service drop": "from the service drop {source}",
    "inter-building": "between buildings, from or to {source}",
    "outdoors": "from outdoors",
}


def understood(document: Document, plant: Plant, analysis: Analysis) -> Understood:
    """Everything that was understood of a design."""
    design = plant.design
    portless = missing_ports(plant)
    return Understood(
        file=document.name,
        title=design.title,
        job=design.job or "",
        sheet=design.sheet or "",
        revision=design.revision or "",
        stage=design.stage,
        rulesets=tuple(design.basis.rulesets),
        units=read_units(document),
        buildings=tuple(_building(node, plant) for node in plant.buildings.values()),
        places=tuple(_place(node, plant) for node in plant.places.values()),
        services=tuple(service(node, plant) for node in plant.services.values()),
        devices=tuple(_device(node, plant) for node in plant.devices.values()),
        cables=tuple(_cable(link, plant, analysis, portless) for link in plant.cables.values()),
        entries=tuple(_entry(entry, plant) for entry in plant.entries),
        bonds=tuple(bonds(plant)),
        bonding=tuple(bonding_items(plant)),
        taken=tuple(taken(plant)),
        own_figures=own_figures(plant.catalogue, plant.cables.values(), plant.devices.values()),
        unused=tuple(unused(document, plant)),
        unconnected=tuple(unconnected(document, plant)),
    )


def _building(node: BuildingNode, plant: Plant) -> ReadBuilding:
    occupancy = plant.occupancy(node.tag)
    return ReadBuilding(
        tag=node.tag,
        occupancy="" if isinstance(occupancy, Unknown) else occupancy,
        entries=node.entries,
        lightning_system=node.has_lightning_system,
    )


def _place(node: PlaceNode, plant: Plant) -> ReadPlace:
    temperature = node.place.temperature
    return ReadPlace(
        tag=node.tag,
        building=node.building or "",
        building_because=_because(node, plant),
        indoors=not node.is_outside,
        exposure=node.exposure,
        exposure_by_default="exposure" not in node.place.model_fields_set,
        temperature=temperature.text if temperature is not None else "",
    )


def _because(node: PlaceNode, plant: Plant) -> str:
    if node.place.building is not None or not node.building:
        return ""
    return "its entry" if node.tag in plant.buildings[node.building].entries else "the only building"


def _device(node: DeviceNode, plant: Plant) -> ReadDevice:
    device = node.device
    tenants = plant.tenants(node.tag)
    held = {node.tag, *(tag for tag, other in plant.devices.items() if other.device.on == node.tag and not node.ports)}
    here = tuple(tag for tag, service in plant.services.items() if held & _devices_of(service, plant))
    fitting = plant.fittings.get(node.tag)
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


def _devices_of(service: ServiceNode, plant: Plant) -> frozenset[str]:
    """What a service reaches; of in-home data, what joins its stations."""
    if service.service.kind == IN_HOME:
        return frozenset(plant.traffic.in_home_coax(service.tag).devices)
    return service.devices


def _services_on(link: CableLink, plant: Plant) -> tuple[ServiceNode, ...]:
    """The services that go over a cable, in-home data among them."""
    return tuple(
        node
        for tag, node in plant.services.items()
        if link.tag in (plant.traffic.in_home_coax(tag).cables if node.service.kind == IN_HOME else node.cables)
    )


def _not_made(device: Device) -> str:
    """What a device is whose size the catalogue does not have: ``5-way splitter``."""
    sizes = ((device.ways, "way"), (device.outputs, "output"), (device.inputs, "input"))
    size = next((f"{number}-{word} " for number, word in sizes if number is not None), "")
    return f"{size}{kind_of(device)}"


def _cable(link: CableLink, plant: Plant, analysis: Analysis, portless: dict[Path, str]) -> ReadCable:
    losses, loss_unknown = _losses(link, plant, analysis)
    return ReadCable(
        tag=link.tag,
        near=_end(link.near, portless.get(link.near.path, "")),
        far=_end(link.far, portless.get(link.far.path, "")),
        turned=link.near.path[-1] == "to",
        type=_type(link),
        route=tuple(Stretch(s.tag, s.place is not None, s.length.text) for s in link.segments),
        length=length_read(link.length),
        losses=losses,
        loss_unknown=loss_unknown,
        state=link.cable.state,
        owner=link.cable.owner,
        carries=tuple(node.tag for node in _services_on(link, plant)),
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
        centre=read.centre.name,
        jacket=read.jacket.name,
        by_default=read.defaulted,
        unknown="",
    )


def _losses(link: CableLink, plant: Plant, analysis: Analysis) -> tuple[tuple[ReadLoss, ...], str]:
    reached = _services_on(link, plant)
    edges_hz = band_edges_hz(reached)
    if edges_hz is None:
        return (), "the services on it state no frequencies" if reached else "no service reaches it"
    return tuple(_loss(analysis.line_loss_db(link, freq_hz), freq_hz) for freq_hz in dict.fromkeys(edges_hz)), ""


def _loss(loss_db: Known | Unknown, freq_hz: float) -> ReadLoss:
    if isinstance(loss_db, Unknown):
        return ReadLoss(freq_hz, None, None, None, loss_db.cause)
    return ReadLoss(freq_hz, loss_db.low, loss_db.nominal, loss_db.high, "")


def _entry(entry: Entry, plant: Plant) -> ReadEntry:
    protector = plant.protector_at(entry)
    return ReadEntry(
        cable=entry.cable.tag,
        building=entry.building,
        outside=entry.outside.tag if entry.outside is not None else "",
        inside=entry.inside.tag if entry.inside is not None else "",
        line=_LINES[entry.line].format(source=entry.source or "a building without a name"),
        protector=protector.tag if isinstance(protector, DeviceNode) else "",
        unknown=protector.cause if isinstance(protector, Unknown) else "",
    )
