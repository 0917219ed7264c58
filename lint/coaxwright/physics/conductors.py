"""Wire sizes and the resistance of conductors."""

from __future__ import annotations

from math import pi

IACS_RESISTIVITY_OHM_MM2_PER_M = 0.017241
"""Annealed copper at 20 °C, 100 % IACS. Source: NBS Handbook 100 (1966); IEC 60028."""


def awg_diameter_mm(gauge: int) -> float:
    """Diameter [mm] of a solid wire of American wire gauge ``gauge``; 1/0 is 0, 2/0 is -1.

    d = 0.127 mm * 92 ** ((36 - gauge) / 39)

    Source: ASTM B258 (standard nominal diameters and cross-sections of AWG sizes), the defining ratio.
    """
    return float(0.127 * 92 ** ((36 - gauge) / 39))


def awg_area_mm2(gauge: int) -> float:
    """Cross-section [mm²] of a solid wire of American wire gauge ``gauge``. Source: ASTM B258."""
    return pi / 4 * awg_diameter_mm(gauge) ** 2
