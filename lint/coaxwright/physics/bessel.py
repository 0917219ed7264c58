"""Modified Bessel functions of order 0 and 1 of a complex number: how current spreads in a round conductor.

Scaled, so that neither grows nor vanishes in a thick wire at a high frequency: I * exp(-z) and K * exp(z). For the
right half-plane near 45 degrees, where the skin effect lies; checked there from |z| = 1e-6 to 1e5.
"""

from __future__ import annotations

from cmath import exp, log, pi, sqrt

SERIES_UP_TO = 20.0
"""|z| up to which the power series loses less than three digits at 45 degrees; beyond, the asymptotic one has all."""
STEED_FROM = 2.0
"""|z| from which Steed's continued fraction of K converges quickly."""
EULER = 0.57721566490153286
NEXT_TO_NOTHING = 1e-17


def scaled_i(z: complex) -> tuple[complex, complex]:
    """I0(z) exp(-z) and I1(z) exp(-z). Raises ValueError unless the real part is above zero.

    Series sum (z²/4)^k / (k!)² and its like for I1; beyond |z| = 20 the asymptotic series.
    Source: Abramowitz and Stegun, Handbook of Mathematical Functions, 9.6.10 and 9.7.1, from memory.
    """
    _refuse_left(z)
    if abs(z) > SERIES_UP_TO:
        front = 1 / sqrt(2 * pi * z)
        return front * _asymptotic(z, 0), front * _asymptotic(z, 4)
    quarter, term, zeroth, first = z * z / 4, 1 + 0j, 0j, 0j
    step = 0
    while abs(term) > NEXT_TO_NOTHING * abs(zeroth):
        zeroth += term
        first += term / (step + 1)
        step += 1
        term *= quarter / step**2
    return zeroth * exp(-z), first * z / 2 * exp(-z)


def scaled_k(z: complex) -> tuple[complex, complex]:
    """K0(z) exp(z) and K1(z) exp(z). Raises ValueError unless the real part is above zero.

    Up to |z| = 2 the series with the logarithm, K1 from the Wronskian I0 K1 + I1 K0 = 1/z; beyond, Steed's method.
    Source: Abramowitz and Stegun 9.6.13 and 9.6.15, from memory; Temme 1975, from memory.
    """
    _refuse_left(z)
    if abs(z) < STEED_FROM:
        return _series_k(z)
    width, q_last, q, weight, factor = 2 * (1 + z), 0j, 1 + 0j, 0.25, -0.25
    inverse = 1 / width
    height = change = inverse
    weight_q = 0.25 + 0j
    total = 1 + weight_q * change
    step = 1
    while True:
        step += 1
        factor -= 2 * (step - 1)
        weight = -factor * weight / step
        q_last, q = q, (q_last - width * q) / factor
        weight_q += weight * q
        width += 2
        inverse = 1 / (width + factor * inverse)
        change *= width * inverse - 1
        height += change
        added = weight_q * change
        total += added
        if abs(added) <= NEXT_TO_NOTHING * abs(total) or step > 500:
            break
    zeroth = sqrt(pi / (2 * z)) / total
    return zeroth, zeroth * (z + 0.5 - 0.25 * height) / z


def _series_k(z: complex) -> tuple[complex, complex]:
    i0, i1 = scaled_i(z)
    quarter, term, harmonic, zeroth = z * z / 4, 1 + 0j, 0.0, 0j
    for step in range(1, 60):
        harmonic += 1 / step
        term *= quarter / step**2
        zeroth += term * harmonic
    zeroth -= (log(z / 2) + EULER) * i0 * exp(z)
    k0 = zeroth * exp(z)
    return k0, (1 / z - i1 * k0) / i0


def _asymptotic(z: complex, mu: int) -> complex:
    """1 - (mu - 1)/(8z) + (mu - 1)(mu - 9)/(2! (8z)²) - ..., until a term is next to nothing."""
    total, term, step = 1 + 0j, 1 + 0j, 0
    while abs(term) > NEXT_TO_NOTHING:
        step += 1
        term *= -(mu - (2 * step - 1) ** 2) / (step * 8 * z)
        total += term
    return total


def _refuse_left(z: complex) -> None:
    if not (z.real > 0 and abs(z) < float("inf")):
        raise ValueError("a Bessel function of the skin effect is asked to the right of zero")
