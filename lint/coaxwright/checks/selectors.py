"""The closed set of selectors: what rules can be about."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace

from coaxwright.catalogue import CableClass, CableType
from coaxwright.checks.contract import Selector
from coaxwright.checks.subjects import Subject
from coaxwright.design import Variance
from coaxwright.design.fields import Part
from coaxwright.design.words import AERIALS
from coaxwright.frozen_value import frozen_value
from coaxwright.network import (
    Bondable,
    BondNode,
    CableLink,
    DeviceNode,
    Entry,
    JoinedBuildings,
    Network,
    PlaceNode,
    RacewayNode,
    Run,
    ServiceNode,
)
from coaxwright.network.backfeed import senders
from coaxwright.network.bonds import OWN_POINTS
from coaxwright.network.device_passages import Passage
from coaxwright.network.service_overlap import IN_HOME, Pair
from coaxwright.source import Path

_KINDS = {
    "buildings": "building",
    "places": "place",
    "services": "service",
    "devices": "device",
    "cables": "cable",
    "raceways": "raceway",
    "bonding": "bonding item",
    "records": "record",
}
_STATED = "stated by the author"
"""The confidence of a figure that a design or a firm's file states."""


@frozen_value
class Item:
    """Anything with a tag, whatever its section."""

    section: str
    tag: str
    thing: Part

    @property
    def path(self) -> Path:
        return (self.section, self.tag)


def _cables(network: Network) -> Iterator[CableLink]:
    return (link for link in network.cables.values() if link.in_use)


def _cables_laid(network: Network) -> Iterable[CableLink]:
    return network.cables.values()


def _cable(link: CableLink) -> Subject:
    places = dict.fromkeys(segment.tag for segment in link.segments)
    return Subject(
        "cable", link.tag, link.path, where=_route(list(places)), owner=link.cable.owner, state=link.cable.state
    )


def _runs(network: Network) -> Iterable[Run]:
    return network.runs


def _run(run: Run) -> Subject:
    cable = run.first
    places = dict.fromkeys(segment.tag for link in run.cables for segment in link.segments)
    return Subject(
        "cable", cable.tag, cable.path, where=_route(list(places)), owner=cable.cable.owner, state=cable.cable.state
    )


def _devices(network: Network) -> Iterator[DeviceNode]:
    return (node for node in network.devices.values() if node.in_use)


def _device(node: DeviceNode) -> Subject:
    device = node.device
    return Subject("device", node.tag, node.path, "", place_words(node.place), device.owner, device.state)


def _outdoor_antennas(network: Network) -> Iterator[DeviceNode]:
    return (
        node
        for node in _devices(network)
        if node.device.kind in AERIALS and node.place is not None and node.place.is_outside
    )


def _entries(network: Network) -> Iterable[Entry]:
    return network.entries


def _entry(entry: Entry) -> Subject:
    cable = entry.cable.cable
    building = entry.building or "the building"
    return Subject(
        "cable", entry.cable.tag, entry.cable.path, building, place_words(entry.outside), cable.owner, cable.state
    )


def _bondables(network: Network) -> Iterable[Bondable]:
    return network.bondables


def _bondable(bondable: Bondable) -> Subject:
    subject = _device(bondable.device)
    return Subject(
        "device",
        subject.tag,
        bondable.path,
        "mast" if bondable.is_mast else "",
        subject.where,
        subject.owner,
        subject.state,
    )


@frozen_value
class WantedAt:
    """A service, and an outlet or receiver where it is wanted."""

    service: ServiceNode
    device: DeviceNode


def _wanted(network: Network) -> Iterator[WantedAt]:
    for service in network.services.values():
        for device in network.outlets_of(service.tag):
            yield WantedAt(service, device)


def _wanted_at(wanted: WantedAt) -> Subject:
    node = wanted.device
    device = node.device
    return Subject(
        "device", node.tag, node.path, wanted.service.tag, place_words(node.place), device.owner, device.state
    )


