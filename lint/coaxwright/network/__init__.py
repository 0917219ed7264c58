"""The network built from a design: devices, ports, cables, bonds, and the questions they answer."""

from coaxwright.network.author_values import AuthorValues, author_values, stated_figures
from coaxwright.network.bondables import Bondable
from coaxwright.network.bonds import BUILDING_LEVEL, BondGraph, BondPath
from coaxwright.network.build import build_network
from coaxwright.network.entries import Entry, Line, length_inside, length_outside
from coaxwright.network.faults import PortConflict, UndecidedPort, UnknownReference
from coaxwright.network.feeds import Feed, FeedLeg
from coaxwright.network.loops import Loop
from coaxwright.network.network import Network
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
from coaxwright.network.queries import TAGGED, Joined, Survey
from coaxwright.network.raceways import Neighbor, RacewayNode
from coaxwright.network.reversed_devices import Backward
from coaxwright.network.runs import LeadIn, Run
from coaxwright.network.service_demand import SINKS
from coaxwright.network.shields import JoinedBuildings
from coaxwright.network.signals import Arrival, Grid, Signal, Stop
from coaxwright.network.splitters import Split
from coaxwright.network.tags import nearest_tag, tag_order
from coaxwright.network.values import Known, Unknown

__all__ = [
    "BUILDING_LEVEL",
    "SINKS",
    "TAGGED",
    "Arrival",
    "AuthorValues",
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
    "Neighbor",
    "Network",
    "PlaceNode",
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
    "author_values",
    "build_network",
    "length_inside",
    "length_outside",
    "nearest_tag",
    "stated_figures",
    "tag_order",
]
