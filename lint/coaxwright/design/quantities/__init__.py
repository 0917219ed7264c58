"""Quantities with their unit, parsed once and shown again as the author wrote them."""

from coaxwright.design.quantities.base import Quantity, QuantityError
from coaxwright.design.quantities.climate import Temperature, TemperatureRange
from coaxwright.design.quantities.lengths import (
    Length,
    LengthPair,
    in_feet,
    in_metres,
    in_system_of,
    shown,
    total,
)
from coaxwright.design.quantities.radio import (
    AntennaGain,
    Band,
    Decibels,
    FieldStrength,
    Frequency,
    Gain,
    Impedance,
    Level,
    LevelAt,
    LossPerLength,
)
from coaxwright.design.quantities.wire import METALS, Conductor, WireSize

__all__ = [
    "METALS",
    "AntennaGain",
    "Band",
    "Conductor",
    "Decibels",
    "FieldStrength",
    "Frequency",
    "Gain",
    "Impedance",
    "Length",
    "LengthPair",
    "Level",
    "LevelAt",
    "LossPerLength",
    "Quantity",
    "QuantityError",
    "Temperature",
    "TemperatureRange",
    "WireSize",
    "in_feet",
    "in_metres",
    "in_system_of",
    "shown",
    "total",
]
