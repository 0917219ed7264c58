"""Whatever goes in: figures stay figures, nothing passive gives out more than it gets, backwards is as forwards."""

from __future__ import annotations

from collections.abc import Callable
from math import inf, isfinite

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from coaxwright.physics import (
    attenuation,
    cascade,
    dividers,
    geometry,
    inserts,
    levels,
    line_loss,
    loss_fit,
    mismatch,
    pads,
    scatterers,
    skin_effect,
    tilt,
)
from coaxwright.physics.matrices import Matrix
from coaxwright.physics.scattering import Port, ScatteringNetwork, is_passive, solved, transducer_gain_db

FREQS_HZ = [5e6, 137e6, 1002e6, 2999e6]

decibels = st.floats(min_value=0, max_value=150)
some_decibels = st.floats(min_value=0.1, max_value=60)
any_level = st.floats(min_value=-200, max_value=200)
frequencies = st.floats(min_value=1e3, max_value=1e10)
impedances = st.floats(min_value=1, max_value=1000)
reflections = st.floats(min_value=-0.99, max_value=0.99)
lengths_m = st.floats(min_value=1e-3, max_value=1e3)
velocities = st.floats(min_value=0.4, max_value=1)
temperatures_c = st.floats(min_value=-60, max_value=120)
ratios = st.floats(min_value=0, max_value=0.99)
counts = st.integers(min_value=1, max_value=1000)

FIGURES: list[tuple[Callable[..., float], tuple[st.SearchStrategy[float] | st.SearchStrategy[int], ...]]] = [
    (levels.dbmv_of_dbm, (any_level, impedances)),
    (levels.dbm_of_dbmv, (any_level, impedances)),
    (levels.volts_of_dbmv, (any_level,)),
    (levels.watts_of_dbm, (any_level,)),
    (levels.total_of_equal_carriers_db, (any_level, counts)),
    (levels.bandwidth_correction_db, (frequencies, frequencies)),
    (levels.us_minimum_level_mv, (impedances,)),
    (attenuation.loss_scaled, (decibels, frequencies, frequencies)),
    (attenuation.loss_at_temperature, (decibels, temperatures_c)),
    (attenuation.conductor_loss_at_temperature, (decibels, temperatures_c)),
    (mismatch.total_line_loss_db, (decibels, reflections)),
    (mismatch.return_loss_through_line_db, (decibels, decibels)),
    (inserts.insert_loss_db, (impedances, impedances, lengths_m, velocities, frequencies)),
    (inserts.insert_peak_loss_db, (impedances, impedances)),
    (inserts.stub_notch_hz, (lengths_m, velocities)),
    (inserts.stub_notch_depth_db, (some_decibels,)),
    (tilt.tilt_of_loss_db, (decibels, ratios)),
    (tilt.equalizer_value_db, (decibels, ratios)),
    (skin_effect.skin_depth_m, (frequencies,)),
    (skin_effect.surface_resistance_ohm, (frequencies,)),
    (line_loss.dielectric_loss_db_per_m, (frequencies, velocities, st.floats(min_value=0, max_value=0.1))),
    (geometry.delay_s_per_m, (velocities,)),
    (cascade.funnelled_noise_dbmv, (any_level, counts)),
    (lambda loss_db, ohm: pads.pi_pad(loss_db, ohm).series_ohm, (some_decibels, impedances)),
    (lambda loss_db, ohm: pads.pi_pad(loss_db, ohm).shunt_ohm, (some_decibels, impedances)),
]


@pytest.mark.parametrize(("function", "figures"), FIGURES)
@given(data=st.data())
@settings(max_examples=40)
def test_finite_figures_give_finite_figures(
    function: Callable[..., float],
    figures: tuple[st.SearchStrategy[float] | st.SearchStrategy[int], ...],
    data: st.DataObject,
) -> None:
    assert isfinite(function(*(data.draw(figure) for figure in figures)))


@given(
    frequencies,
    st.floats(min_value=5e-5, max_value=5e-3),
    st.floats(min_value=1.2, max_value=20),
    velocities,
    st.floats(min_value=0, max_value=0.99),
    st.floats(min_value=1, max_value=1000),
)
def test_a_wave_on_any_line_fades_and_goes_forward(
    freq_hz: float, inner_m: float, ratio: float, velocity: float, clad_share: float, permeability: float
) -> None:
    steel = skin_effect.Metal(1 / 6e6, permeability)
    cladding_m = clad_share * inner_m / 2
    line = line_loss.CrossSection(inner_m * ratio, inner_m, velocity, 1e-4, center=steel, cladding_m=cladding_m)
    wave = line_loss.exact_wave(freq_hz, line)
    assert 0 < wave.propagation_per_m.real < inf
    assert 0 < wave.propagation_per_m.imag < inf
    assert wave.impedance_ohm.real > 0
    assert wave.impedance_ohm.imag < 0 or wave.impedance_ohm.imag == pytest.approx(0, abs=1e-2)


@given(st.floats(min_value=1e4, max_value=1e10), st.floats(min_value=1e-5, max_value=1e-2), st.floats(0.0, 0.9), ratios)
def test_thicker_copper_on_steel_never_turns_resistance_negative(
    freq_hz: float, diameter_m: float, share: float, other: float
) -> None:
    steel = skin_effect.Metal(1 / 6e6, 100)
    for cladding in (share, other * 0.9):
        impedance = skin_effect.layered_wire_impedance_ohm_per_m(freq_hz, diameter_m, cladding * diameter_m / 2, steel)
        assert impedance.real > 0
        assert impedance.imag > 0


