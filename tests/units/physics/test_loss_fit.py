from __future__ import annotations

from math import sqrt

import numpy as np
import pytest
from scipy.optimize import nnls

from coaxwright.physics.attenuation import FrequencyOutsideTable
from coaxwright.physics.loss_fit import LossCurve, fit_loss

CURVE = LossCurve(0.1, 0.6, 0.001, 5e6, 1e9)


def test_the_three_terms() -> None:
    assert CURVE.loss(100e6) == pytest.approx(0.1 + 6 + 0.1)


@pytest.mark.parametrize("freq_hz", [4.9e6, 1.01e9])
def test_never_outside_its_range(freq_hz: float) -> None:
    with pytest.raises(FrequencyOutsideTable, match="outside the attenuation table, 5 to 1000 MHz"):
        CURVE.loss(freq_hz)


def test_its_ends_are_within() -> None:
    assert CURVE.loss(5e6) < CURVE.loss(1e9)


@pytest.mark.parametrize("coefficients", [(-0.1, 1, 0), (0, -1, 0), (0, 1, -1e-9), (0, float("nan"), 0)])
def test_negative_coefficients_are_refused(coefficients: tuple[float, float, float]) -> None:
    with pytest.raises(ValueError, match="zero or more"):
        LossCurve(*coefficients, 5e6, 1e9)


def test_a_range_that_cannot_be() -> None:
    with pytest.raises(ValueError, match="range"):
        LossCurve(0, 1, 0, 1e9, 5e6)


def test_a_fit_finds_the_curve_that_made_the_table() -> None:
    table_hz = [freq_mhz * 1e6 for freq_mhz in (5, 10, 50, 200, 500, 1000)]
    fitted = fit_loss(table_hz, [CURVE.loss(freq) for freq in table_hz])
    assert (fitted.constant, fitted.per_root_mhz, fitted.per_mhz) == pytest.approx((0.1, 0.6, 0.001), rel=1e-9)
    assert (fitted.lowest_hz, fitted.highest_hz) == (5e6, 1e9)


@pytest.mark.parametrize("seed", range(20))
def test_against_scipy_non_negative_least_squares(seed: int) -> None:
    chance = np.random.default_rng(seed)
    freq_mhz = np.sort(chance.uniform(5, 3000, 8))
    loss = (0.2 + 0.6 * np.sqrt(freq_mhz) - 0.004 * freq_mhz) * chance.uniform(0.9, 1.1, 8)
    loss = np.maximum(loss, 0.5)
    expected, _ = nnls(np.stack([np.ones(8), np.sqrt(freq_mhz), freq_mhz], axis=1) / loss[:, None], np.ones(8))
    fitted = fit_loss([float(freq) * 1e6 for freq in freq_mhz], [float(value) for value in loss])
    computed = (fitted.constant, fitted.per_root_mhz, fitted.per_mhz)
    assert computed == pytest.approx(tuple(map(float, expected)), rel=1e-6, abs=1e-9)


def test_warmth_changes_the_conductors_only() -> None:
    """Copper's 0.00393 per K under the root."""
    warm = CURVE.at_temperature(50)
    assert warm.per_root_mhz == pytest.approx(0.6 * sqrt(1 + 0.00393 * 30))
    assert (warm.constant, warm.per_mhz) == (0.1, 0.001)


@pytest.mark.parametrize(
    ("table_hz", "table_loss", "words"),
    [
        ([1e6, 2e6], [1, 2], "as many points as terms"),
        ([1e6, 2e6, 3e6], [1, 2], "one loss for each"),
        ([2e6, 1e6, 3e6], [1, 2, 3], "rise"),
        ([0, 1e6, 3e6], [1, 2, 3], "above zero"),
        ([1e6, 2e6, 3e6], [1, 0, 3], "a loss is above zero"),
    ],
)
def test_tables_that_cannot_be_fitted(table_hz: list[float], table_loss: list[float], words: str) -> None:
    with pytest.raises(ValueError, match=words):
        fit_loss(table_hz, table_loss)
