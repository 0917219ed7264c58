"""Inductance of a bonding conductor and loss of the air between antennas, each computed a second way."""

from __future__ import annotations

from math import asinh, hypot, log10, pi, sinh, sqrt

import pytest
from scipy.integrate import dblquad

from coaxwright.design.quantities import Conductor
from coaxwright.physics.bonds import free_space_loss_db, straight_wire_inductance_uh, surge_voltage_kv


@pytest.mark.parametrize(
    ("length_m", "area_mm2"), [(0.05, 50.0), (0.2, 16.0), (1.0, 4.0), (6.0, 5.26)], ids=lambda value: str(value)
)
def test_against_neumanns_integral(length_m: float, area_mm2: float) -> None:
    """F. E. Neumann, Allgemeine Gesetze der inducirten elektrischen Ströme (1845): M = mu0/4pi int int dx dy / R.

    The current in the skin of a wire sees the field of a filament in its axis, one radius away.
    """
    radius_m = sqrt(area_mm2 / pi) * 1e-3
    # Over y and the distance u of the two points along the wire; u = r sinh t spreads the steep middle.
    whole, _ = dblquad(lambda y, t: 2.0, 0.0, asinh(length_m / radius_m), 0.0, lambda t: length_m - radius_m * sinh(t))
    assert straight_wire_inductance_uh(length_m, area_mm2) == pytest.approx(0.1 * whole, rel=1e-6)


def test_the_figure_in_the_reason_of_the_length_rule() -> None:
    """About 1.7 µH to a meter, says ``bonding.conductor-length``: so it is of 26 ft of 10 AWG; from memory."""
    area_mm2 = Conductor.parse("10 AWG copper").size.area_mm2
    assert straight_wire_inductance_uh(7.92, area_mm2) / 7.92 == pytest.approx(1.7, rel=0.03)


def test_voltage_is_inductance_times_rise() -> None:
    """1 µH and 1 kA/µs make 1 kV: u = L di/dt in SI units."""
    assert surge_voltage_kv(1.0) == pytest.approx(1e-6 * 1e3 / 1e-6 / 1e3)
    assert surge_voltage_kv(2.5, 4.0) == pytest.approx(10.0)


@pytest.mark.parametrize(("distance_km", "freq_mhz"), [(0.01, 700.0), (0.1, 1900.0), (10.0, 100.0)])
def test_free_space_against_the_form_of_itu(distance_km: float, freq_mhz: float) -> None:
    """ITU-R P.525: 32.4 + 20 log10(f in MHz) + 20 log10(d in km), the constant rounded to a tenth."""
    itu_db = 32.4 + 20 * log10(freq_mhz) + 20 * log10(distance_km)
    assert free_space_loss_db(distance_km * 1e3, freq_mhz * 1e6) == pytest.approx(itu_db, abs=0.06)


@pytest.mark.parametrize("figures", [(0.0, 1.0), (1.0, 0.0), (-1.0, 1.0)])
def test_nothing_is_refused(figures: tuple[float, float]) -> None:
    with pytest.raises(ValueError, match="above zero"):
        straight_wire_inductance_uh(*figures)
    with pytest.raises(ValueError, match="above zero"):
        free_space_loss_db(*figures)


def test_a_short_fat_wire_stays_above_nothing() -> None:
    """A cube-like piece has little, and never less than none: the closed form is exact at every ratio."""
    for length_m in (1e-4, 1e-3, 1e-2):
        inductance_uh = straight_wire_inductance_uh(length_m, 50.0)
        assert 0.0 < inductance_uh < 0.2 * length_m * (asinh(length_m / 3.9e-3) + hypot(1, 1))
