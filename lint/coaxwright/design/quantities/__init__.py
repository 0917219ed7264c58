"""Quantities with their unit, parsed once and shown again as the author wrote them."""

from coaxwright.design.quantities.base import Quantity, QuantityError
from coaxwright.design.quantities.climate import Temperature, TemperatureRange
from coaxwright.design.quantities.counts import Spots, Times
from coaxwright.design.quantities.lengths import (
    Beside,
    Length,
    LengthPair,
    RoofSlope,
    in_feet,
    in_metres,
    in_system_of,
    shown,
    total,
)
from coaxwright.design.quantities.power import BendingMoment, Current, Resistance, Voltage
from coaxwright.design.quantities.radio import (
    DBMV_OF_DBM_75_OHM,
    AntennaGain,
    Band,
    Decibels,
    DiplexSplit,
    FieldStrength,
    Frequency,
    Gain,
    Impedance,
    Level,
    LevelAt,
    LevelRange,
    LossAt,
    LossPerLength,
)
from coaxwright.design.quantities.wire import METALS, Conductor, WireSize

__all__ = [
    "DBMV_OF_DBM_75_OHM",
    "METALS",
    "AntennaGain",
    "Band",
    "BendingMoment",
    "Beside",
    "Conductor",
    "Current",
    "Decibels",
    "DiplexSplit",
    "FieldStrength",
    "Frequency",
    "Gain",
    "Impedance",
    "Length",
    "LengthPair",
    "Level",
    "LevelAt",
    "LevelRange",
    "LossAt",
    "LossPerLength",
    "Quantity",
    "QuantityError",
    "Resistance",
    "RoofSlope",
    "Spots",
    "Temperature",
    "TemperatureRange",
    "Times",
    "Voltage",
    "WireSize",
    "in_feet",
    "in_metres",
    "in_system_of",
    "shown",
    "total",
]