def _conductors(network: Network) -> Iterator[BondNode]:
    return (node for node in network.bonds.values() if node.item.kind == "bonding conductor" and node.in_use)


def _conductor(node: BondNode) -> Subject:
    item = node.item
    where = " to ".join((str(item.from_), str(item.to)))
    return Subject("bonding conductor", node.tag, node.path, "", where, item.owner, item.state)


def _own_electrodes(network: Network) -> Iterator[BondNode]:
    kinds = {*OWN_POINTS, "lightning electrode system"}
    return (node for node in network.bonds.values() if node.item.kind in kinds and node.in_use)


def _own_electrode(node: BondNode) -> Subject:
    item = node.item
    return Subject(item.kind, node.tag, node.path, "", place_words(node.place), item.owner, item.state)


def _electrodes(network: Network) -> Iterator[BondNode]:
    return (node for node in network.bonds.values() if node.item.kind != "bonding conductor" and node.in_use)


def _building_pairs(network: Network) -> Iterable[JoinedBuildings]:
    return network.survey.buildings_in_touch


def _building_pair(pair: JoinedBuildings) -> Subject:
    return Subject("building", pair.one, ("buildings", pair.one), pair.other)


@frozen_value
class OwnClass:
    """A cable class that the design, or a firm's file, adds to the catalogue."""

    cable_class: CableClass
    place: Path
    """Where it is written; of a firm's file, where the first cable of the design names it."""
    is_here: bool
    """Whether it is written in the design itself."""

    def states(self, *figures: str) -> bool:
        """Whether all of these figures are its author's own, and not taken from another class."""
        sources = self.cable_class.sources
        return all(figure in sources and sources[figure].confidence == _STATED for figure in figures)


def _own_classes(network: Network) -> Iterator[OwnClass]:
    own = network.catalogue.own
    written = network.design.catalogue.data.get("classes") if network.design.catalogue is not None else None
    here = written if isinstance(written, Mapping) else {}
    named: dict[str, Path] = {}
    for link in network.cables.values() if own else ():
        if link.in_use and isinstance(link.type, CableType):
            named.setdefault(link.type.cable_class.name, (*link.path, "type"))
    for name, made in network.catalogue.every_class.items():
        if name in own and (name in here or name in named):
            place = ("catalogue", "classes", name) if name in here else named[name]
            yield OwnClass(made, place, name in here)


def _own_class(own: OwnClass) -> Subject:
    name = own.cable_class.name
    return Subject("cable class", name, ("classes", name))


def _passages(network: Network) -> Iterator[Passage]:
    for service in network.services:
        yield from network.passages(service)


def _passage(passage: Passage) -> Subject:
    subject = _device(passage.device)
    return replace(subject, second=passage.service.tag)


def _pairs(network: Network) -> Iterable[Pair]:
    return network.traffic.pairs


def _pair(pair: Pair) -> Subject:
    return Subject("service", pair.one.tag, ("services", pair.one.tag), pair.other.tag)


def _in_home(network: Network) -> Iterator[ServiceNode]:
    return (node for node in network.services.values() if node.service.kind == IN_HOME)


def _services(network: Network) -> Iterable[ServiceNode]:
    return network.services.values()


def _service(node: ServiceNode) -> Subject:
    return Subject("service", node.tag, ("services", node.tag))


def _items(network: Network) -> Iterator[Item]:
    for section in _KINDS:
        for tag, thing in getattr(network.design, section).items():
            yield Item(section, tag, thing)


def _reserve(network: Network) -> Iterator[Item]:
    found = (
        ("devices", network.design.devices),
        ("cables", network.design.cables),
        ("raceways", network.design.raceways),
    )
    return (Item(section, tag, one) for section, all_ in found for tag, one in all_.items() if one.state == "reserve")


def _item(item: Item) -> Subject:
    place, owner, state = (getattr(item.thing, name, "") for name in ("place", "owner", "state"))
    where = place if isinstance(place, str) else ""
    return Subject(_KINDS[item.section], item.tag, item.path, "", where, owner or "owner", state or "new")


