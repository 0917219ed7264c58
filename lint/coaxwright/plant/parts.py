"""The parts of the network: places, devices with ports, cable links, bonding items."""

from __future__ import annotations

from dataclasses import dataclass, field

from coaxwright.catalogue import CableType, DeviceEntry, Port, UnknownWords
from coaxwright.design import BondItem, Building, Cable, Device, Place, Service
from coaxwright.design.quantities import Length
from coaxwright.design.words import OUTSIDE, Exposure
from coaxwright.plant.values import Unknown
from coaxwright.source import Path


@dataclass(frozen=True, slots=True)
class BuildingNode:
    """A building of the site."""

    tag: str
    building: Building
    entries: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class PlaceNode:
    """A place, with the building it belongs to."""

    tag: str
    place: Place
    building: str | None

    @property
    def exposure(self) -> Exposure:
        return self.place.exposure

    @property
    def is_outside(self) -> bool:
        """Whether it lies outside every building's envelope."""
        return self.place.exposure in OUTSIDE


@dataclass(frozen=True, slots=True)
class DeviceNode:
    """A device, its catalogue entry and its ports."""

    tag: str
    device: Device
    entry: DeviceEntry | None
    ports: tuple[Port, ...]
    place: PlaceNode | None

    @property
    def path(self) -> Path:
        return ("devices", self.tag)

    @property
    def protects(self) -> bool:
        """Whether it bonds the shields that meet in it: a ground block or a protector."""
        return self.entry is not None and self.entry.protects

    @property
    def in_use(self) -> bool:
        return self.device.state != "abandoned"


@dataclass(frozen=True, slots=True)
class Segment:
    """A stretch of a cable's route in one place."""

    place: PlaceNode | None
    """None where the place's tag names nothing."""
    tag: str
    length: Length
    path: Path


@dataclass(frozen=True, slots=True)
class CableEnd:
    """One end of a cable: the device and port it is joined to, as far as they are known."""

    path: Path
    written: str
    device: DeviceNode | None
    port: Port | None = None


@dataclass(frozen=True, slots=True)
class CableLink:
    """A cable in the network, turned so that the signal runs from ``near`` (the source's side) to ``far``."""

    tag: str
    cable: Cable
    type: CableType | UnknownWords
    near: CableEnd
    far: CableEnd
    segments: tuple[Segment, ...]
    """In the direction of the signal; empty where only a length is given."""
    length: Length | Unknown

    @property
    def path(self) -> Path:
        return ("cables", self.tag)

    @property
    def ends(self) -> tuple[CableEnd, CableEnd]:
        return (self.near, self.far)

    @property
    def in_use(self) -> bool:
        return self.cable.state != "abandoned"

    def other_end(self, device: str) -> CableEnd:
        """The end that is not at ``device`` (the far one where both are)."""
        return self.near if self.far.device is not None and self.far.device.tag == device else self.far


@dataclass(frozen=True, slots=True)
class BondNode:
    """An item of the bonding section."""

    tag: str
    item: BondItem
    place: PlaceNode | None

    @property
    def path(self) -> Path:
        return ("bonding", self.tag)

    @property
    def in_use(self) -> bool:
        return self.item.state != "abandoned"


@dataclass(frozen=True, slots=True)
class ServiceNode:
    """A service and the cables that carry it."""

    tag: str
    service: Service
    cables: frozenset[str] = field(default_factory=frozenset)
    devices: frozenset[str] = field(default_factory=frozenset)
