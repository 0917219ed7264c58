"""The design file as typed, frozen objects: every field, its unit, its words and its description, once.

The JSON Schemas and the reference page are generated from these classes; a test fails when they drift.
"""

from coaxwright.design.model.bonding import BondItem
from coaxwright.design.model.cables import Cable, Connector, Leg
from coaxwright.design.model.devices import Device, Mast, PortSaid
from coaxwright.design.model.entries import OwnEntries
from coaxwright.design.model.papers import Reading, Record, Variance
from coaxwright.design.model.raceways import Raceway
from coaxwright.design.model.services import Channel, Service, Stream, Wanted
from coaxwright.design.model.site import Basis, Building, LightningSystem, NeighborItem, Place
from coaxwright.design.model.whole import Design

__all__ = [
    "Basis",
    "BondItem",
    "Building",
    "Cable",
    "Channel",
    "Connector",
    "Design",
    "Device",
    "Leg",
    "LightningSystem",
    "Mast",
    "NeighborItem",
    "OwnEntries",
    "Place",
    "PortSaid",
    "Raceway",
    "Reading",
    "Record",
    "Service",
    "Stream",
    "Variance",
    "Wanted",
]