@given(
    st.lists(st.tuples(st.floats(1e6, 3e9), st.floats(0.01, 200)), min_size=3, max_size=12, unique_by=lambda p: p[0])
)
def test_every_fit_has_no_negative_term(points: list[tuple[float, float]]) -> None:
    points.sort()
    curve = loss_fit.fit_loss([freq for freq, _ in points], [loss for _, loss in points])
    assert min(curve.constant, curve.per_root_mhz, curve.per_mhz) >= 0
    assert all(isfinite(curve.loss(freq)) and curve.loss(freq) >= 0 for freq, _ in points)


@st.composite
def passive_parts(draw: st.DrawFn) -> list[Matrix]:
    kind = draw(st.sampled_from(["line", "divider", "through", "joint", "shunt", "series", "pad"]))
    if kind == "line":
        impedance_ohm = draw(st.sampled_from([50.0, 75.0, 93.0]) | impedances)
        return scatterers.line(FREQS_HZ, draw(st.floats(0.01, 40)), draw(st.floats(0, 1e-6)), impedance_ohm)
    if kind == "divider":
        losses = draw(st.lists(st.floats(6.1, 30), min_size=1, max_size=4))
        return dividers.divider(FREQS_HZ, losses, draw(decibels), draw(decibels), draw(decibels), within_loss=True)
    if kind == "through":
        return dividers.through(FREQS_HZ, draw(st.floats(0, 20)), draw(decibels), within_loss=True)
    if kind == "joint":
        return scatterers.bare_joint(FREQS_HZ, draw(st.integers(2, 5)))
    if kind == "pad":
        return scatterers.matching_pad(FREQS_HZ, draw(impedances), draw(impedances))
    builder = scatterers.shunt if kind == "shunt" else scatterers.series
    return builder(FREQS_HZ, draw(st.floats(0.5, 5000)))


@st.composite
def passive_trees(draw: st.DrawFn) -> ScatteringNetwork:
    """Parts joined one by one; every free port but the first is left outside or gets an end that keeps some power."""
    parts = {
        f"part {index}": grid for index, grid in enumerate(draw(st.lists(passive_parts(), min_size=1, max_size=7)))
    }
    joints: list[tuple[Port, Port]] = []
    free: list[Port] = []
    for name, grid in list(parts.items()):
        ports = [Port(name, number) for number in range(len(grid[0]))]
        if free:
            joints.append((free.pop(draw(st.integers(0, len(free) - 1))), ports.pop(0)))
        free.extend(ports)
    outer = free[:1]
    for number, port in enumerate(free[1:]):
        if draw(st.booleans()):
            outer.append(port)
        else:
            parts[f"end {number}"] = scatterers.termination(FREQS_HZ, draw(st.sampled_from([1.0, 50.0, 75.0, 1e4])))
            joints.append((port, Port(f"end {number}", 0)))
    return ScatteringNetwork(parts, joints, outer)


@given(passive_trees())
def test_no_passive_network_gives_out_more_than_comes_in(network: ScatteringNetwork) -> None:
    for matrix in solved(network):
        assert is_passive(matrix, 1e-7)
        for port in range(1, len(matrix)):
            assert transducer_gain_db(matrix, 0, port, 0.3, -0.4j) <= 1e-6


@given(passive_trees())
def test_backwards_as_forwards(network: ScatteringNetwork) -> None:
    for matrix in solved(network):
        for row in range(len(matrix)):
            for column in range(row):
                assert matrix[row][column] == pytest.approx(matrix[column][row], abs=1e-9)


@given(st.lists(st.tuples(st.floats(0, 20), st.floats(8, 30), st.floats(0.8, 3)), min_size=1, max_size=6))
def test_a_sum_of_decibels_is_the_solved_network_where_all_is_matched(
    figures: list[tuple[float, float, float]],
) -> None:
    """A cascade of taps without reflections, its last through port outside."""
    stages = [cascade.TapStage(*figure) for figure in figures]
    parts: dict[str, list[Matrix]] = {}
    joints: list[tuple[Port, Port]] = []
    for index, stage in enumerate(stages):
        parts[f"cable {index}"] = scatterers.line(FREQS_HZ, stage.cable_db, 1e-8 * (index + 1))
        parts[f"tap {index}"] = dividers.divider(FREQS_HZ, [stage.through_db, stage.tap_db])
        joints.append((Port(f"cable {index}", 1), Port(f"tap {index}", 0)))
        if index:
            joints.append((Port(f"tap {index - 1}", 1), Port(f"cable {index}", 0)))
    taps = [Port(f"tap {index}", 2) for index in range(len(stages))]
    outer = [Port("cable 0", 0), *taps, Port(f"tap {len(stages) - 1}", 1)]
    summed = cascade.tap_cascade(0.0, stages)
    for matrix in solved(ScatteringNetwork(parts, joints, outer)):
        for index, level in enumerate(summed):
            assert transducer_gain_db(matrix, 0, index + 1) == pytest.approx(level.at_tap, abs=1e-9)
        assert transducer_gain_db(matrix, 0, len(outer) - 1) == pytest.approx(summed[-1].passed_on, abs=1e-9)


@given(st.lists(any_level, min_size=1, max_size=20))
def test_sums_lie_between_the_strongest_and_all_as_strong_as_it(signals: list[float]) -> None:
    strongest, total = max(signals), levels.sum_of_powers_db(signals)
    assert strongest <= total <= levels.total_of_equal_carriers_db(strongest, len(signals)) + 1e-9
    assert total <= levels.sum_of_voltages_db(signals) + 1e-9


@given(decibels, decibels, decibels, decibels)
def test_two_ways_are_never_worse_in_step_than_opposed(
    isolation_db: float, split_a_db: float, split_b_db: float, return_loss_db: float
) -> None:
    ways = cascade.port_to_port(isolation_db, split_a_db, split_b_db, return_loss_db)
    assert ways.least_db <= ways.most_db
    assert isfinite(ways.least_db)
