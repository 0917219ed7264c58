"""What there is to say of a design as it was understood: plain data, in the words that every form of it shows.

A text that has nothing to say is empty, and so is a list without entries. What is named after a field of the design
file holds what is written there, or what was taken in its place.
"""

from __future__ import annotations

from coaxwright.frozen_value import frozen_value
from coaxwright.network import AuthorValues
from coaxwright.reports.network_report.network import ReadCable, ReadDevice, ReadLength, ReadService


@frozen_value
class Whereabouts:
    """A spot in a file: lines and columns count from 1, columns in code points."""

    file: str
    line: int
    column: int

    def __str__(self) -> str:
        return f"{self.file}:{self.line}:{self.column}"


@frozen_value
class ReadBuilding:
    tag: str
    occupancy: str
    entries: tuple[str, ...]
    lightning_system: bool


@frozen_value
class ReadPlace:
    tag: str
    building: str
    """Empty for a place in the open, and for one indoors where the design names no building."""
    building_because: str
    """Why it was taken to be there, where no building is written."""
    indoors: bool
    exposure: str
    exposure_by_default: bool
    temperature: str


@frozen_value
class ReadEntry:
    cable: str
    building: str
    outside: str
    inside: str
    line: str
    """What comes in: ``from the antenna ANT``."""
    protector: str
    unknown: str
    """Why the protector is not known."""


@frozen_value
class BondStep:
    conductor: str
    size: str
    length: str
    to: str


@frozen_value
class ReadBond:
    """A protector or mast, and its way to an electrode."""

    thing: str
    what: str
    place: str
    steps: tuple[BondStep, ...]
    electrode: str
    """Empty where no way leads to one."""
    electrode_what: str
    length: ReadLength
    onwards: tuple[BondStep, ...]
    """From an electrode of its own to the building's electrode system."""
    nowhere: str
    """Why no way leads to an electrode."""


@frozen_value
class ReadBondItem:
    tag: str
    kind: str
    place: str
    electrode: str
    from_: str
    to: str
    size: str
    length: str
    state: str
    owner: str
    bonds: tuple[str, ...]
    """The protectors and masts whose way goes over it."""


@frozen_value
class Taken:
    """What was taken because nothing is written, and for which things."""

    what: str
    value: str
    of: tuple[str, ...]


@frozen_value
class ReadUnit:
    """A repeated unit, and the typical one that it is like."""

    tag: str
    like: str


@frozen_value
class Unused:
    """Something described that nothing makes use of."""

    kind: str
    """``typical unit``, ``unit``, ``place`` or ``raceway``."""
    tag: str


@frozen_value
class Unconnected:
    """Something written that could not be connected."""

    where: Whereabouts
    item: str
    text: str


@frozen_value
class NetworkReport:
    """A design as it was understood; everything in tag order, services in the direction of the signal."""

    file: str
    title: str
    job: str
    sheet: str
    revision: str
    stage: str
    rulesets: tuple[str, ...]
    units: tuple[ReadUnit, ...]
    buildings: tuple[ReadBuilding, ...]
    places: tuple[ReadPlace, ...]
    services: tuple[ReadService, ...]
    devices: tuple[ReadDevice, ...]
    cables: tuple[ReadCable, ...]
    entries: tuple[ReadEntry, ...]
    bonds: tuple[ReadBond, ...]
    bonding: tuple[ReadBondItem, ...]
    taken: tuple[Taken, ...]
    own_figures: tuple[AuthorValues, ...]
    unused: tuple[Unused, ...]
    unconnected: tuple[Unconnected, ...]
