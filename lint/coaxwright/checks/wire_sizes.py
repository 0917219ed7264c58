"""Wire sizes as the author of a design writes them: AWG, or the sizes that are sold by cross-section."""

from __future__ import annotations

from coaxwright.design import Design
from coaxwright.design.quantities import Conductor
from coaxwright.physics.comparison import at_least

SIZES_MM2 = (0.5, 0.75, 1, 1.5, 2.5, 4, 6, 10, 16, 25, 35, 50, 70, 95)
"""Nominal cross-sections of copper conductors. Source: IEC 60228, from memory."""


def is_metric(conductor: Conductor) -> bool:
    """Whether a conductor is written by its cross-section."""
    return conductor.size.gauge is None


def writes_metric(design: Design) -> bool:
    """Whether an author writes conductors by cross-section: most of them, or where there is none, the lengths."""
    sizes = [item.conductor for item in design.bonding.values() if item.conductor is not None]
    if sizes:
        return sum(map(is_metric, sizes)) * 2 > len(sizes)
    lengths = [length for cable in design.cables.values() if (length := _a_length(cable)) is not None]
    return bool(lengths) and sum(lengths) * 2 > len(lengths)


def _a_length(cable: object) -> bool | None:
    """Whether the first length of a cable is metric; None where it has none."""
    length = getattr(cable, "length", None)
    for entry in getattr(cable, "route", None) or ():
        for leg in entry.values():
            return bool(getattr(getattr(leg, "length", leg), "is_metric", False))
    return None if length is None else bool(length.is_metric)


def as_written(needed: Conductor, metric: bool) -> Conductor:
    """A needed size as an author would order it: in mm², the next size sold that is not smaller."""
    if not metric or is_metric(needed):
        return needed
    area_mm2 = next((size for size in SIZES_MM2 if at_least(size, needed.size.area_mm2)), SIZES_MM2[-1])
    return Conductor.parse(f"{area_mm2:g} mm² {needed.metal}")


def in_mm2(conductor: Conductor) -> str:
    """The cross-section of a gauge in brackets, behind it; nothing for a size that is one already."""
    return "" if is_metric(conductor) else f" ({conductor.size.area_mm2:.2g} mm²)"
