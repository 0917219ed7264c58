"""Small complex matrices on plain tuples: solving, and whether a Hermitian one is positive."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, MutableMapping, Sequence
from math import sqrt
from typing import TypeAlias

Matrix: TypeAlias = tuple[tuple[complex, ...], ...]
"""Rows of equal length."""

NO_PIVOT = 1e-13
"""A pivot this small, where the entries are of the size of 1, is a zero that rounding has blurred."""


class Singular(ValueError):
    """The equations do not settle every unknown."""


def frozen(rows: Iterable[Iterable[complex]]) -> Matrix:
    """A matrix of rows of any kind."""
    return tuple(tuple(row) for row in rows)


def product(left: Matrix, right: Matrix) -> Matrix:
    """left times right; the columns of the one are as many as the rows of the other."""
    columns = list(zip(*right, strict=True))
    return tuple(tuple(sum(map(_times, row, column), 0j) for column in columns) for row in left)


def solve(matrix: Matrix, right: Matrix) -> Matrix:
    """X of matrix X = right, by Gaussian elimination. Raises Singular where there is not one X."""
    size = len(matrix)
    rows = [dict(enumerate((*row, *given))) for row, given in zip(matrix, right, strict=True)]
    solved = solve_sparse(rows, range(size))
    width = len(right[0]) if right else 0
    return tuple(tuple(solved[row].get(size + column, 0j) for column in range(width)) for row in range(size))


def solve_sparse(
    rows: Sequence[MutableMapping[int, complex]], order: Sequence[int]
) -> dict[int, Mapping[int, complex]]:
    """Solves equations given as {unknown or right side: coefficient}, and uses the rows up.

    rows: one for each unknown; keys that ``order`` does not hold are right sides. order: the unknowns, in the order of
    their elimination, which decides how much the rows fill up, not the answer. For each unknown its right sides:
    unknown = sum of answer[key] * right side. The pivot is the largest coefficient of the unknown that is left.
    Raises Singular where an unknown has no pivot.
    """
    holders: dict[int, set[int]] = {unknown: set() for unknown in order}
    for index, row in enumerate(rows):
        for key in row:
            if key in holders:
                holders[key].add(index)
    used: list[tuple[int, MutableMapping[int, complex]]] = []
    for unknown in order:
        candidates = sorted(holders[unknown])
        pivot = max(candidates, key=lambda index: abs(rows[index][unknown]), default=None)
        if pivot is None or abs(rows[pivot][unknown]) < NO_PIVOT:
            raise Singular("the equations do not settle every unknown")
        pivot_row = rows[pivot]
        lead = pivot_row.pop(unknown)
        for key in pivot_row:
            pivot_row[key] /= lead
            if key in holders:
                holders[key].discard(pivot)
        for index in candidates:
            if index != pivot:
                row = rows[index]
                factor = row.pop(unknown)
                for key, value in pivot_row.items():
                    if key not in row and key in holders:
                        holders[key].add(index)
                    row[key] = row.get(key, 0j) - factor * value
        del holders[unknown]
        used.append((unknown, pivot_row))
    solved: dict[int, Mapping[int, complex]] = {}
    for unknown, row in reversed(used):
        answer: dict[int, complex] = {}
        for key, value in row.items():
            if key in solved:
                for side, share in solved[key].items():
                    answer[side] = answer.get(side, 0j) - value * share
            else:
                answer[key] = answer.get(key, 0j) + value
        solved[unknown] = answer
    return solved


def is_positive(hermitian: Matrix) -> bool:
    """Whether every eigenvalue of a Hermitian matrix is above zero: whether it has a Cholesky factor."""
    factor: list[list[complex]] = []
    for index, row in enumerate(hermitian):
        made: list[complex] = []
        for column in range(index):
            known = sum((made[k] * factor[column][k].conjugate() for k in range(column)), 0j)
            made.append((row[column] - known) / factor[column][column])
        left = row[index].real - sum(abs(value) ** 2 for value in made)
        if not left > 0:
            return False
        factor.append([*made, complex(sqrt(left))])
    return True


def _times(left: complex, right: complex) -> complex:
    return left * right
