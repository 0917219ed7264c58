"""The parts of the network: places, devices with ports, cable links, bonding items."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import field
from typing import Literal

from coaxwright.catalogue import CableType, DeviceEntry, Port, UnknownWords
from coaxwright.design import BondItem, Building, Cable, Device, Leg, Mast, Place, PortSaid, Service
from coaxwright.design.quantities import Length
from coaxwright.design.words import OUTSIDE, Exposure
from coaxwright.frozen_value import frozen_value
from coaxwright.network.raceways import Neighbor, RacewayNode, neighbors_of
from coaxwright.network.values import Unknown
from coaxwright.source import Path

Direction = Literal["down", "up"]
"""Down: towards the outlets; up: from them to the demarcation point."""
_NOTHING_SAID = PortSaid()
_IN_THE_AIR: frozenset[Exposure] = frozenset(("outdoors", "rooftop"))


@frozen_value
class BuildingNode:
    """A building of the site."""

    tag: str
    building: Building
    entries: tuple[str, ...]
    tied_to: tuple[str, ...] = ()
    """Buildings whose electrode systems it says are joined with its own."""

    @property
    def has_lightning_system(self) -> bool:
        return bool(self.building.lightning_system)


@frozen_value
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

    @property
    def neighbors(self) -> tuple[Neighbor, ...]:
        """What runs or stands beside whatever is there."""
        return tuple(neighbors_of(self.place.beside, ("places", self.tag, "beside")))


@frozen_value
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
        """Whether it bonds the shields that meet in it: a ground block or a protector that is not kept in reserve."""
        return self.entry is not None and self.entry.protects and self.device.state != "reserve"

    @property
    def in_use(self) -> bool:
        return self.device.state != "abandoned"

    def said(self, port: Port) -> PortSaid:
        """What the design says of a port; nothing where it says nothing."""
        return (self.device.ports or {}).get(port.name, _NOTHING_SAID)

    def port_tag(self, port: Port) -> str:
        """A port as cables name it: ``SP1.out-2``."""
        return f"{self.tag}.{port.name}"

    @property
    def mast(self) -> Mast | None:
        """The mast that is described beside it; None where it has none, or stands on that of another device."""
        mast = self.device.mast
        return mast if mast is not None and mast.of is None else None


@frozen_value
class Segment:
    """A stretch of a cable's route in one place."""

    place: PlaceNode | None
    """None where the place's tag names nothing."""
    tag: str
    length: Length
    path: Path
    leg: Leg | None = None
    """What is said of the stretch beyond its length."""
    raceway: RacewayNode | None = None

    @property
    def neighbors(self) -> tuple[Neighbor, ...]:
        """What runs beside the cable here: said of the stretch, of the place, or held by the same raceway."""
        beside = () if self.leg is None else neighbors_of(self.leg.beside, (*self.path, "beside"))
        around = () if self.place is None else self.place.neighbors
        return (*beside, *around, *(self.raceway.holds if self.raceway is not None else ()))

    @property
    def is_enclosed(self) -> bool:
        """Whether the cable is in a raceway that parts it from what runs outside of it, and from sun and rain."""
        return self.raceway is not None and not self.raceway.is_open

    @property
    def is_in_metal(self) -> bool:
        """Whether it runs in metal raceway, where a fire does not reach the jacket of the cable."""
        return self.raceway is not None and self.raceway.is_metal

    @property
    def is_span(self) -> bool:
        """Whether it hangs free outdoors: over something, or by a messenger, or by nothing."""
        leg = self.leg
        if leg is None or self.place is None or self.raceway is not None:
            return False
        if self.place.exposure not in _IN_THE_AIR or leg.support not in (None, "none", "messenger"):
            return False
        return leg.over is not None or leg.support is not None

    def beside(self, kinds: Collection[str]) -> list[Neighbor]:
        """The neighbors of these kinds with nothing fixed between.

        What a closed raceway holds together with the cable is no neighbor: that is a question about the raceway.
        """
        own = self.raceway.path if self.raceway is not None and self.is_enclosed else None
        return [
            neighbor
            for neighbor in self.neighbors
            if neighbor.what in kinds and not neighbor.is_parted and (own is None or neighbor.path[:2] != own)
        ]


@frozen_value
class CableEnd:
    """One end of a cable: the device and port it is joined to, as far as they are known."""

    path: Path
    written: str
    device: DeviceNode | None
    port: Port | None = None


@frozen_value
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

    @property
    def is_matched(self) -> bool:
        """Whether both its ends are joined to ports of the very impedance of its class."""
        near, far = self.near.port, self.far.port
        if near is None or far is None or not isinstance(self.type, CableType):
            return False
        return near.impedance_ohm == self.type.impedance_ohm == far.impedance_ohm

    def other_end(self, device: str) -> CableEnd:
        """The end that is not at ``device`` (the far one where both are)."""
        return self.near if self.far.device is not None and self.far.device.tag == device else self.far


@frozen_value
class BondNode:
    """An item of the bonding section."""

    tag: str
    item: BondItem
    place: PlaceNode | None
    segments: tuple[Segment, ...] = ()
    """The route of a conductor, in the order written."""
    length: Length | None = None
    """Of a conductor, by its route where it has one; None where neither is stated."""

    @property
    def path(self) -> Path:
        return ("bonding", self.tag)

    @property
    def in_use(self) -> bool:
        """Whether it joins anything: what is kept in reserve is not joined yet."""
        return self.item.state not in ("abandoned", "reserve")


@frozen_value
class ServiceNode:
    """A service and the cables that carry it."""

    tag: str
    service: Service
    cables: frozenset[str] = field(default_factory=frozenset)
    devices: frozenset[str] = field(default_factory=frozenset)
    _grids_hz: dict[Direction, tuple[float, ...]] = field(default_factory=dict, init=False, repr=False, compare=False)

    def grid_hz(self, direction: Direction) -> tuple[float, ...]:
        """The frequencies that the service states in a direction [Hz], rising: the edges of its band, its channels."""
        if direction not in self._grids_hz:
            stream = self.service.down if direction == "down" else self.service.up
            edges = () if stream is None else (stream.band.low_hz, stream.band.high_hz)
            channels = (self.service.channels or ()) if direction == "down" else ()
            hertz = {*edges, *(channel.frequency.freq_hz for channel in channels)}
            self._grids_hz[direction] = tuple(sorted(hertz))
        return self._grids_hz[direction]
