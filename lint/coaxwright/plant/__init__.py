"""The network built from a design: devices, ports, cables, bonds, and the questions they answer."""

from coaxwright.plant.bonds import BUILDING_LEVEL, BondGraph, BondPath
from coaxwright.plant.build import build_plant
from coaxwright.plant.entries import Entry, Line
from coaxwright.plant.faults import PortConflict, UndecidedPort, UnknownReference
from coaxwright.plant.parts import (
    BondNode,
    BuildingNode,
    CableEnd,
    CableLink,
    DeviceNode,
    PlaceNode,
    Segment,
    ServiceNode,
)
from coaxwright.plant.plant import Bondable, Plant
from coaxwright.plant.runs import LeadIn, Run
from coaxwright.plant.tags import nearest_tag, tag_order
from coaxwright.plant.values import Known, Unknown

__all__ = [
    "BUILDING_LEVEL",
    "BondGraph",
    "BondNode",
    "BondPath",
    "Bondable",
    "BuildingNode",
    "CableEnd",
    "CableLink",
    "DeviceNode",
    "Entry",
    "Known",
    "LeadIn",
    "Line",
    "PlaceNode",
    "Plant",
    "PortConflict",
    "Run",
    "Segment",
    "ServiceNode",
    "UndecidedPort",
    "Unknown",
    "UnknownReference",
    "build_plant",
    "nearest_tag",
    "tag_order",
]
