"""The loss of a coaxial line from its cross-section: by the textbook's two terms, and exact.

For smooth conductors. A braid adds 10 to 25 % to the conductors' part; a real cable's table is worth more than both.
"""

from __future__ import annotations

from cmath import sqrt as complex_sqrt
from dataclasses import dataclass
from math import e, inf, log, log10, pi

from coaxwright.physics.geometry import FREE_SPACE_OHM, SPEED_OF_LIGHT_M_PER_S, delay_s_per_m, permittivity
from coaxwright.physics.skin_effect import (
    COPPER,
    FREE_SPACE_H_PER_M,
    Metal,
    layered_wire_impedance_ohm_per_m,
    surface_resistance_ohm,
    tube_impedance_ohm_per_m,
)

DB_PER_NEPER = 20 * log10(e)


@dataclass(frozen=True, slots=True)
class CrossSection:
    """A smooth coaxial line, cut across. Raises ValueError where it is not possible."""

    outer_diameter_m: float
    """Inside of the shield, taken as the outside of the dielectric."""
    inner_diameter_m: float
    """Outside of the center conductor."""
    velocity_factor: float
    loss_tangent: float = 0.0
    """Of the dielectric; polyethylene 1e-4 to 5e-4, and moisture raises it without limit (from memory)."""
    center: Metal = COPPER
    shield: Metal = COPPER
    cladding_m: float = 0.0
    """Thickness of a cladding of ``clad_with`` on the center; 0 where the center is all of one metal."""
    clad_with: Metal = COPPER

    def __post_init__(self) -> None:
        if not inf > self.outer_diameter_m > self.inner_diameter_m > 0:
            raise ValueError("the shield lies outside the center conductor, and both have a diameter")
        if not 0 <= self.cladding_m < self.inner_diameter_m / 2:
            raise ValueError("a cladding is thinner than half the center conductor")
        if not 0 <= self.loss_tangent < 1:
            raise ValueError("the loss tangent of a dielectric is zero or more, and below 1")
        permittivity(self.velocity_factor)


def conductor_loss_db_per_m(freq_hz: float, line: CrossSection) -> float:
    """Loss [dB/m] in the conductors by the textbook's short form; a cladding counts as solid.

    8.686 (Rs_d/d + Rs_D/D) / (2 pi Z0), Rs = sqrt(pi f mu rho)

    Below the exact Bessel solution by 0.1 to 0.6 % at 100 MHz, 0.4 to 2 % at 10 MHz and 1.5 to 6 % at 1 MHz, most with
    the thinnest center; not for a cladding thinner than 1.2 skin depths. Raises ValueError where the frequency is not
    above zero. Source: Schelkunoff 1934; textbook.
    """
    inner_metal = line.clad_with if line.cladding_m else line.center
    impedance_ohm = FREE_SPACE_OHM * line.velocity_factor * log(line.outer_diameter_m / line.inner_diameter_m)
    inner = surface_resistance_ohm(freq_hz, inner_metal) / line.inner_diameter_m
    outer = surface_resistance_ohm(freq_hz, line.shield) / line.outer_diameter_m
    return DB_PER_NEPER * (inner + outer) / (2 * pi * impedance_ohm)


def dielectric_loss_db_per_m(freq_hz: float, velocity_factor: float, loss_tangent: float) -> float:
    """Loss [dB/m] in the dielectric: 8.686 pi f tan d / (VF c).

    velocity_factor, loss_tangent [-]. Raises ValueError where a figure is not possible.
    Source: textbook; a public page prints 0.278 for 2.78 dB/100 ft, a factor of ten low.
    """
    if not freq_hz > 0 or not loss_tangent >= 0:
        raise ValueError("a frequency is above zero, a loss tangent zero or more")
    return DB_PER_NEPER * pi * freq_hz * loss_tangent * delay_s_per_m(velocity_factor)


def loss_db_per_m(freq_hz: float, line: CrossSection) -> float:
    """Loss [dB/m] by the two short forms, conductors and dielectric. Errors and limits: as theirs."""
    dielectric = dielectric_loss_db_per_m(freq_hz, line.velocity_factor, line.loss_tangent)
    return conductor_loss_db_per_m(freq_hz, line) + dielectric


@dataclass(frozen=True, slots=True)
class Wave:
    """How a wave travels on a line at one frequency."""

    propagation_per_m: complex
    """Attenuation [Np/m] and phase [rad/m]."""
    impedance_ohm: complex

    @property
    def loss_db_per_m(self) -> float:
        return DB_PER_NEPER * self.propagation_per_m.real

    def delay_s_per_m(self, freq_hz: float) -> float:
        """Phase delay [s/m] at the wave's own frequency [Hz]."""
        return self.propagation_per_m.imag / (2 * pi * freq_hz)


def exact_wave(freq_hz: float, line: CrossSection) -> Wave:
    """Propagation and complex impedance of a smooth line, with the exact impedance of both conductors.

    Z' = Z_center + Z_shield + j omega mu0 ln(D/d) / (2 pi), Y' = j omega 2 pi e0 er (1 - j tan d) / ln(D/d),
    gamma = sqrt(Z' Y'), Z0 = sqrt(Z' / Y')

    The center in two layers where it is clad, the shield thick against its skin depth. Below some 10 MHz the impedance
    is complex and higher than at radio frequencies, so formulas for real impedances are not to be used there.
    Raises ValueError where the frequency is not above zero.
    Source: textbook, telegraphers' equations; Schelkunoff 1934.
    """
    omega = 2 * pi * freq_hz
    ratio = log(line.outer_diameter_m / line.inner_diameter_m)
    inside = layered_wire_impedance_ohm_per_m(
        freq_hz, line.inner_diameter_m, line.cladding_m, line.center, line.clad_with
    ) + tube_impedance_ohm_per_m(freq_hz, line.outer_diameter_m, line.shield)
    series = inside + 1j * omega * FREE_SPACE_H_PER_M * ratio / (2 * pi)
    electric_f_per_m = permittivity(line.velocity_factor) / (FREE_SPACE_H_PER_M * SPEED_OF_LIGHT_M_PER_S**2)
    shunt = 1j * omega * 2 * pi * electric_f_per_m * (1 - 1j * line.loss_tangent) / ratio
    return Wave(complex_sqrt(series) * complex_sqrt(shunt), complex_sqrt(series) / complex_sqrt(shunt))


def clad_center_ratio(freq_hz: float, line: CrossSection) -> float:
    """Loss of a line with a clad center over that of the same line with a center all of the cladding's metal [-].

    Where the cladding is thinner than about 1.2 skin depths the core carries current and the loss leaves sqrt(f): of
    the 21 % class of copper-clad steel below some 7 MHz, of the thinnest retail wire below some 40 MHz.
    Raises ValueError as exact_wave does. Source: the exact two-layer solution.
    """
    solid = CrossSection(
        line.outer_diameter_m,
        line.inner_diameter_m,
        line.velocity_factor,
        line.loss_tangent,
        line.clad_with,
        line.shield,
    )
    return exact_wave(freq_hz, line).loss_db_per_m / exact_wave(freq_hz, solid).loss_db_per_m
