"""Wire sizes as the author of a design writes them: AWG, or the sizes that are sold by cross-section."""

from __future__ import annotations

from coaxwright.design.author import is_metric
from coaxwright.design.quantities import Conductor, WireSize
from coaxwright.physics.comparison import at_least

SIZES_MM2 = (0.5, 0.75, 1, 1.5, 2.5, 4, 6, 10, 16, 25, 35, 50, 70, 95)
"""Nominal cross-sections of copper conductors. Source: IEC 60228, from memory."""
GAUGES = tuple(WireSize.parse(f"{gauge} AWG") for gauge in (17, 14, 12, 10, 8, 6, 4, 2, "1/0", "2/0", "3/0", "4/0"))
"""Sizes of wire sold for bonding by gauge, thinnest first. Common practice, no source."""


def sizes_sold(metric: bool) -> tuple[WireSize, ...]:
    """The sizes that an author orders from, thinnest first."""
    return _BY_CROSS_SECTION if metric else GAUGES


_BY_CROSS_SECTION = tuple(WireSize.parse(f"{area_mm2:g} mm\N{SUPERSCRIPT TWO}") for area_mm2 in SIZES_MM2)


def as_written(needed: Conductor, metric: bool) -> Conductor:
    """A needed size as an author would order it: in their own system, the next size sold that is not smaller.

    A size that is in that system already stays as it is, and so does one beyond the largest that is sold.
    """
    if metric == is_metric(needed):
        return needed
    size = next((size for size in sizes_sold(metric) if at_least(size.area_mm2, needed.size.area_mm2)), None)
    return needed if size is None else Conductor.parse(f"{size.text} {needed.metal}")


def in_mm2(conductor: Conductor) -> str:
    """The cross-section of a gauge in brackets, behind it; nothing for a size that is one already."""
    return "" if is_metric(conductor) else f" ({conductor.size.area_mm2:.2g} mm²)"
