from __future__ import annotations

from math import log10

import pytest

from coaxwright.physics import geometry, line_loss
from coaxwright.physics.line_loss import CrossSection
from coaxwright.physics.skin_effect import Metal

DROP = CrossSection(4.57e-3, 1.024e-3, 0.85, 1e-4)


def test_conductor_loss_goes_with_the_root_and_dielectric_loss_with_the_frequency() -> None:
    assert line_loss.conductor_loss_db_per_m(400e6, DROP) == pytest.approx(
        2 * line_loss.conductor_loss_db_per_m(100e6, DROP)
    )
    assert line_loss.dielectric_loss_db_per_m(400e6, 0.85, 1e-4) == pytest.approx(
        4 * line_loss.dielectric_loss_db_per_m(100e6, 0.85, 1e-4)
    )


def test_the_sum_of_both() -> None:
    both = line_loss.conductor_loss_db_per_m(1e9, DROP) + line_loss.dielectric_loss_db_per_m(1e9, 0.85, 1e-4)
    assert line_loss.loss_db_per_m(1e9, DROP) == pytest.approx(both)


def test_a_fast_wave_has_the_geometrys_impedance_and_delay() -> None:
    wave = line_loss.exact_wave(3e9, DROP)
    assert wave.impedance_ohm.real == pytest.approx(geometry.characteristic_impedance_ohm(4.57, 1.024, 0.85), rel=0.002)
    assert wave.delay_s_per_m(3e9) == pytest.approx(geometry.delay_s_per_m(0.85), rel=0.002)


def test_a_slow_wave_is_slower_and_its_line_is_capacitive() -> None:
    slow, fast = line_loss.exact_wave(1e6, DROP), line_loss.exact_wave(100e6, DROP)
    assert slow.delay_s_per_m(1e6) > fast.delay_s_per_m(100e6)
    assert slow.impedance_ohm.imag < fast.impedance_ohm.imag < 0


def test_a_worse_metal_loses_more() -> None:
    aluminum = CrossSection(4.57e-3, 1.024e-3, 0.85, 1e-4, shield=Metal(2.8264e-8))
    assert line_loss.loss_db_per_m(1e9, aluminum) > line_loss.loss_db_per_m(1e9, DROP)
    assert line_loss.exact_wave(1e9, aluminum).loss_db_per_m > line_loss.exact_wave(1e9, DROP).loss_db_per_m


def test_a_thin_cladding_counts_as_solid_in_the_short_form_only() -> None:
    steel = CrossSection(4.57e-3, 1.024e-3, 0.85, 1e-4, center=Metal(1 / 6e6, 100), cladding_m=10e-6)
    assert line_loss.loss_db_per_m(5e6, steel) == line_loss.loss_db_per_m(5e6, DROP)
    assert line_loss.clad_center_ratio(5e6, steel) > 2


def test_a_neper() -> None:
    assert pytest.approx(8.685889638) == line_loss.DB_PER_NEPER == 20 * log10(2.718281828459045)


@pytest.mark.parametrize(
    ("figures", "words"),
    [
        ((1e-3, 2e-3, 0.85), "outside the center"),
        ((4e-3, 1e-3, 1.2), "velocity factor"),
        ((4e-3, 1e-3, 0.85, -1e-4), "loss tangent"),
    ],
)
def test_lines_that_cannot_be(figures: tuple[float, ...], words: str) -> None:
    with pytest.raises(ValueError, match=words):
        CrossSection(*figures)  # type: ignore[arg-type]


def test_other_refusals() -> None:
    with pytest.raises(ValueError, match="thinner than half"):
        CrossSection(4e-3, 1e-3, 0.85, cladding_m=0.5e-3)
    with pytest.raises(ValueError, match="above zero"):
        line_loss.dielectric_loss_db_per_m(0, 0.85, 1e-4)
    with pytest.raises(ValueError, match="above zero"):
        line_loss.exact_wave(0, DROP)
