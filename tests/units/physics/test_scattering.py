from __future__ import annotations

from math import inf, log10, sqrt

import numpy as np
import pytest

from coaxwright.physics import dividers, inserts, mismatch, scatterers
from coaxwright.physics.geometry import delay_s_per_m
from coaxwright.physics.matrices import Matrix
from coaxwright.physics.scattering import (
    Port,
    Resonance,
    ScatteringNetwork,
    is_passive,
    level_shift_db,
    port_return_loss_db,
    solved,
    transducer_gain_db,
)

FREQS_HZ = [5e6, 54e6, 550e6, 1002e6, 2150e6, 3000e6]


def chain(*parts: list[Matrix]) -> list[Matrix]:
    names = {f"part {index}": grid for index, grid in enumerate(parts)}
    joints = [(Port(f"part {index}", 1), Port(f"part {index + 1}", 0)) for index in range(len(parts) - 1)]
    return solved(ScatteringNetwork(names, joints, [Port("part 0", 0), Port(f"part {len(parts) - 1}", 1)]))


def ended(part: list[Matrix], number: int, end: list[Matrix]) -> list[Matrix]:
    outer = [Port("part", index) for index in range(len(part[0])) if index != number]
    return solved(ScatteringNetwork({"part": part, "end": end}, [(Port("part", number), Port("end", 0))], outer))


def test_losses_of_matched_parts_add() -> None:
    grid = chain(
        scatterers.line(FREQS_HZ, 3.25, 1e-8), dividers.through(FREQS_HZ, 0.5), scatterers.line(FREQS_HZ, 1.5, 2e-8)
    )
    for matrix in grid:
        assert transducer_gain_db(matrix, 0, 1) == pytest.approx(-5.25)
        assert port_return_loss_db(matrix, 0) > 250


def test_a_row_of_answers_for_a_row_of_frequencies() -> None:
    assert len(chain(scatterers.line(FREQS_HZ, 3.25, 1e-8))) == len(FREQS_HZ)
    assert chain(scatterers.line([], 3.25, 1e-8)) == []


def test_a_quarter_wave_of_50_ohm() -> None:
    """0.695 dB and 8.30 dB; textbook."""
    freq_hz = 1 / (4 * delay_s_per_m(0.66) * 0.04)
    matrix = chain(scatterers.line([freq_hz], 0, 0.04 * delay_s_per_m(0.66), 50))[0]
    assert -transducer_gain_db(matrix, 0, 1) == pytest.approx(inserts.insert_peak_loss_db(50, 75), abs=1e-9)
    assert port_return_loss_db(matrix, 0) == pytest.approx(8.30, abs=0.005)


def test_three_bodies_at_like_distances_add_in_step() -> None:
    """Three 40 mm pieces of 50 ohm, 2 m apart: 4.9 dB at 1.2 GHz; derived apart from the project."""
    body = scatterers.line([1.2e9], 0, 0.04 * delay_s_per_m(0.66), 50)
    cable_db = 0.4 * sqrt(1.2)
    cable = scatterers.line([1.2e9], cable_db, 2 * delay_s_per_m(0.82))
    extra_db = -transducer_gain_db(chain(body, cable, body, cable, body)[0], 0, 1) - 2 * cable_db
    assert extra_db == pytest.approx(4.9, abs=0.05)
    assert extra_db > 3 * inserts.insert_peak_loss_db(50, 75)


def test_a_bare_tee() -> None:
    """3.52 dB and 9.54 dB; textbook."""
    matrix = ended(scatterers.bare_joint([1e9]), 2, scatterers.termination([1e9], 75))[0]
    assert transducer_gain_db(matrix, 0, 1) == pytest.approx(-3.522, abs=0.0005)
    assert port_return_loss_db(matrix, 0) == pytest.approx(9.542, abs=0.0005)


