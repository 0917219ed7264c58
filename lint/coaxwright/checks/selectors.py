"""The closed set of selectors: what rules can be about."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from coaxwright.checks.contract import Selector
from coaxwright.checks.subjects import Subject
from coaxwright.design.fields import Part
from coaxwright.design.words import AERIALS
from coaxwright.plant import (
    Bondable,
    BondNode,
    CableLink,
    DeviceNode,
    Entry,
    PlaceNode,
    Plant,
    Run,
    ServiceNode,
)
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


@dataclass(frozen=True, slots=True)
class Item:
    """Anything with a tag, whatever its section."""

    section: str
    tag: str
    thing: Part

    @property
    def path(self) -> Path:
        return (self.section, self.tag)


def _cables(plant: Plant) -> Iterator[CableLink]:
    return (link for link in plant.cables.values() if link.in_use)


def _cable(link: CableLink) -> Subject:
    places = dict.fromkeys(segment.tag for segment in link.segments)
    return Subject(
        "cable", link.tag, link.path, where=_route(list(places)), owner=link.cable.owner, state=link.cable.state
    )


def _runs(plant: Plant) -> Iterable[Run]:
    return plant.runs


def _run(run: Run) -> Subject:
    cable = run.first
    places = dict.fromkeys(segment.tag for link in run.cables for segment in link.segments)
    return Subject(
        "cable", cable.tag, cable.path, where=_route(list(places)), owner=cable.cable.owner, state=cable.cable.state
    )


def _devices(plant: Plant) -> Iterator[DeviceNode]:
    return (node for node in plant.devices.values() if node.in_use)


def _device(node: DeviceNode) -> Subject:
    device = node.device
    return Subject("device", node.tag, node.path, "", place_words(node.place), device.owner, device.state)


def _outdoor_antennas(plant: Plant) -> Iterator[DeviceNode]:
    return (
        node
        for node in _devices(plant)
        if node.device.kind in AERIALS and node.place is not None and node.place.is_outside
    )


def _entries(plant: Plant) -> Iterable[Entry]:
    return plant.entries


def _entry(entry: Entry) -> Subject:
    cable = entry.cable.cable
    building = entry.building or "the building"
    return Subject(
        "cable", entry.cable.tag, entry.cable.path, building, place_words(entry.outside), cable.owner, cable.state
    )


def _bondables(plant: Plant) -> Iterable[Bondable]:
    return plant.bondables


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


@dataclass(frozen=True, slots=True)
class WantedAt:
    """A service, and an outlet or receiver where it is wanted."""

    service: ServiceNode
    device: DeviceNode


def _wanted(plant: Plant) -> Iterator[WantedAt]:
    for service in plant.services.values():
        for device in plant.outlets_of(service.tag):
            yield WantedAt(service, device)


def _wanted_at(wanted: WantedAt) -> Subject:
    node = wanted.device
    device = node.device
    return Subject(
        "device", node.tag, node.path, wanted.service.tag, place_words(node.place), device.owner, device.state
    )


def _conductors(plant: Plant) -> Iterator[BondNode]:
    return (node for node in plant.bonds.values() if node.item.kind == "bonding conductor" and node.in_use)


def _conductor(node: BondNode) -> Subject:
    item = node.item
    return Subject("bonding conductor", node.tag, node.path, "", f"{item.from_} to {item.to}", item.owner, item.state)


def _items(plant: Plant) -> Iterator[Item]:
    for section in _KINDS:
        for tag, thing in getattr(plant.design, section).items():
            yield Item(section, tag, thing)


def _item(item: Item) -> Subject:
    place, owner, state = (getattr(item.thing, name, "") for name in ("place", "owner", "state"))
    where = place if isinstance(place, str) else ""
    return Subject(_KINDS[item.section], item.tag, item.path, "", where, owner or "owner", state or "new")


def place_words(place: PlaceNode | None) -> str:
    """A place for people: ``north wall, house``."""
    if place is None:
        return ""
    return f"{place.tag}, {place.building}" if place.building else place.tag


def _route(places: list[str]) -> str:
    return places[0] if len(places) == 1 else f"{places[0]} to {places[-1]}" if places else ""


ITEM = Selector("thing with a tag", _items, _item)
DEVICE = Selector("device", _devices, _device)
CABLE = Selector("cable", _cables, _cable)
RUN = Selector("run of cable", _runs, _run)
ENTRY = Selector("entry of a cable into a building", _entries, _entry)
OUTDOOR_ANTENNA = Selector("outdoor antenna", _outdoor_antennas, _device)
OUTLET_AND_SERVICE = Selector("outlet and service wanted there", _wanted, _wanted_at)
BONDABLE = Selector("protector and metal mast", _bondables, _bondable)
BONDING_CONDUCTOR = Selector("bonding conductor", _conductors, _conductor)

SELECTORS = (ITEM, DEVICE, CABLE, RUN, ENTRY, OUTDOOR_ANTENNA, OUTLET_AND_SERVICE, BONDABLE, BONDING_CONDUCTOR)
