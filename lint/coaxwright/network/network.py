"""The network of a design, built once and never changed, and the questions it answers."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from functools import cached_property
from typing import TypeVar

from coaxwright.catalogue import Catalogue, Port
from coaxwright.catalogue import Direction as PortDirection
from coaxwright.design import Design
from coaxwright.design.words import OUTSIDE, Exposure, Occupancy
from coaxwright.network.bondables import Bondable, bondables
from coaxwright.network.bonding_queries import Bonded
from coaxwright.network.bonds import BondGraph, BondPath
from coaxwright.network.device_passages import Passage
from coaxwright.network.entries import Entry, EntryFinder, Line
from coaxwright.network.faults import PortConflict, UndecidedPort, UnknownReference
from coaxwright.network.feeds import Feed, by_cable, feed_of
from coaxwright.network.nodes import (
    BondNode,
    BuildingNode,
    CableEnd,
    CableLink,
    DeviceNode,
    Direction,
    PlaceNode,
    Segment,
    ServiceNode,
)
from coaxwright.network.queries import Survey
from coaxwright.network.raceways import RacewayNode
from coaxwright.network.runs import LeadIn, Run, lead_in, runs
from coaxwright.network.service_demand import ServiceDemand, receiving_port
from coaxwright.network.signals import Arrival, Grid, Signal, SignalGraph, follow
from coaxwright.network.stretches import Stretches, stretches
from coaxwright.network.traffic import Traffic
from coaxwright.network.values import Unknown
from coaxwright.source import Path

_F = TypeVar("_F", UnknownReference, UndecidedPort)


@dataclass(frozen=True)
class Network:
    """Devices, cables and bonds by tag and in tag order, with what the builder could not connect."""

    design: Design
    catalogue: Catalogue
    buildings: Mapping[str, BuildingNode]
    places: Mapping[str, PlaceNode]
    devices: Mapping[str, DeviceNode]
    cables: Mapping[str, CableLink]
    bonds: Mapping[str, BondNode]
    services: Mapping[str, ServiceNode]
    raceways: Mapping[str, RacewayNode]
    bonding: BondGraph
    joined_buildings: Mapping[str, frozenset[str]]
    """For each building, those whose electrode systems are joined with its own, itself among them."""
    unknown_references: tuple[UnknownReference, ...]
    undecided_ports: tuple[UndecidedPort, ...]
    port_conflicts: tuple[PortConflict, ...]
    fittings: Mapping[str, CableEnd] = field(default_factory=dict)
    """Parts screwed onto a device, such as terminators, with the port each takes."""

    def cables_at(self, device: str) -> tuple[CableLink, ...]:
        """The cables joined to a device, in tag order."""
        return self._cables_at.get(device, ())

    @cached_property
    def _cables_at(self) -> dict[str, tuple[CableLink, ...]]:
        joined: dict[str, list[CableLink]] = defaultdict(list)
        for link in self.cables.values():
            for device in {end.device.tag for end in link.ends if end.device is not None}:
                joined[device].append(link)
        return {device: tuple(links) for device, links in joined.items()}

    def tenants(self, device: str) -> Mapping[str, str]:
        """The ports of a device that are taken, by name, each with the cable in use or the part that takes it."""
        return self._tenants.get(device, {})

    @cached_property
    def _tenants(self) -> dict[str, dict[str, str]]:
        taken: dict[str, dict[str, str]] = defaultdict(dict)
        joined = [(link.tag, end) for link in self.cables.values() if link.in_use for end in link.ends]
        for tag, end in (*joined, *self.fittings.items()):
            if end.device is not None and end.port is not None:
                taken[end.device.tag][end.port.name] = tag
        for tag, end in self.fittings.items():
            if end.device is not None and end.port is not None and self.devices[tag].ports:
                taken[tag][self.devices[tag].ports[0].name] = end.device.tag
        return dict(taken)

    def free_ports(self, device: str) -> tuple[Port, ...]:
        """The ports of a device that nothing takes, in the device's own order."""
        taken = self.tenants(device)
        return tuple(port for port in self.devices[device].ports if port.name not in taken)

    def signal(self, service: str, direction: Direction, grid_hz: Grid | None = None) -> Signal:
        """Where a service goes, or, upstream, whence it comes, port by port.

        ``grid_hz``: the frequencies asked for [Hz]; those that the service states where it is left out.
        Raises KeyError for a service that is not there.
        """
        node = self.services[service]
        grid = node.grid_hz(direction) if grid_hz is None else grid_hz
        key = (service, direction, grid)
        if key not in self._signals:
            start = self.devices.get(node.service.from_)
            if start is None:
                return Signal(grid, (), (), ())
            self._signals[key] = follow(self.graph, self._senders(start), grid, backwards=direction == "up")
        return self._signals[key]

    @cached_property
    def _signals(self) -> dict[tuple[str, Direction, Grid], Signal]:
        return {}

    def _senders(self, start: DeviceNode) -> tuple[tuple[DeviceNode, Port], ...]:
        """The ports at which a service begins: those of its device; of a dish, those of the LNBs in front of it."""
        nodes = [start, *self._lnbs_on.get(start.tag, ())]
        return tuple((n, port) for n in nodes if n.in_use for port in n.ports if port.direction is not PortDirection.IN)

    @cached_property
    def _lnbs_on(self) -> dict[str, list[DeviceNode]]:
        found: dict[str, list[DeviceNode]] = defaultdict(list)
        for node in self.devices.values():
            if node.device.kind == "LNB" and node.device.on is not None:
                found[node.device.on].append(node)
        return found

    def outlets_of(self, service: str) -> tuple[DeviceNode, ...]:
        """The devices at which a service is wanted, in tag order."""
        return self._wishes.outlets_of(self.services[service])

    def answering(self, service: str) -> tuple[DeviceNode, ...]:
        """The modems of a service; where it draws none, the outlets at which one may be plugged in."""
        return self._wishes.answering(self.services[service])

    @cached_property
    def _wishes(self) -> ServiceDemand:
        return ServiceDemand(self.devices.values())

    def arrivals_at(self, signal: Signal, device: DeviceNode) -> tuple[Arrival, ...]:
        """The ways by which a signal comes to the port of a device at which a set is served, each with frequencies of
        its own: a diplexer may send some another way than others."""
        port = receiving_port(device)
        return tuple(one for one in signal.ports_of(device.tag) if one.port is port or one.port == port)

    def arrival_at(self, signal: Signal, device: DeviceNode) -> Arrival | None:
        """The nearest of these ways; None where the signal does not come."""
        return next(iter(self.arrivals_at(signal, device)), None)

    @cached_property
    def graph(self) -> SignalGraph:
        """What each port is joined to."""
        fittings = {
            tag: (self.devices[tag], end.device, end.port)
            for tag, end in self.fittings.items()
            if end.device is not None and end.port is not None
        }
        return SignalGraph(self.cables, fittings)

    @cached_property
    def traffic(self) -> Traffic:
        """Where services go together, and what they meet on their ways."""
        return Traffic(self)

    def passages(self, service: str) -> tuple[Passage, ...]:
        """The devices that a service passes on its way to where it is wanted."""
        return self.traffic.passages(service)

    def feed(self, device: str) -> Feed | None:
        """How a device is fed with power over the coax; None where it takes none from it."""
        return feed_of(self.graph, self.devices[device])

    def feeds_over(self, cable: str) -> tuple[Feed, ...]:
        """The feeds whose way from what feeds them goes over a cable, in the tag order of what is fed."""
        return self._feeds_over.get(cable, ())

    @cached_property
    def _feeds_over(self) -> dict[str, tuple[Feed, ...]]:
        return by_cable(self.feed(device) for device in self.devices)

    @cached_property
    def on_feeds(self) -> frozenset[str]:
        """The devices that a direct-current feed passes, or begins or ends at."""
        feeds = [feed for tag in self.devices if (feed := self.feed(tag)) is not None]
        return frozenset(tag for feed in feeds for tag in (feed.device.tag, *(leg.device.tag for leg in feed.legs)))

    def contents(self, raceway: str) -> tuple[tuple[CableLink, Segment], ...]:
        """The cables in use that run in a raceway, each with its stretch there, in tag order."""
        return self._contents.get(raceway, ())

    @cached_property
    def _contents(self) -> dict[str, tuple[tuple[CableLink, Segment], ...]]:
        held: dict[str, list[tuple[CableLink, Segment]]] = defaultdict(list)
        for link in self.cables.values():
            for segment in link.segments if link.in_use else ():
                if segment.raceway is not None:
                    held[segment.raceway.tag].append((link, segment))
        return {raceway: tuple(contents) for raceway, contents in held.items()}

    def are_joined(self, one: str, other: str) -> bool:
        """Whether the electrode systems of two buildings are joined."""
        return one == other or other in self.joined_buildings.get(one, ())

    def services_on(self, cable: str) -> tuple[ServiceNode, ...]:
        """The services that a cable carries, in tag order."""
        return self._services_on.get(cable, ())

    @cached_property
    def _services_on(self) -> dict[str, tuple[ServiceNode, ...]]:
        carried: dict[str, list[ServiceNode]] = defaultdict(list)
        for node in self.services.values():
            for cable in node.cables:
                carried[cable].append(node)
        return {cable: tuple(nodes) for cable, nodes in carried.items()}

    def references_of(self, item: Path) -> tuple[UnknownReference, ...]:
        """What is written in an item and names nothing."""
        return self._references_of.get(item, ())

    @cached_property
    def _references_of(self) -> dict[Path, tuple[UnknownReference, ...]]:
        return _by_item(self.unknown_references)

    def undecided_of(self, item: Path) -> tuple[UndecidedPort, ...]:
        """What is written in an item and could mean one of several unlike ports."""
        return self._undecided_of.get(item, ())

    @cached_property
    def _undecided_of(self) -> dict[Path, tuple[UndecidedPort, ...]]:
        return _by_item(self.undecided_ports)

    @cached_property
    def misnamed(self) -> frozenset[Path]:
        """The items in which something is written that names nothing, or no one port."""
        return frozenset((*self._references_of, *self._undecided_of))

    def loose_reference(self, conductor: BondNode) -> tuple[Path, str]:
        """The end of a bonding conductor that names nothing: where it is written, and what."""
        for fault in self.references_of(conductor.path):
            if fault.path[-1] in ("from", "to"):
                return fault.path, fault.written
        raise LookupError(f"{conductor.tag} has no loose end")

    @cached_property
    def runs(self) -> tuple[Run, ...]:
        """Every run of cables joined end to end."""
        return tuple(runs(self))

    @cached_property
    def stretches(self) -> Stretches:
        """The cables in use by what is drawn of their stretches."""
        return stretches(self.cables.values())

    @cached_property
    def survey(self) -> Survey:
        """What can only be told of the network as a whole."""
        return Survey(self)

    def lead_in(self, antenna: DeviceNode) -> LeadIn:
        """The coax of an antenna down to its first protector."""
        return lead_in(self, antenna)

    @cached_property
    def entries(self) -> tuple[Entry, ...]:
        """Every place where a cable in use passes a building's envelope."""
        return tuple(self._finder.entries())

    @cached_property
    def _finder(self) -> EntryFinder:
        return EntryFinder(self.cables, self.cables_at)

    def protector_at(self, entry: Entry) -> DeviceNode | Unknown | None:
        """The ground block or protector that serves an entry; Unknown where the way to it is not known."""
        if self.buildings and entry.building not in self.buildings and entry.inside is not None:
            place = entry.inside.tag
            return Unknown("place without building", ("places", place, "building"), {"place": place})
        return self._finder.protector(entry)

    @cached_property
    def bondables(self) -> tuple[Bondable, ...]:
        """Everything whose metal has to be bonded, in tag order, masts behind their antenna's own body."""
        return tuple(bondables(self))

    @cached_property
    def bond_paths(self) -> Mapping[str, BondPath | None]:
        """For each thing to bond, its way to an electrode."""
        return {bondable.reference: self.bonding.path(bondable.reference) for bondable in self.bondables}

    @cached_property
    def _bonded(self) -> Bonded:
        return Bonded(self)

    def bonded_over(self, conductor: str) -> tuple[Bondable, ...]:
        """The things whose way to an electrode goes over a bonding conductor."""
        return self._bonded.over(conductor)

    def bonded_beyond(self, conductor: str) -> tuple[BondNode, ...]:
        """The terminations that a bonding conductor joins to the building's electrodes, where something needs them."""
        return self._bonded.beyond(conductor)

    def bonded_at(self, electrode: str) -> tuple[Bondable, ...]:
        """The things whose way ends at an electrode or termination."""
        return self._bonded.at(electrode)

    def bonding_point(self, building: str | None) -> BondNode | None:
        """Where a new bond in a building would be brought to: its termination, else the best electrode shown."""
        return self._bonded.point(building)

    def line_of(self, node: DeviceNode) -> Line:
        """What the coax at a protector comes from out of doors: an antenna or a drop before anything else."""
        lines = set(self._lines_protected.get(node.tag, ()))
        own = node.place.building if node.place is not None else None
        for link in self.cables_at(node.tag):
            lines.add(self._finder.line_outside(link, link.other_end(node.tag), own)[0])
        order: tuple[Line, ...] = ("antenna", "coax drop", "inter-building", "outdoors")
        return next(line for line in order if line in lines or line == "outdoors")

    @cached_property
    def _lines_protected(self) -> dict[str, set[Line]]:
        """For each protector, what the coax of the entries it serves comes from."""
        lines: dict[str, set[Line]] = defaultdict(set)
        for entry in self.entries:
            protector = self.protector_at(entry)
            if isinstance(protector, DeviceNode):
                lines[protector.tag].add(entry.line)
        return lines

    def conflicts_at(self, device: str) -> tuple[PortConflict, ...]:
        """The ports of a device that more than one cable wants."""
        return self._conflicts_at.get(device, ())

    @cached_property
    def _conflicts_at(self) -> dict[str, tuple[PortConflict, ...]]:
        found: dict[str, list[PortConflict]] = defaultdict(list)
        for conflict in self.port_conflicts:
            found[conflict.device].append(conflict)
        return {device: tuple(conflicts) for device, conflicts in found.items()}

    def exposed_segments(self, link: CableLink, exposures: frozenset[Exposure]) -> tuple[Segment, ...] | Unknown:
        """The stretches of a cable's route in places of these exposures, or what is missing to tell them.

        A cable with a length alone, between two indoor places of one building, is taken to run indoors.
        """
        if link.segments:
            for segment in link.segments:
                if segment.place is None:
                    return Unknown("no such place", segment.path, {"place": segment.tag})
            return tuple(s for s in link.segments if s.place is not None and s.place.exposure in exposures)
        buildings = set()
        for end in link.ends:
            if end.device is None:
                return Unknown("no such device", end.path, {"written": end.written})
            place = end.device.place
            if place is None or place.exposure in OUTSIDE or place.building is None:
                return Unknown("no route", (*link.path, "route"), {"cable": link.tag})
            buildings.add(place.building)
        return () if len(buildings) == 1 else Unknown("no route", (*link.path, "route"), {"cable": link.tag})

    def occupancy(self, building: str | None) -> Occupancy | Unknown:
        """What a building is used as."""
        node = self.buildings.get(building) if building is not None else None
        if node is not None and node.building.occupancy is not None:
            return node.building.occupancy
        return self.design.basis.occupancy or Unknown("no occupancy", ("basis", "occupancy"))


def _by_item(faults: Iterable[_F]) -> dict[Path, tuple[_F, ...]]:
    """Faults by the section and tag they are written in."""
    found: dict[Path, list[_F]] = defaultdict(list)
    for fault in faults:
        found[fault.path[:2]].append(fault)
    return {item: tuple(faults) for item, faults in found.items()}
