"""A cable whose loss was measured: the measured figure counts, temperature apart, and beyond it the class's spread."""

from __future__ import annotations

from math import sqrt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coaxwright.analysis import Analysis, LossRange
from coaxwright.analysis.measured import as_measured, measured_between
from coaxwright.design import understand
from coaxwright.network import Unknown, build_network
from coaxwright.rules.phrase_book import cause_text
from coaxwright.source import read_text

HEAD = "coaxwright: 1\ntitle: x (invented)\nbasis: {rulesets: [trade 1]}\n"
SITE = (
    "places: {loft: {exposure: attic, temperature: -10 to 50 °C}}\n"
    "devices: {DROP: {kind: coax drop}, TV: {kind: outlet}}\n"
    "cables: {C-1: {from: DROP, to: TV, type: series 6, route: [loft: 100 ft], state: existing%s}}\n"
)


def loss(more: str, freq_hz: float, text: str = SITE) -> LossRange | Unknown:
    network = build_network(understand(read_text(HEAD + text % more, "x")))
    return Analysis(network).line_figures(network.cables["C-1"], freq_hz)


def known(more: str, freq_hz: float) -> LossRange:
    found = loss(more, freq_hz)
    assert isinstance(found, LossRange)
    return found


def test_at_the_measured_frequency_the_measured_loss_counts() -> None:
    found = known(", measured loss: [5.5 dB at 500 MHz]", 500e6)
    assert found.nominal == pytest.approx(5.5)
    # 0.2 % per kelvin from 20 °C. Source: technical tip on attenuation and temperature (0.198 %), 30 K either way
    assert found.cold == pytest.approx(5.5 * (1 - 0.00198 * 30), rel=2e-3)
    assert found.hot == pytest.approx(5.5 * (1 + 0.00198 * 30), rel=2e-3)
    assert (found.low, found.high) == (found.cold, found.hot)


def test_beyond_what_was_measured_the_spread_of_the_class_remains() -> None:
    plain, measured = known("", 1000e6), known(", measured loss: [5.5 dB at 500 MHz]", 1000e6)
    ratio = 5.5 / known("", 500e6).nominal
    assert measured.nominal == pytest.approx(plain.nominal * ratio)
    assert measured.low == min(plain.low, plain.low * ratio)
    assert measured.high == pytest.approx(max(plain.high, plain.high * ratio))


def test_between_two_points_the_curve_of_the_class_is_drawn_through_both() -> None:
    more = ", measured loss: [9 dB at 1000 MHz, 2 dB at 100 MHz]"
    assert known(more, 100e6).nominal == pytest.approx(2)
    assert known(more, 1000e6).nominal == pytest.approx(9)
    at_low, at_high = 2 / known("", 100e6).nominal, 9 / known("", 1000e6).nominal
    share = (sqrt(400) - sqrt(100)) / (sqrt(1000) - sqrt(100))
    expected_db = known("", 400e6).nominal * (at_low + share * (at_high - at_low))
    assert known(more, 400e6).nominal == pytest.approx(expected_db)


def test_a_cable_without_a_length_is_known_where_it_was_measured() -> None:
    text = SITE.replace(", route: [loft: 100 ft]", "")
    found = loss(", measured loss: [2 dB at 100 MHz, 6 dB at 900 MHz]", 400e6, text)
    assert found == LossRange.exactly(pytest.approx(4))  # type: ignore[arg-type]  # halfway on the root scale
    beyond = loss(", measured loss: [2 dB at 100 MHz, 6 dB at 900 MHz]", 1000e6, text)
    assert isinstance(beyond, Unknown)
    assert cause_text(beyond) == "C-1 has no length and no route"


FIGURES = st.floats(0.01, 50).map(
    lambda loss_db: LossRange(0.8 * loss_db, 0.95 * loss_db, loss_db, 1.06 * loss_db, 1.2 * loss_db)
)
RATIOS = st.dictionaries(st.floats(5e6, 3e9), st.floats(0.5, 3), min_size=1, max_size=5).map(
    lambda points: sorted(points.items())
)


@given(FIGURES, RATIOS, st.floats(5e6, 3e9))
def test_the_figures_stay_in_order(table: LossRange, ratios: list[tuple[float, float]], freq_hz: float) -> None:
    found = as_measured(table, ratios, freq_hz)
    assert list(found) == sorted(found)


@given(RATIOS, st.floats(5e6, 3e9))
def test_between_points_nothing_leaves_their_range(points: list[tuple[float, float]], freq_hz: float) -> None:
    found = measured_between(points, freq_hz)
    if found is not None:
        values = [value for _, value in points]
        assert min(values) - 1e-9 <= found <= max(values) + 1e-9


def test_no_point_changes_nothing() -> None:
    table = LossRange(1, 2, 3, 4, 5)
    assert as_measured(table, [], 1e8) == table
