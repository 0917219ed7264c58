"""The sag of a cable between two points."""

from __future__ import annotations

import math

import pytest

from coaxwright.physics.spans import pull_in_weights, sag_m

LB_FT_N_M = 14.5939
"""Source: 4.44822 N per lbf over 0.3048 m per ft."""
LBF_N = 4.44822
FT_M = 0.3048


@pytest.mark.parametrize(
    ("weight_lb_ft", "span_ft", "pull_lbf", "sag_ft", "within_ft"),
    [
        (0.0007, 10.0, 30.0, 0.0003, 0.001),  # millwrights' note on tight wires
        (0.0007, 100.0, 30.0, 0.03, 0.001),  # the same note
        (0.073, 127.5, 400.0, 0.4, 0.04),  # a reading of a nomograph for guys
    ],
)
def test_published_sags(weight_lb_ft: float, span_ft: float, pull_lbf: float, sag_ft: float, within_ft: float) -> None:
    sag = sag_m(weight_lb_ft * LB_FT_N_M, span_ft * FT_M, pull_lbf * LBF_N)
    assert sag / FT_M == pytest.approx(sag_ft, abs=within_ft)


@pytest.mark.parametrize("share", [0.005, 0.01, 0.02, 0.05])
def test_the_parabola_stays_by_the_catenary(share: float) -> None:
    """Sag of a catenary y = a cosh(x/a): a (cosh(L/2a) - 1), its lowest pull w a (textbook)."""
    span, weight = 30.0, 0.5
    a = pull_in_weights(share) * span
    catenary = a * (math.cosh(span / (2 * a)) - 1)
    assert sag_m(weight, span, weight * a) == pytest.approx(share * span)
    assert catenary == pytest.approx(share * span, rel=0.004)


@pytest.mark.parametrize("share", [0.0, -0.01, 0.11])
def test_a_share_that_is_no_sag_is_refused(share: float) -> None:
    with pytest.raises(ValueError, match="sag"):
        pull_in_weights(share)


def test_a_slack_cable_and_no_pull_are_refused() -> None:
    with pytest.raises(ValueError, match="tenth of the span"):
        sag_m(10.0, 30.0, 30.0)
    with pytest.raises(ValueError, match="above zero"):
        sag_m(1.0, 30.0, 0.0)