def test_an_open_stub_notches() -> None:
    """34 dB at 20.5 MHz for 3 m; derived apart from the project, and by the closed form."""
    freq_hz = inserts.stub_notch_hz(3, 0.82)
    loss_db = 0.03 * (0.65 * sqrt(freq_hz / 1e6) + 0.001 * freq_hz / 1e6)
    parts = {
        "tee": scatterers.bare_joint([freq_hz]),
        "stub": scatterers.line([freq_hz], loss_db, 3 * delay_s_per_m(0.82)),
        "open": scatterers.termination([freq_hz], inf),
    }
    joints = [(Port("tee", 2), Port("stub", 0)), (Port("stub", 1), Port("open", 0))]
    matrix = solved(ScatteringNetwork(parts, joints, [Port("tee", 0), Port("tee", 1)]))[0]
    assert -transducer_gain_db(matrix, 0, 1) == pytest.approx(34, abs=0.1)
    assert -transducer_gain_db(matrix, 0, 1) == pytest.approx(inserts.stub_notch_depth_db(loss_db), abs=1e-6)


def test_a_load_seen_through_a_line() -> None:
    for matrix in ended(scatterers.line(FREQS_HZ, 4, 1e-8), 1, scatterers.reflecting_end(FREQS_HZ, 6)):
        assert port_return_loss_db(matrix, 0) == pytest.approx(mismatch.return_loss_through_line_db(6, 4))


def test_total_loss_of_a_line_with_a_poor_load() -> None:
    """Power into the load over power into the line, from the waves."""
    reflection, loss_db = 0.5, 3.0
    line = scatterers.line([1e8], loss_db, 1.23e-8)
    seen = ended(line, 1, scatterers.termination([1e8], 225))[0][0][0]
    gain_db = transducer_gain_db(line[0], 0, 1, 0, reflection)
    total_db = 10 * log10(1 - abs(seen) ** 2) - gain_db
    assert total_db == pytest.approx(mismatch.total_line_loss_db(loss_db, reflection))


@pytest.mark.parametrize(("load_ohm", "loss_db"), [(50, 0.18), (150, 0.51)], ids=["50 ohm", "150 ohm"])
def test_a_bad_load_costs_its_mismatch(load_ohm: float, loss_db: float) -> None:
    """0.18 and 0.51 dB in 75 ohm; derived apart from the project."""
    reflection = mismatch.reflection_coefficient(load_ohm, 75)
    line = scatterers.line([1e9], 2, 1e-8)[0]
    assert transducer_gain_db(line, 0, 1, 0, reflection) == pytest.approx(-2 - loss_db, abs=0.005)


def test_the_ripple_between_two_mismatches_is_what_the_limits_say() -> None:
    freqs_hz = [1e9 + step * 2e5 for step in range(1200)]
    line = scatterers.line(freqs_hz, 1.5, 5e-8)
    losses = [transducer_gain_db(matrix, 0, 1, 0.3, 0.4) for matrix in line]
    low_db, high_db = mismatch.ripple_limits_db(0.3, 0.4, 1.5)
    plain_db = -1.5 - mismatch.mismatch_loss_db(0.3) - mismatch.mismatch_loss_db(0.4)
    assert max(losses) - plain_db == pytest.approx(-low_db, abs=0.002)
    assert min(losses) - plain_db == pytest.approx(-high_db, abs=0.002)


def test_voltage_at_another_impedance() -> None:
    """The same power is 1.76 dB less voltage in 50 ohm."""
    assert level_shift_db(-3, 75, 50) == pytest.approx(-4.7609, abs=0.0001)
    with pytest.raises(ValueError, match="above zero"):
        level_shift_db(0, 75, 0)


def test_a_splitter_with_all_phases_alike_is_not_passive() -> None:
    """3.5 dB, 18 dB, 22 dB, all real: greatest singular value 1.11; derived apart from the project."""
    back, across, way = 10 ** (-18 / 20), 10 ** (-22 / 20), 10 ** (-3.5 / 20)
    real: Matrix = ((back, way, way), (way, back, across), (way, across, back))
    assert float(np.linalg.svd(np.array(real), compute_uv=False).max()) == pytest.approx(1.11, abs=0.01)
    assert not is_passive(real)
    assert is_passive(dividers.divider([1e9], [3.5, 3.5], 18, 18, 22)[0])


