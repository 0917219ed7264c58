"""The design file as typed, frozen objects."""

from coaxwright.design.model import (
    BondItem,
    Building,
    Cable,
    Design,
    Device,
    Leg,
    Mast,
    Place,
    Service,
)
from coaxwright.design.understand import NotUnderstood, understand, understand_drawn, whole

__all__ = [
    "BondItem",
    "Building",
    "Cable",
    "Design",
    "Device",
    "Leg",
    "Mast",
    "NotUnderstood",
    "Place",
    "Service",
    "understand",
    "understand_drawn",
    "whole",
]
