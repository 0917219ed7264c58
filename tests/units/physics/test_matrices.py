from __future__ import annotations

import numpy as np
import pytest

from coaxwright.physics.matrices import Singular, frozen, is_positive, product, solve, solve_sparse


def drawn(seed: int, rows: int, columns: int) -> np.ndarray:
    chance = np.random.default_rng(seed)
    return chance.normal(size=(rows, columns)) + 1j * chance.normal(size=(rows, columns))


@pytest.mark.parametrize("size", [1, 2, 5, 20])
def test_solving_against_numpy(size: int) -> None:
    matrix, right = drawn(size, size, size), drawn(size + 100, size, 3)
    computed = solve(frozen(matrix.tolist()), frozen(right.tolist()))
    assert np.array(computed) == pytest.approx(np.linalg.solve(matrix, right), rel=1e-9, abs=1e-9)


def test_a_zero_at_the_corner_needs_the_other_row() -> None:
    assert solve(((0, 1), (1, 0)), ((2,), (3,))) == ((3,), (2,))


def test_product_against_numpy() -> None:
    left, right = drawn(1, 3, 4), drawn(2, 4, 2)
    assert np.array(product(frozen(left.tolist()), frozen(right.tolist()))) == pytest.approx(left @ right)


@pytest.mark.parametrize("order", [[0, 1, 2], [2, 0, 1], [1, 2, 0]])
def test_the_order_of_elimination_does_not_change_the_answer(order: list[int]) -> None:
    """2x + z = 7, x + y = 3, z = 3: x 2, y 1, z 3."""
    rows: list[dict[int, complex]] = [{0: 2, 2: 1, 3: 7}, {0: 1, 1: 1, 3: 3}, {2: 1, 3: 3}]
    solved = solve_sparse(rows, order)
    assert [solved[unknown][3] for unknown in range(3)] == pytest.approx([2, 1, 3])


@pytest.mark.parametrize("matrix", [((0, 0), (0, 1)), ((1, 2), (2, 4))])
def test_equations_that_settle_nothing(matrix: tuple[tuple[complex, ...], ...]) -> None:
    with pytest.raises(Singular, match="every unknown"):
        solve(matrix, ((1,), (1,)))


@pytest.mark.parametrize("seed", range(12))
def test_positive_against_the_eigenvalues_of_numpy(seed: int) -> None:
    half = drawn(seed, 5, 5)
    hermitian = half @ half.conj().T + (seed - 6) * np.eye(5) * 0.3
    expected = bool(np.linalg.eigvalsh(hermitian).min() > 0)
    assert is_positive(frozen(hermitian.tolist())) is expected