@pytest.mark.parametrize("seed", range(30))
def test_passive_against_the_singular_values_of_numpy(seed: int) -> None:
    chance = np.random.default_rng(seed)
    matrix = chance.normal(size=(4, 4)) + 1j * chance.normal(size=(4, 4))
    matrix *= (0.8 + 0.4 * chance.random()) / np.linalg.svd(matrix, compute_uv=False).max()
    expected = bool(np.linalg.svd(matrix, compute_uv=False).max() <= 1)
    assert is_passive(tuple(map(tuple, matrix.tolist()))) is expected


def test_a_lossless_part_is_passive() -> None:
    assert is_passive(scatterers.line([1e9], 0, 1e-8, 50)[0])
    assert is_passive(scatterers.bare_joint([1e9], 5)[0])
    assert not is_passive(dividers.amplifier([1e9], 10)[0])


def test_a_ring_of_loss_keeps_no_more_than_comes_in() -> None:
    """A loop of cable between two outputs of a splitter; every other port is outside."""
    parts = {"splitter": dividers.divider(FREQS_HZ, [3.5, 3.5], 18, 18, 22), "loop": scatterers.line(FREQS_HZ, 1, 1e-8)}
    joints = [(Port("splitter", 1), Port("loop", 0)), (Port("splitter", 2), Port("loop", 1))]
    assert all(map(is_passive, solved(ScatteringNetwork(parts, joints, [Port("splitter", 0)]))))


def test_ports_of_one_part_may_face_each_other() -> None:
    """A way through of 2 dB whose ends meet within a part of two such ways leaves the other way alone."""
    way = dividers.through([1e9], 2)[0]
    none = (0j, 0j)
    both: Matrix = ((*way[0], *none), (*way[1], *none), (*none, *way[0]), (*none, *way[1]))
    network = ScatteringNetwork(
        {"both": [both]}, [(Port("both", 1), Port("both", 2))], [Port("both", 0), Port("both", 3)]
    )
    assert transducer_gain_db(solved(network)[0], 0, 1) == pytest.approx(-4)


def test_two_shorts_at_one_bare_tee_settle_nothing() -> None:
    short = scatterers.termination([1e9], 0)
    parts = {"tee": scatterers.bare_joint([1e9]), "one": short, "other": short}
    joints = [(Port("tee", 1), Port("one", 0)), (Port("tee", 2), Port("other", 0))]
    with pytest.raises(Resonance, match="without any loss"):
        solved(ScatteringNetwork(parts, joints, [Port("tee", 0)]))


@pytest.mark.parametrize(
    ("joints", "outer", "words"),
    [
        ([], [Port("tee", 0), Port("tee", 1)], "port 2 of tee is joined to nothing"),
        ([(Port("tee", 1), Port("tee", 1))], [Port("tee", 0), Port("tee", 2)], "port 1 of tee is joined twice"),
        ([], [Port("tee", number) for number in range(4)], "no port 3 at tee"),
        ([(Port("tee", 1), Port("cable", 0))], [Port("tee", 0), Port("tee", 2)], "no port 0 at cable"),
    ],
)
def test_networks_that_cannot_be(joints: list[tuple[Port, Port]], outer: list[Port], words: str) -> None:
    with pytest.raises(ValueError, match=words):
        ScatteringNetwork({"tee": scatterers.bare_joint([1e9])}, joints, outer)


def test_grids_and_matrices_that_do_not_fit() -> None:
    tee = scatterers.bare_joint([1e9])
    with pytest.raises(ValueError, match="one grid"):
        ScatteringNetwork({"tee": tee, "end": scatterers.termination([1e9, 2e9], 75)}, [], [])
    with pytest.raises(ValueError, match="square"):
        ScatteringNetwork({"tee": [*tee, ((0j,),)]}, [], [])


@pytest.mark.parametrize("reflections", [(1.0, 0.0), (0.0, -1.0)])
def test_a_source_that_reflects_all_gives_nothing(reflections: tuple[float, float]) -> None:
    with pytest.raises(ValueError, match="less than all"):
        transducer_gain_db(scatterers.line([1e9], 1, 0)[0], 0, 1, *reflections)


def test_no_way_between_two_ports() -> None:
    matrix = dividers.divider([1e9], [3.5, 3.5])[0]
    assert transducer_gain_db(matrix, 1, 2) == -inf
    assert port_return_loss_db(matrix, 0) == inf
