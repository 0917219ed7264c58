"""Scattering matrices of lines, ends, joints and simple parts, for ``scattering``: one for each frequency of a grid.

A figure is a number for all frequencies, or a sequence with one for each; those of splitters are in ``dividers``.
"""

from __future__ import annotations

from cmath import exp
from collections.abc import Sequence
from math import inf, isinf, isnan, pi, sqrt
from typing import TypeAlias

from coaxwright.physics.figures import Figure, each, share_of_loss
from coaxwright.physics.matrices import Matrix, frozen, product, solve
from coaxwright.physics.mismatch import minimum_loss_pad
from coaxwright.physics.scattering import REFERENCE_OHM

Impedance: TypeAlias = complex | Sequence[complex]
"""In ohms; math.inf is an open end."""


def line(
    freqs_hz: Sequence[float],
    loss_db: Figure,
    delay_s: float,
    impedance_ohm: Impedance = REFERENCE_OHM,
    reference_ohm: float = REFERENCE_OHM,
) -> list[Matrix]:
    """A cable: ports 0 and 1 are its ends.

    S11 = r (1 - p²)/(1 - r² p²), S21 = p (1 - r²)/(1 - r² p²), p = 10^(-A/20) exp(-j 2 pi f t), r = (Z - Zr)/(Z + Zr)

    loss_db: A of the whole length [dB]; delay_s: t of the whole length [s]; impedance_ohm: Z of the cable [ohm], which
    may be complex, as it is below some 10 MHz. Raises ValueError where a figure is not possible. Source: textbook.
    """
    _refuse_reference(reference_ohm)
    if not 0 <= delay_s < inf:
        raise ValueError("the delay of a line is zero or more")
    made: list[Matrix] = []
    figures = zip(freqs_hz, each(loss_db, freqs_hz), _each_complex(impedance_ohm, freqs_hz), strict=True)
    for freq_hz, loss, impedance in figures:
        if not (loss >= 0 and 0 < impedance.real < inf):
            raise ValueError("a line loses nothing or something, and its impedance is above zero")
        reflection = (impedance - reference_ohm) / (impedance + reference_ohm)
        once = 10 ** (-loss / 20) * exp(-2j * pi * freq_hz * delay_s)
        echoes = 1 - (reflection * once) ** 2
        if abs(echoes) < 1e-300:
            raise ValueError("a line of no loss and no sensible impedance has no matrix")
        back = reflection * (1 - once**2) / echoes
        through = once * (1 - reflection**2) / echoes
        made.append(((back, through), (through, back)))
    return made


def bare_joint(freqs_hz: Sequence[float], ports: int = 3) -> list[Matrix]:
    """Lines joined without a splitter: a tee of three. S = 2/n, less 1 where a wave comes back.

    Raises ValueError below two ports. Source: textbook, lines in parallel.
    """
    if ports < 2:
        raise ValueError("a joint has at least two ports")
    matrix = frozen((complex(2 / ports - (row == column)) for column in range(ports)) for row in range(ports))
    return [matrix] * len(freqs_hz)


def termination(
    freqs_hz: Sequence[float], impedance_ohm: Impedance, reference_ohm: float = REFERENCE_OHM
) -> list[Matrix]:
    """The end of a line: a terminator, a receiver, 0 for a short, math.inf for an open end. r = (Z - Zr)/(Z + Zr).

    Raises ValueError where the real part of the impedance is negative. Source: textbook.
    """
    _refuse_reference(reference_ohm)
    made: list[Matrix] = []
    for impedance in _each_complex(impedance_ohm, freqs_hz):
        _refuse_source_of_power(impedance)
        endless = isinf(impedance.real) or isinf(impedance.imag)
        made.append((((1 + 0j) if endless else (impedance - reference_ohm) / (impedance + reference_ohm),),))
    return made


def reflecting_end(freqs_hz: Sequence[float], return_loss_db: Figure) -> list[Matrix]:
    """The end of a line with a return loss [dB], its reflection as of too high an impedance.

    Raises ValueError where it is negative. Source: definition of the return loss.
    """
    return [((complex(share_of_loss(loss)),),) for loss in each(return_loss_db, freqs_hz)]


def shunt(freqs_hz: Sequence[float], impedance_ohm: Impedance, reference_ohm: float = REFERENCE_OHM) -> list[Matrix]:
    """An impedance [ohm] from the line to the shield. S11 = -Zr/(2 Z + Zr), S21 = 2 Z/(2 Z + Zr).

    math.inf is none. Raises ValueError where its real part is negative. Source: textbook.
    """
    _refuse_reference(reference_ohm)
    return [
        _through_and_back(_ratio(2 * impedance, 2 * impedance + reference_ohm), -1)
        for impedance in map(_refuse_source_of_power, _each_complex(impedance_ohm, freqs_hz))
    ]


