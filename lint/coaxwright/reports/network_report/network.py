"""Devices, cables and services as they were understood: plain data, like the rest in ``parts``."""

from __future__ import annotations

from coaxwright.frozen_value import frozen_value

_SOCKET = "socket"


@frozen_value
class PortUse:
    """A port of a device, and the cable or part that takes it."""

    name: str
    direction: str
    impedance_ohm: float
    tenant: str


@frozen_value
class Wanted:
    """A service wanted at a device, and whether it comes there."""

    service: str
    arrives: bool


@frozen_value
class ReadDevice:
    tag: str
    what: str
    """``4-way splitter``, ``ground block``."""
    place: str
    mast: str
    """``metal mast, 8 ft high``."""
    on: str
    """``SP1.out-3``: where a part is screwed on."""
    state: str
    owner: str
    wants: tuple[Wanted, ...]
    carries: tuple[str, ...]
    """The services that reach it, or, of a dish, the converter in front of it."""
    ports: tuple[PortUse, ...]

    @property
    def free_ports(self) -> tuple[str, ...]:
        """The ports that nothing takes; an outlet's socket is for the set that is plugged in, and is no free port."""
        return tuple(port.name for port in self.ports if not port.tenant and port.name != _SOCKET)


@frozen_value
class ReadEnd:
    """One end of a cable: the device and port it takes, or why not."""

    device: str
    port: str
    written: str
    unknown: str

    def __str__(self) -> str:
        if not self.device:
            return f"'{self.written}'"
        return f"{self.device}.{self.port}" if self.port else self.device


@frozen_value
class ReadType:
    """A cable's type, read into its parts; of those ``by_default`` the words said nothing."""

    written: str
    cable_class: str
    shield: str
    center: str
    jacket: str
    by_default: tuple[str, ...]
    unknown: str


@frozen_value
class RouteSpan:
    """A stretch of a route, in the direction of the signal."""

    place: str
    known: bool
    length: str


@frozen_value
class ReadLength:
    text: str
    length_m: float | None
    unknown: str


@frozen_value
class ReadLoss:
    """The loss at one frequency: coldest with the low figure, usual, hottest with the high one; or why not known."""

    frequency_hz: float
    low_db: float | None
    nominal_db: float | None
    high_db: float | None
    unknown: str


@frozen_value
class ReadCable:
    tag: str
    near: ReadEnd
    """Where the signal comes from."""
    far: ReadEnd
    turned: bool
    """Whether it is written the other way round."""
    type: ReadType
    route: tuple[RouteSpan, ...]
    length: ReadLength
    losses: tuple[ReadLoss, ...]
    """At the bottom and at the top of what it carries; one where they are the same."""
    loss_unknown: str
    """Why there is no frequency to tell a loss at."""
    state: str
    owner: str
    carries: tuple[str, ...]


@frozen_value
class Step:
    """A cable on a service's way, and the device at its far end."""

    cable: str
    device: str
    """Empty where its far end names nothing."""
    depth: int
    """How often the signal was divided on the way here."""
    divides: bool
    """Whether the cable is one of several that leave the device before it."""
    again: bool
    """Whether the device was reached before, so that the way does not go on from here."""


@frozen_value
class ReadService:
    tag: str
    kind: str
    from_: str
    start: str
    """The device it comes from; empty where ``from_`` names none."""
    bands: tuple[str, ...]
    steps: tuple[Step, ...]
    stations: tuple[str, ...] = ()
    """Of in-home data, the devices that hear one another."""
    over: tuple[str, ...] = ()
    """Of in-home data, the cables between its stations."""