@frozen_value
class Granted:
    """A rule and a thing for which a variance is granted, with every entry of the design that says so."""

    rule: str
    item: str
    facet: str
    entries: tuple[tuple[int, Variance], ...]
    """Each with its place in the list, from 0."""


def _granted(network: Network) -> Iterator[Granted]:
    alike: dict[tuple[str, str, str], list[tuple[int, Variance]]] = {}
    for index, variance in enumerate(network.design.variances or ()):
        alike.setdefault((variance.rule, variance.item, variance.facet or ""), []).append((index, variance))
    for (rule, item, facet), entries in alike.items():
        yield Granted(rule, item, facet, tuple(entries))


def _grant(granted: Granted) -> Subject:
    second = ", ".join((granted.rule, granted.facet)) if granted.facet else granted.rule
    return Subject("variance", granted.item, ("variances", granted.item), second)


def _raceways(network: Network) -> Iterator[RacewayNode]:
    return (node for node in network.raceways.values() if node.in_use)


def _raceway(node: RacewayNode) -> Subject:
    raceway = node.raceway
    return Subject("raceway", node.tag, node.path, "", _route(list(node.places)), raceway.owner, raceway.state)


def place_words(place: PlaceNode | None) -> str:
    """A place for people: ``north wall, house``."""
    if place is None:
        return ""
    return ", ".join((place.tag, place.building)) if place.building else place.tag


def _route(places: list[str]) -> str:
    return places[0] if len(places) == 1 else " to ".join((places[0], places[-1])) if places else ""


ITEM = Selector("thing with a tag", _items, _item)
RESERVE = Selector("thing kept in reserve", _reserve, _item)
DEVICE = Selector("device", _devices, _device)
CABLE = Selector("cable", _cables, _cable)
CABLE_LAID = Selector("cable, also an abandoned one", _cables_laid, _cable)
RUN = Selector("run of cable", _runs, _run)
ENTRY = Selector("entry of a cable into a building", _entries, _entry)
OUTDOOR_ANTENNA = Selector("outdoor antenna", _outdoor_antennas, _device)
OUTLET_AND_SERVICE = Selector("outlet and service wanted there", _wanted, _wanted_at)
BONDABLE = Selector("protector and metal mast", _bondables, _bondable)
BONDING_CONDUCTOR = Selector("bonding conductor", _conductors, _conductor)
OWN_CLASS = Selector("cable class of the design's own", _own_classes, _own_class)

SENDER = Selector("aerial and generator", senders, _device)
PASSAGE = Selector("device that a service passes", _passages, _passage)
PAIR = Selector("pair of services on one coax", _pairs, _pair)
IN_HOME_DATA = Selector("in-home data service", _in_home, _service)
SERVICE = Selector("service", _services, _service)
OWN_ELECTRODE = Selector("electrode apart from the building's", _own_electrodes, _own_electrode)
ELECTRODE = Selector("electrode, termination and service equipment", _electrodes, _own_electrode)
BUILDING_PAIR = Selector("pair of buildings that a shield joins", _building_pairs, _building_pair)
RACEWAY = Selector("raceway", _raceways, _raceway)
GRANTED = Selector("variance", _granted, _grant)
"""Asked of last, when every finding is known that a variance may be granted for."""

SELECTORS = (
    ITEM,
    RESERVE,
    DEVICE,
    CABLE,
    CABLE_LAID,
    RUN,
    ENTRY,
    OUTDOOR_ANTENNA,
    OUTLET_AND_SERVICE,
    BONDABLE,
    BONDING_CONDUCTOR,
    OWN_CLASS,
    SENDER,
    PASSAGE,
    PAIR,
    IN_HOME_DATA,
    SERVICE,
    OWN_ELECTRODE,
    ELECTRODE,
    BUILDING_PAIR,
    RACEWAY,
    GRANTED,
)
