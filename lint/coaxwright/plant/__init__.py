"""The network built from a design: devices, ports, cables, bonds, and the questions they answer."""

from coaxwright.plant.backwards import Backward
from coaxwright.plant.bondables import Bondable
from coaxwright.plant.bonds import BUILDING_LEVEL, BondGraph, BondPath
from coaxwright.plant.build import build_plant
from coaxwright.plant.entries import Entry, Line, length_inside, length_outside
from coaxwright.plant.faults import PortConflict, UndecidedPort, UnknownReference
from coaxwright.plant.feeds import Feed, FeedLeg
from coaxwright.plant.loops import Loop
from coaxwright.plant.outlets import SINKS
from coaxwright.plant.own import OwnFigures, own_figures, stated_figures
from coaxwright.plant.parts import (
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
from coaxwright.plant.plant import Plant
from coaxwright.plant.raceways import Neighbour, RacewayNode
from coaxwright.plant.runs import LeadIn, Run
from coaxwright.plant.shields import JoinedBuildings
from coaxwright.plant.signals import Arrival, Grid, Signal, Stop
from coaxwright.plant.splitters import Split
from coaxwright.plant.survey import TAGGED, Joined, Survey
from coaxwright.plant.tags import nearest_tag, tag_order
from coaxwright.plant.values import Known, Unknown

__all__ = [
    "BUILDING_LEVEL",
    "SINKS",
    "TAGGED",
    "Arrival",
    "Backward",
    "BondGraph",
    "BondNode",
    "BondPath",
    "Bondable",
    "BuildingNode",
    "CableEnd",
    "CableLink",
    "DeviceNode",
    "Direction",
    "Entry",
    "Feed",
    "FeedLeg",
    "Grid",
    "Joined",
    "JoinedBuildings",
    "Known",
    "LeadIn",
    "Line",
    "Loop",
    "Neighbour",
    "OwnFigures",
    "PlaceNode",
    "Plant",
    "PortConflict",
    "RacewayNode",
    "Run",
    "Segment",
    "ServiceNode",
    "Signal",
    "Split",
    "Stop",
    "Survey",
    "UndecidedPort",
    "Unknown",
    "UnknownReference",
    "build_plant",
    "length_inside",
    "length_outside",
    "nearest_tag",
    "own_figures",
    "stated_figures",
    "tag_order",
]
