"""Cable classes, jackets and devices: data with sources, and what a buyer's words mean."""

from coaxwright.catalogue.cable_types import CableType, Misreading, UnknownWords
from coaxwright.catalogue.collection import Catalogue
from coaxwright.catalogue.entries import (
    CableClass,
    Centre,
    Defaults,
    DeviceEntry,
    Direction,
    Jacket,
    PathLoss,
    Port,
    Shield,
    Source,
)
from coaxwright.catalogue.errors import CatalogueError
from coaxwright.catalogue.loader import load_catalogue, read_catalogue
from coaxwright.catalogue.losses import Attenuation, AttenuationKind, LossPerMetre, LossTable, SpreadDb

__all__ = [
    "Attenuation",
    "AttenuationKind",
    "CableClass",
    "CableType",
    "Catalogue",
    "CatalogueError",
    "Centre",
    "Defaults",
    "DeviceEntry",
    "Direction",
    "Jacket",
    "LossPerMetre",
    "LossTable",
    "Misreading",
    "PathLoss",
    "Port",
    "Shield",
    "Source",
    "SpreadDb",
    "UnknownWords",
    "load_catalogue",
    "read_catalogue",
]
