"""Cable classes, jackets and devices: data with sources, and what a buyer's words mean."""

from coaxwright.catalogue.cable_types import CableType, Misreading, UnknownWords
from coaxwright.catalogue.collection import Catalogue, OwnEntry
from coaxwright.catalogue.device_registry import DeviceRegistry
from coaxwright.catalogue.devices import DeviceEntry, Direction, Ends, PathLoss, Port, PowerPath
from coaxwright.catalogue.entries import CableClass, Center, Defaults, Jacket, Shield, Source
from coaxwright.catalogue.errors import CatalogueError
from coaxwright.catalogue.gathering import read_catalogue
from coaxwright.catalogue.loader import load_catalogue
from coaxwright.catalogue.losses import Attenuation, AttenuationKind, LossPerMeter, LossTable, SpreadDb
from coaxwright.catalogue.options import Options
from coaxwright.catalogue.screening import ScreeningClass, ScreeningLimit

__all__ = [
    "Attenuation",
    "AttenuationKind",
    "CableClass",
    "CableType",
    "Catalogue",
    "CatalogueError",
    "Center",
    "Defaults",
    "DeviceEntry",
    "DeviceRegistry",
    "Direction",
    "Ends",
    "Jacket",
    "LossPerMeter",
    "LossTable",
    "Misreading",
    "Options",
    "OwnEntry",
    "PathLoss",
    "Port",
    "PowerPath",
    "ScreeningClass",
    "ScreeningLimit",
    "Shield",
    "Source",
    "SpreadDb",
    "UnknownWords",
    "load_catalogue",
    "read_catalogue",
]
