"""What follows from the cross-section of a coaxial line: impedance, capacitance, velocity, delay."""

from __future__ import annotations

from math import log, pi, sqrt

SPEED_OF_LIGHT_M_PER_S = 299_792_458.0  # exact by definition of the meter (SI, 1983)
FREE_SPACE_OHM = 59.9585
"""Impedance of free space over 2 pi. Source: SI constants, derived."""

_FINEST_M = 1e-6


def permittivity(velocity_factor: float) -> float:
    """Relative permittivity [-] of a dielectric from the velocity factor [-]; foam is always derived this way.

    er = 1 / VF²

    Raises ValueError where the velocity factor is not above 0 and at most 1.
    Source: textbook.
    """
    if not 0 < velocity_factor <= 1:
        raise ValueError("a velocity factor is above 0 and at most 1")
    return 1 / velocity_factor**2


def characteristic_impedance_ohm(outer_diameter_mm: float, inner_diameter_mm: float, velocity_factor: float) -> float:
    """Characteristic impedance [ohm] of a smooth, lossless coaxial line.

    Z0 = 59.9585 * VF * ln(D / d)

    D: inside of the shield, taken as the outside of the dielectric; d: center conductor (one unit, here [mm]).
    A braid works as a larger D, a stranded center as 0.94 to 0.985 of d: expect a few per cent.
    Raises ValueError unless D > d > 0 and 0 < VF <= 1.
    Source: textbook; 138 log(D/d)/sqrt(er) in the handbooks is 0.04 % off.
    """
    _refuse_impossible(outer_diameter_mm, inner_diameter_mm)
    permittivity(velocity_factor)
    return FREE_SPACE_OHM * velocity_factor * log(outer_diameter_mm / inner_diameter_mm)


def capacitance_pf_per_m(outer_diameter_mm: float, inner_diameter_mm: float, velocity_factor: float) -> float:
    """Capacitance [pF/m] of a coaxial line from its diameters (one unit, here [mm]) and velocity factor [-].

    C = 55.633 * er / ln(D / d)

    Raises ValueError as characteristic_impedance_ohm does.
    Source: textbook, 2 pi e0 er / ln(D/d); handbooks print 7.36 er / log(D/d) pF/ft.
    """
    _refuse_impossible(outer_diameter_mm, inner_diameter_mm)
    return 55.6325 * permittivity(velocity_factor) / log(outer_diameter_mm / inner_diameter_mm)


def capacitance_of_impedance_pf_per_m(impedance_ohm: float, velocity_factor: float) -> float:
    """Capacitance [pF/m] of a line from its characteristic impedance [ohm] and velocity factor [-].

    C = 1 / (Z0 * VF * c) = 3335.64 / (Z0 * VF)

    Raises ValueError where either is not possible.
    Source: textbook, derived; 1016.7 / (Z0 VF) in pF/ft.
    """
    if impedance_ohm <= 0:
        raise ValueError("an impedance is above zero")
    return 1e12 / (impedance_ohm * velocity_m_per_s(velocity_factor))


def inductance_uh_per_m(outer_diameter_mm: float, inner_diameter_mm: float) -> float:
    """Inductance [µH/m] of a coaxial line from its diameters (one unit, here [mm]).

    L = 0.2 ln(D / d)

    What lies between the conductors only: the field inside the metal adds to it below some 10 MHz.
    Raises ValueError unless D > d > 0. Source: textbook; handbooks print 0.140 log(D/d) µH/ft.
    """
    _refuse_impossible(outer_diameter_mm, inner_diameter_mm)
    return 0.2 * log(outer_diameter_mm / inner_diameter_mm)


def impedance_of_constants_ohm(inductance_h: float, capacitance_f: float) -> float:
    """Characteristic impedance [ohm] of a lossless line from inductance [H] and capacitance [F] of one length.

    Z0 = sqrt(L / C)

    Raises ValueError where either is not above zero. Source: textbook; US Navy NEETS Module 10.
    """
    if not (inductance_h > 0 and capacitance_f > 0):
        raise ValueError("inductance and capacitance are above zero")
    return sqrt(inductance_h / capacitance_f)


def velocity_of_constants_m_per_s(inductance_h_per_m: float, capacitance_f_per_m: float) -> float:
    """Speed [m/s] of a signal on a lossless line from its inductance [H/m] and capacitance [F/m]: 1 / sqrt(L C).

    Raises ValueError where either is not above zero. Source: textbook; US Navy NEETS Module 10.
    """
    if not (inductance_h_per_m > 0 and capacitance_f_per_m > 0):
        raise ValueError("inductance and capacitance are above zero")
    return 1 / sqrt(inductance_h_per_m * capacitance_f_per_m)


def cutoff_hz(outer_diameter_mm: float, inner_diameter_mm: float, velocity_factor: float) -> float:
    """Frequency [Hz] above which a coaxial line carries waves of another kind too: 2 c VF / (pi (D + d)).

    D, d [mm]; 7.5 VF / (D + d) GHz in inches. Within 3 % of the exact root for D/d from 2 to 10.
    Raises ValueError as characteristic_impedance_ohm does. Source: coaxial formula sheet, found.
    """
    _refuse_impossible(outer_diameter_mm, inner_diameter_mm)
    return 2e3 * velocity_m_per_s(velocity_factor) / (pi * (outer_diameter_mm + inner_diameter_mm))


def velocity_m_per_s(velocity_factor: float) -> float:
    """Speed [m/s] of a signal on the line: VF * c.

    Raises ValueError where the velocity factor is not above 0 and at most 1. Source: textbook.
    """
    permittivity(velocity_factor)
    return velocity_factor * SPEED_OF_LIGHT_M_PER_S


def delay_s_per_m(velocity_factor: float) -> float:
    """Delay [s/m] of a signal on the line: 1 / (VF * c), 1.0167/VF in ns/ft.

    Raises ValueError where the velocity factor is not above 0 and at most 1. Source: textbook.
    """
    return 1 / velocity_m_per_s(velocity_factor)


def is_a_line(impedance_ohm: float, outer_diameter_m: float, inner_diameter_m: float, velocity_factor: float) -> bool:
    """Whether figures can be those of a cable at all: D > d >= 1 µm, 0.1 <= VF <= 1, Z0 >= 1 ohm.

    D, d [m]. No wire is drawn finer, and no dielectric of a cable is slower than a tenth of light.
    Source: common practice, no source; the finest drawn wires measure some micrometers.
    """
    thicker = outer_diameter_m > inner_diameter_m >= _FINEST_M
    return thicker and 0.1 <= velocity_factor <= 1 and impedance_ohm >= 1


def _refuse_impossible(outer_diameter_mm: float, inner_diameter_mm: float) -> None:
    if not outer_diameter_mm > inner_diameter_mm > 0:
        raise ValueError("the shield lies outside the center conductor, and both have a diameter")
