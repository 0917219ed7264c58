"""How the author of a design writes: by gauge or by cross-section."""

from __future__ import annotations

from coaxwright.design.model import Design
from coaxwright.design.quantities import Conductor


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
