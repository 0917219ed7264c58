from __future__ import annotations

from math import inf, log10

import pytest

from coaxwright.physics.dividers import amplifier, divider, through
from coaxwright.physics.dividing import ideal_split_db
from coaxwright.physics.matrices import Matrix
from coaxwright.physics.scattering import is_passive

FREQS_HZ = [5e6, 1e9]


def sizes_db(matrix: Matrix, pairs: list[tuple[int, int]]) -> list[float]:
    return [-20 * log10(abs(matrix[to][source])) for to, source in pairs]


@pytest.mark.parametrize(
    ("loss_db", "ways"), [(3.5, 2), (5.8, 3), (7.0, 4), (9.5, 6), (10.5, 8), (12.5, 12), (14.5, 16)]
)
def test_trade_splitters_can_be_made_passive(loss_db: float, ways: int) -> None:
    """Usual losses with 18 dB return loss and 22 dB isolation; common practice, no source."""
    matrix = divider([1e9], [loss_db] * ways, 18, 18, 22)[0]
    assert is_passive(matrix)
    assert sizes_db(matrix, [(1, 0), (0, ways), (0, 0), (1, 1), (2, 1)]) == pytest.approx(
        [loss_db, loss_db, 18, 18, 22]
    )


@pytest.mark.parametrize(("through_db", "tap_db"), [(2.4, 6), (1.6, 9), (1.1, 12), (0.8, 16), (0.7, 20), (0.6, 27)])
def test_trade_taps_can_be_made_passive(through_db: float, tap_db: float) -> None:
    """Usual losses with 18 dB return loss and 25 dB isolation; common practice, no source."""
    matrix = divider([1e9], [through_db, tap_db], 18, 18, 25)[0]
    assert is_passive(matrix)
    assert sizes_db(matrix, [(1, 0), (2, 0), (2, 1)]) == pytest.approx([through_db, tap_db, 25])


def test_backwards_as_forwards() -> None:
    matrix = divider([1e9], [3.6, 7.2, 7.2], 18, 18, 22)[0]
    assert matrix == tuple(zip(*matrix, strict=True))


def test_the_ideal_splitter() -> None:
    matrix = divider([1e9], [ideal_split_db(2)] * 2)[0]
    assert is_passive(matrix)
    assert matrix[1][2] == matrix[0][0] == 0


def test_figures_may_change_with_frequency() -> None:
    low, high = divider(FREQS_HZ, [[3.5, 4.2], [3.5, 4.2]], [20, 16])
    assert sizes_db(low, [(1, 0), (0, 0)]) == pytest.approx([3.5, 20])
    assert sizes_db(high, [(1, 0), (0, 0)]) == pytest.approx([4.2, 16])


@pytest.mark.parametrize("losses_db", [[3.0, 3.0], [0.5, 8.0], [4.0, 4.0, 4.0]])
def test_losses_below_the_ideal_are_refused(losses_db: list[float]) -> None:
    with pytest.raises(ValueError, match="more power than comes in"):
        divider(FREQS_HZ, losses_db, within_loss=True)


def test_figures_that_contradict_each_other() -> None:
    """A ground block of 0.05 dB cannot have 14 dB of return loss and no more."""
    with pytest.raises(ValueError, match="together would give out more"):
        through([1e9], 0.05, 14)
    matrix = through([1e9], 0.05, 14, within_loss=True)[0]
    assert is_passive(matrix)
    back_db = -20 * log10(abs(matrix[0][0]))
    assert back_db == pytest.approx(-10 * log10(1 - 10 ** (-0.05 / 10)), abs=1e-3)


def test_figures_that_agree_stay_as_they_are() -> None:
    assert through([1e9], 0.5, 20, within_loss=True) == through([1e9], 0.5, 20)


def test_an_amplifier_goes_one_way() -> None:
    matrix = amplifier([1e9], 20, 16, 14)[0]
    assert sizes_db(matrix, [(1, 0), (0, 0), (1, 1)]) == pytest.approx([-20, 16, 14])
    assert matrix[0][1] == 0
    assert sizes_db(amplifier([1e9], 20, 16, 14, 35)[0], [(0, 1)]) == pytest.approx([35])


def test_refusals() -> None:
    with pytest.raises(ValueError, match="at least one output"):
        divider([1e9], [])
    with pytest.raises(ValueError, match="zero or more"):
        divider([1e9], [3.5, 3.5], -1)
    with pytest.raises(ValueError, match="a number"):
        amplifier([1e9], inf)
