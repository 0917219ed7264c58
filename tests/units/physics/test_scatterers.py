from __future__ import annotations

from math import inf

import numpy as np
import pytest

from coaxwright.physics import scatterers
from coaxwright.physics.figures import each, share_of_loss
from coaxwright.physics.mismatch import minimum_loss_pad
from coaxwright.physics.scattering import is_passive, transducer_gain_db

FREQS_HZ = [5e6, 1e9]


def test_ends() -> None:
    assert scatterers.termination(FREQS_HZ, 75) == [((0,),)] * 2
    assert scatterers.termination(FREQS_HZ, inf) == [((1,),)] * 2
    assert scatterers.termination(FREQS_HZ, 0) == [((-1,),)] * 2
    assert scatterers.termination(FREQS_HZ, [75, 150])[1][0][0] == pytest.approx(1 / 3)
    assert scatterers.termination([1e9], 50, 50) == [((0,),)]
    assert scatterers.reflecting_end(FREQS_HZ, [20, inf]) == [((0.1,),), ((0,),)]


def test_impedances_across_and_in_the_line() -> None:
    """75 ohm across 75 ohm: 2/3 passes; in the line: 2/3 too, with the other sign of reflection; textbook."""
    assert scatterers.shunt([1e9], 75)[0] == pytest.approx(np.array([[-1 / 3, 2 / 3], [2 / 3, -1 / 3]]))
    assert scatterers.series([1e9], 75)[0] == pytest.approx(np.array([[1 / 3, 2 / 3], [2 / 3, 1 / 3]]))


def test_none_and_all_across_and_in_the_line() -> None:
    through, broken = ((0, 1), (1, 0)), ((1, 0), (0, 1))
    assert scatterers.shunt([1e9], inf) == scatterers.series([1e9], 0) == [through]
    assert scatterers.series([1e9], inf) == [broken]
    assert scatterers.shunt([1e9], 0) == [((-1, 0), (0, -1))]


@pytest.mark.parametrize(("first_ohm", "second_ohm"), [(75, 50), (50, 75), (300, 75), (75, 75)])
def test_a_pad_matches_both_sides_and_loses_what_it_should(first_ohm: float, second_ohm: float) -> None:
    """Seen from its own two impedances, by the general formula of gain between unlike ends."""
    matrix = scatterers.matching_pad([1e9], first_ohm, second_ohm)[0]
    assert is_passive(matrix)
    ends = [(ohm - 75) / (ohm + 75) for ohm in (first_ohm, second_ohm)]
    loss_db = minimum_loss_pad(max(first_ohm, second_ohm), min(first_ohm, second_ohm)).loss_db
    for source, load in ((0, 1), (1, 0)):
        assert -transducer_gain_db(matrix, source, load, ends[source], ends[load]) == pytest.approx(loss_db, abs=1e-9)
        echo = matrix[source][load] * matrix[load][source] * ends[load] / (1 - matrix[load][load] * ends[load])
        assert matrix[source][source] + echo == pytest.approx(ends[source], abs=1e-12)


@pytest.mark.parametrize(("first_ohm", "second_ohm"), [(300, 75), (75, 300), (50, 75)])
def test_a_transformer_is_lossless(first_ohm: float, second_ohm: float) -> None:
    matrix = np.array(scatterers.transformer([1e9], first_ohm, second_ohm)[0])
    assert matrix.conj().T @ matrix == pytest.approx(np.eye(2), abs=1e-12)


def test_renormalizing_there_and_back() -> None:
    matrix = scatterers.line([1e9], 2, 1e-9, 60)[0]
    there = scatterers.renormalized(matrix, [75, 75], 50)
    assert np.array(scatterers.renormalized(there, [50, 50], 75)) == pytest.approx(np.array(matrix))


def test_a_line_in_its_own_impedance_does_not_reflect() -> None:
    matrix = scatterers.renormalized(scatterers.line([1e9], 2, 1e-9, 50)[0], [75, 75], 50)
    assert abs(matrix[0][0]) == pytest.approx(0, abs=1e-12)
    assert abs(matrix[1][0]) == pytest.approx(10 ** (-2 / 20))


def test_a_line_too_long_for_numbers_passes_nothing() -> None:
    matrix = scatterers.line([1e9], 1e7, 1e-3, 50)[0]
    assert matrix[0][1] == 0
    assert matrix[0][0] == pytest.approx(-0.2)


def test_figures_for_each_frequency() -> None:
    assert each(3.5, FREQS_HZ) == [3.5, 3.5]
    assert each([3.5, 4.2], FREQS_HZ) == [3.5, 4.2]
    with pytest.raises(ValueError, match="one for each frequency"):
        each([3.5], FREQS_HZ)
    with pytest.raises(ValueError, match="one for each frequency"):
        scatterers.termination(FREQS_HZ, [75])


@pytest.mark.parametrize("loss_db", [-0.1, float("nan")])
def test_a_loss_is_no_gain(loss_db: float) -> None:
    with pytest.raises(ValueError, match="zero or more"):
        share_of_loss(loss_db)


def test_refusals() -> None:
    for impedance_ohm in (-1, complex(-1, 5), float("nan")):
        for builder in (scatterers.termination, scatterers.shunt, scatterers.series):
            with pytest.raises(ValueError, match="gives no power"):
                builder([1e9], impedance_ohm)
    with pytest.raises(ValueError, match="at least two ports"):
        scatterers.bare_joint([1e9], 1)
    with pytest.raises(ValueError, match="loses nothing or something"):
        scatterers.line([1e9], -1, 0)
    with pytest.raises(ValueError, match="loses nothing or something"):
        scatterers.line([1e9], 1, 0, 0)
    with pytest.raises(ValueError, match="delay"):
        scatterers.line([1e9], 1, -1)
    with pytest.raises(ValueError, match="reference impedance"):
        scatterers.line([1e9], 1, 0, 75, 0)
    with pytest.raises(ValueError, match="every port"):
        scatterers.renormalized(((0j,),), [50, 50])
    with pytest.raises(ValueError, match="above zero"):
        scatterers.transformer([1e9], 0, 75)
