"""Build the network of a design: look tags up, turn cables, give ports, follow signals and bonds.

Tolerant: what cannot be connected is noted as a fault and left out, so that everything else can still be judged.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping

from coaxwright.catalogue import CableType, Catalogue, UnknownWords, load_catalogue
from coaxwright.design import Cable, Design, Device, Leg, LightningSystem
from coaxwright.design.quantities import Length, total
from coaxwright.design.words import OUTSIDE
from coaxwright.network.bonds import ELECTRODES, BondGraph
from coaxwright.network.devices import entry_of, not_made, ports_of
from coaxwright.network.faults import PortConflict, UndecidedPort, UnknownReference
from coaxwright.network.network import Network
from coaxwright.network.nodes import (
    BondNode,
    BuildingNode,
    CableEnd,
    CableLink,
    DeviceNode,
    PlaceNode,
    Segment,
    ServiceNode,
)
from coaxwright.network.port_assignment import Assignment, Plug, Wire, assign
from coaxwright.network.raceways import RacewayNode, holdings_of
from coaxwright.network.references import References
from coaxwright.network.tags import in_tag_order
from coaxwright.network.tied_electrodes import joined_buildings
from coaxwright.network.values import Unknown
from coaxwright.source import Path

UNNAMED = ""
"""The building that indoor places belong to where the design names none."""


def build_network(design: Design, catalogue: Catalogue | None = None) -> Network:
    """The network of a design."""
    return _Builder(design, catalogue or load_catalogue()).build()


class _Builder:
    def __init__(self, design: Design, catalogue: Catalogue) -> None:
        self.design = design
        self.catalogue = catalogue
        self.references = References()
        self.types: dict[str, CableType | UnknownWords] = {}
        self.fitted: list[Plug] = []
        # Everything is built in the order of the tags, and stays so: no order of the file can show later on.
        self.buildings_written = in_tag_order(design.buildings)
        self.places_written = in_tag_order(design.places)
        self.services_written = in_tag_order(design.services)
        self.devices_written = in_tag_order(design.devices)
        self.cables_written = in_tag_order(design.cables)
        self.bonding_written = in_tag_order(design.bonding)
        self.electrodes = {tag: item for tag, item in self.bonding_written.items() if item.kind in ELECTRODES}

    def build(self) -> Network:
        buildings = self.buildings()
        places = self.places(buildings)
        self.raceway_nodes = self.raceways()
        devices = {tag: self.device(tag, device, places) for tag, device in self.devices_written.items()}
        ends = {tag: self.cable_ends(tag, cable, devices) for tag, cable in self.cables_written.items()}
        assignment = self.assign(devices, ends)
        links = {
            tag: self.link(tag, cable, ends[tag], devices, places, assignment)
            for tag, cable in self.cables_written.items()
        }
        bonds, bond_ends = self.bonds(devices, places)
        dead = frozenset(
            f"{tag}.mast" for tag, node in devices.items() if node.mast is not None and not node.mast.metal
        )
        graph = BondGraph(bonds, bond_ends, dead)
        leaving: dict[str, list[CableLink]] = defaultdict(list)
        for link in links.values():
            if link.in_use and link.near.device is not None:
                leaving[link.near.device.tag].append(link)
        services = {tag: self.service(tag, devices, leaving) for tag in self.services_written}
        self.check_serves(services)
        self.check_papers(devices)
        return Network(
            design=self.design,
            catalogue=self.catalogue,
            buildings=buildings,
            places=places,
            devices=devices,
            cables=links,
            bonds=bonds,
            services=services,
            raceways=self.raceway_nodes,
            bonding=graph,
            joined_buildings=joined_buildings(
                buildings, bonds, {tag: ends for tag, ends in bond_ends.items() if not dead.intersection(ends)}
            ),
            unknown_references=tuple[UnknownReference, ...](self.references.unknown),
            undecided_ports=tuple[UndecidedPort, ...](assignment.undecided),
            port_conflicts=tuple[PortConflict, ...](assignment.conflicts),
            fittings={plug.owner: self.fitting(plug, devices, assignment) for plug in self.fitted},
        )

    def buildings(self) -> dict[str, BuildingNode]:
        nodes: dict[str, BuildingNode] = {}
        for tag, building in self.buildings_written.items():
            path: Path = ("buildings", tag, "entry")
            written = building.entry
            if isinstance(written, str):
                entries = [self.references.find(written, self.places_written, "place", path)]
            else:
                entries = [
                    self.references.find(entry, self.places_written, "place", (*path, index))
                    for index, entry in enumerate(written or ())
                ]
            tied = [
                self.references.find(other, self.buildings_written, "building", ("buildings", tag, "tied to", index))
                for index, other in enumerate(building.tied_to or ())
            ]
            for key, place in (("service equipment", building.service_equipment), ("meter", building.meter)):
                self.references.find(place, self.places_written, "place", ("buildings", tag, key))
            system = building.lightning_system
            if isinstance(system, LightningSystem):
                at: Path = ("buildings", tag, "lightning system", "electrode")
                self.references.find(system.electrode, self.electrodes, "electrode", at)
            nodes[tag] = BuildingNode(tag, building, _there(entries), _there(tied))
        return nodes

    def raceways(self) -> dict[str, RacewayNode]:
        nodes: dict[str, RacewayNode] = {}
        for tag, raceway in in_tag_order(self.design.raceways).items():
            places = [
                self.references.find(place, self.places_written, "place", ("raceways", tag, "places", index))
                for index, place in enumerate(raceway.places or ())
            ]
            holds = tuple(holdings_of(raceway, ("raceways", tag)))
            nodes[tag] = RacewayNode(tag, raceway, _there(places), holds)
        return nodes

    def places(self, buildings: Mapping[str, BuildingNode]) -> dict[str, PlaceNode]:
        only = next(iter(buildings)) if len(buildings) == 1 else UNNAMED if not buildings else None
        entry_of = {entry: node.tag for node in buildings.values() for entry in node.entries}
        nodes: dict[str, PlaceNode] = {}
        for tag, place in self.places_written.items():
            path: Path = ("places", tag, "building")
            building = self.references.find(place.building, self.buildings_written, "building", path)
            if building is None and place.building is None:
                building = entry_of.get(tag)
            if building is None and place.building is not None and place.exposure not in OUTSIDE:
                building = UNNAMED  # indoors of a building whose tag names nothing: nobody knows which
            if building is None and place.building is None:
                if place.exposure not in OUTSIDE:
                    building = only if only is not None else UNNAMED
                elif place.exposure != "buried" and only is not None and not entry_of:
                    # With one building and no entry named, a wall or roof in the open is that building's.
                    building = only
            nodes[tag] = PlaceNode(tag, place, building)
        return nodes

    def device(self, tag: str, device: Device, places: Mapping[str, PlaceNode]) -> DeviceNode:
        place = self.references.find(device.place, places, "place", ("devices", tag, "place"))
        entry = entry_of(device, self.catalogue)
        if entry is None:
            self.references.unknown.append(not_made(tag, device, self.catalogue))
        ports = ports_of(device, entry, self.catalogue)
        for name in device.ports or ():
            known = {port.name: port for port in ports}
            if name not in known:
                self.references.miss(name, known, f"port of {tag}", ("devices", tag, "ports", name))
        return DeviceNode(tag, device, entry, ports, places[place] if place else None)

    def cable_ends(self, tag: str, cable: Cable, devices: Mapping[str, DeviceNode]) -> tuple[Plug | None, Plug | None]:
        def plug(key: str, written: str) -> Plug | None:
            path: Path = ("cables", tag, key)
            device, port = self.references.device_and_port(written, devices, path)
            return Plug(tag, path, device, port) if device is not None else None

        return plug("from", cable.from_), plug("to", cable.to)

    def assign(
        self, devices: Mapping[str, DeviceNode], ends: Mapping[str, tuple[Plug | None, Plug | None]]
    ) -> Assignment:
        for tag, node in devices.items():
            path: Path = ("devices", tag, "on")
            if node.device.kind == "LNB":  # it sits in front of its dish and takes no port of it
                self.references.find(node.device.on, devices, "device", path)
            elif node.device.on is not None and node.in_use:
                device, port = self.references.device_and_port(node.device.on, devices, path)
                if device is not None:
                    self.fitted.append(Plug(tag, path, device, port))
        wires = [Wire(tag, both) for tag, both in ends.items() if self.cables_written[tag].state != "abandoned"]
        return assign({tag: node.ports for tag, node in devices.items()}, wires, self.fitted)

    def fitting(self, plug: Plug, devices: Mapping[str, DeviceNode], assignment: Assignment) -> CableEnd:
        written = self.devices_written[plug.owner].on or ""
        return CableEnd(plug.path, written, devices[plug.device], assignment.ports.get(plug.path))

    def link(
        self,
        tag: str,
        cable: Cable,
        plugs: tuple[Plug | None, Plug | None],
        devices: Mapping[str, DeviceNode],
        places: Mapping[str, PlaceNode],
        assignment: Assignment,
    ) -> CableLink:
        ends = []
        for key, written, plug in (("from", cable.from_, plugs[0]), ("to", cable.to, plugs[1])):
            path: Path = ("cables", tag, key)
            device = devices[plug.device] if plug is not None else None
            ends.append(CableEnd(path, written, device, assignment.ports.get(path)))
        segments = tuple(self.segments(("cables", tag), cable.route, places))
        if tag in assignment.turned:
            ends.reverse()
            segments = segments[::-1]
        cable_type = self.types.get(cable.type)
        if cable_type is None:
            cable_type = self.types[cable.type] = self.catalogue.cable_type(cable.type)
        if isinstance(cable_type, UnknownWords):
            self.note_type(tag, cable_type)
        return CableLink(tag, cable, cable_type, ends[0], ends[1], segments, self.length(tag, cable, segments))

    def note_type(self, tag: str, words: UnknownWords) -> None:
        meant = words.text.replace(words.word, words.nearest, 1) if words.nearest else None
        self.references.unknown.append(
            UnknownReference(("cables", tag, "type"), words.text, "cable type", words.choices, words.nearest, meant)
        )

    def segments(
        self, owner: Path, route: list[dict[str, Length | Leg]] | None, places: Mapping[str, PlaceNode]
    ) -> Iterator[Segment]:
        for index, entry in enumerate(route or ()):
            for place, leg in entry.items():
                path: Path = (*owner, "route", index, place)
                known = self.references.find(place, places, "place", path)
                node = places[known] if known is not None else None
                if not isinstance(leg, Leg):
                    yield Segment(node, place, leg, path)
                    continue
                raceway = self.references.find(leg.in_, self.raceway_nodes, "raceway", (*path, "in"))
                yield Segment(node, place, leg.length, path, leg, self.raceway_nodes[raceway] if raceway else None)

    def length(self, tag: str, cable: Cable, segments: tuple[Segment, ...]) -> Length | Unknown:
        if segments:
            return total([segment.length for segment in segments])
        return cable.length or Unknown("neither length nor route", ("cables", tag, "length"), {"cable": tag})

    def bonds(
        self, devices: Mapping[str, DeviceNode], places: Mapping[str, PlaceNode]
    ) -> tuple[dict[str, BondNode], dict[str, tuple[str | None, str | None]]]:
        nodes: dict[str, BondNode] = {}
        ends: dict[str, tuple[str | None, str | None]] = {}
        masts = {f"{tag}.mast" for tag, node in devices.items() if node.mast is not None}
        known = dict.fromkeys((*devices, *sorted(masts), *self.bonding_written))
        for tag, item in self.bonding_written.items():
            place = self.references.find(item.place, places, "place", ("bonding", tag, "place"))
            segments = tuple(self.segments(("bonding", tag), item.route, places))
            length = total([segment.length for segment in segments]) if segments else item.length
            nodes[tag] = BondNode(tag, item, places[place] if place else None, segments, length)
            if item.electrode is not None and item.electrode != "service":
                known_electrodes = {one: None for one in ("service", *self.electrodes) if one != tag}
                self.references.find(item.electrode, known_electrodes, "electrode", ("bonding", tag, "electrode"))
            if item.kind == "bonding conductor":
                ends[tag] = (
                    self.references.find(item.from_, known, "thing to bond", ("bonding", tag, "from")),
                    self.references.find(item.to, known, "thing to bond to", ("bonding", tag, "to")),
                )
        return nodes, ends

    def service(
        self, tag: str, devices: Mapping[str, DeviceNode], leaving: Mapping[str, list[CableLink]]
    ) -> ServiceNode:
        """Follow a service from its device along the direction of the signal."""
        service = self.services_written[tag]
        start = self.references.find(service.from_, devices, "device", ("services", tag, "from"))
        reached: set[str] = set()
        cables: set[str] = set()
        queue = [start] if start is not None else []
        while queue:
            here = queue.pop()
            if here in reached:
                continue
            reached.add(here)
            for link in leaving.get(here, ()):
                cables.add(link.tag)
                if link.far.device is not None:
                    queue.append(link.far.device.tag)
        return ServiceNode(tag, service, frozenset(cables), frozenset(reached))

    def check_papers(self, devices: Mapping[str, DeviceNode]) -> None:
        """What is said in passing: masts that are shared, kits, the records of readings."""
        sections = (self.devices_written, self.cables_written, self.bonding_written, self.design.raceways)
        anything = dict.fromkeys(tag for section in (*sections, self.places_written) for tag in section)
        records = self.design.records
        for tag, device in self.devices_written.items():
            if device.mast is not None:
                self.references.find(device.mast.of, devices, "device", ("devices", tag, "mast", "of"))
            for index, item in enumerate(device.kit or ()):
                self.references.find(item, anything, "thing", ("devices", tag, "kit", index))
        for section, things in (
            ("devices", self.devices_written),
            ("cables", self.cables_written),
            ("bonding", self.bonding_written),
        ):
            for tag, thing in things.items():
                for index, reading in enumerate(thing.readings or ()):
                    path: Path = (section, tag, "readings", index, "record")
                    self.references.find(reading.record, records, "record", path)

    def check_serves(self, services: Mapping[str, ServiceNode]) -> None:
        for tag, device in self.devices_written.items():
            for index, wanted in enumerate(device.serves or ()):
                self.references.find(wanted, services, "service", ("devices", tag, "serves", index))


def _there(found: Iterable[str | None]) -> tuple[str, ...]:
    """What names something, of several references."""
    return tuple(tag for tag in found if tag is not None)