def series(freqs_hz: Sequence[float], impedance_ohm: Impedance, reference_ohm: float = REFERENCE_OHM) -> list[Matrix]:
    """An impedance [ohm] in the center conductor. S11 = Z/(Z + 2 Zr), S21 = 2 Zr/(Z + 2 Zr).

    math.inf is a break. Raises ValueError where its real part is negative. Source: textbook.
    """
    _refuse_reference(reference_ohm)
    return [
        _through_and_back(1 - _ratio(impedance, impedance + 2 * reference_ohm), 1)
        for impedance in map(_refuse_source_of_power, _each_complex(impedance_ohm, freqs_hz))
    ]


def matching_pad(
    freqs_hz: Sequence[float], first_ohm: float, second_ohm: float, reference_ohm: float = REFERENCE_OHM
) -> list[Matrix]:
    """The minimum-loss pad between two impedances [ohm]: port 0 faces the first, port 1 the second.

    Raises ValueError where an impedance is not above zero. Source: minimum_loss_pad, from its two resistors.
    """
    higher, lower = max(first_ohm, second_ohm), min(first_ohm, second_ohm)
    pad = minimum_loss_pad(higher, lower)
    in_line: Matrix = ((1, pad.series_ohm), (0, 1))
    across: Matrix = ((1, 0), (1 / pad.shunt_ohm, 1))
    chain = product(in_line, across) if first_ohm == higher else product(across, in_line)
    return [_of_chain(chain, reference_ohm)] * len(freqs_hz)


def transformer(
    freqs_hz: Sequence[float], first_ohm: float, second_ohm: float, reference_ohm: float = REFERENCE_OHM
) -> list[Matrix]:
    """An ideal transformer between two impedances [ohm], such as 75 and 300; a real one loses 0.5 to 1 dB more.

    turns n = sqrt(first / second). Raises ValueError where an impedance is not above zero. Source: textbook; the loss
    from memory.
    """
    if not (0 < first_ohm < inf and 0 < second_ohm < inf):
        raise ValueError("an impedance is above zero")
    turns = sqrt(first_ohm / second_ohm)
    return [_of_chain(((turns, 0), (0, 1 / turns)), reference_ohm)] * len(freqs_hz)


def renormalized(matrix: Matrix, from_ohm: Sequence[float], reference_ohm: float = REFERENCE_OHM) -> Matrix:
    """A matrix measured at other impedances, at the reference impedance.

    S' = A^-1 (S - R)(1 - R S)^-1 A, R = diag((Zr - Z)/(Zr + Z)), A = diag(sqrt(1 - R²))

    from_ohm: of each port [ohm]. Raises ValueError where one is not above zero or there are not as many as ports.
    Source: Kurokawa 1965, for real impedances, from memory.
    """
    _refuse_reference(reference_ohm)
    if len(from_ohm) != len(matrix) or not all(0 < ohm < inf for ohm in from_ohm):
        raise ValueError("every port has an impedance above zero")
    change = [(reference_ohm - ohm) / (reference_ohm + ohm) for ohm in from_ohm]
    size = range(len(matrix))
    left = frozen((matrix[i][j] - (change[i] if i == j else 0) for j in size) for i in size)
    right = frozen(((1 if i == j else 0) - change[i] * matrix[i][j] for j in size) for i in size)
    inverse = solve(right, frozen((1 if i == j else 0 for j in size) for i in size))
    made = product(left, inverse)
    scale = [sqrt(1 - value**2) for value in change]
    return frozen((made[i][j] * scale[j] / scale[i] for j in size) for i in size)


def _of_chain(chain: Matrix, reference_ohm: float) -> Matrix:
    """Scattering matrix of a chain (ABCD) matrix, port 0 at its left."""
    _refuse_reference(reference_ohm)
    (a, b), (c, d) = chain
    b, c = b / reference_ohm, c * reference_ohm
    total = a + b + c + d
    determinant = a * d - b * c
    return ((a + b - c - d) / total, 2 * determinant / total), (2 / total, (-a + b - c + d) / total)


def _through_and_back(passed: complex, sign: int) -> Matrix:
    """Of an impedance across or in the line: 1 - passed comes back, turned over where it lies across."""
    back = sign * (1 - passed)
    return (back, passed), (passed, back)


def _ratio(part: complex, whole: complex) -> complex:
    return 1 + 0j if isinf(part.real) or isinf(part.imag) else part / whole


def _each_complex(figure: Impedance, freqs_hz: Sequence[float]) -> list[complex]:
    if isinstance(figure, (int, float, complex)):
        return [complex(figure)] * len(freqs_hz)
    if len(figure) != len(freqs_hz):
        raise ValueError("an impedance is one number, or one for each frequency")
    return [complex(value) for value in figure]


def _refuse_source_of_power(impedance: complex) -> complex:
    if not impedance.real >= 0 or isnan(impedance.imag):
        raise ValueError("an impedance that gives no power has a resistance of zero or more")
    return impedance


def _refuse_reference(reference_ohm: float) -> None:
    if not 0 < reference_ohm < inf:
        raise ValueError("a reference impedance is above zero")
