"""What breaks a line's evenness: a piece of another impedance, a bare tee, an open stub.

Single ones, alone on a matched line. Several alike at like distances add up in step: three 50 ohm bodies of 40 mm,
2 m apart in a 75 ohm line, cost 4.9 dB at 1.2 GHz; for that, solve the network.
"""

from __future__ import annotations

from math import inf, log10, pi, sin, tanh

from coaxwright.physics.geometry import velocity_m_per_s
from coaxwright.physics.line_loss import DB_PER_NEPER


def insert_loss_db(
    insert_ohm: float, line_ohm: float, length_m: float, velocity_factor: float, freq_hz: float
) -> float:
    """Loss [dB] that a lossless piece of another impedance makes in a matched line.

    10 log[1 + ((n - 1/n)/2)² sin²(2 pi f l / (VF c))], n = insert / line

    length_m, velocity_factor: of the piece. Next to nothing below a twentieth of a wave. Raises ValueError where a
    figure is not above zero. Source: textbook, transmission-line transformer.
    """
    if not (0 < length_m < inf and 0 < freq_hz < inf):
        raise ValueError("a length and a frequency are above zero")
    angle = 2 * pi * freq_hz * length_m / velocity_m_per_s(velocity_factor)
    return 10 * log10(1 + _unlikeness(insert_ohm, line_ohm) ** 2 * sin(angle) ** 2)


def insert_peak_loss_db(insert_ohm: float, line_ohm: float) -> float:
    """Most loss [dB] that such a piece makes, where it is an odd number of quarter waves long: 20 log((n + 1/n)/2).

    n = insert / line; 0.695 dB for 50 ohm in 75 ohm. Raises ValueError where an impedance is not above zero.
    Source: textbook, quarter-wave transformer.
    """
    return 10 * log10(1 + _unlikeness(insert_ohm, line_ohm) ** 2)


def insert_least_return_loss_db(insert_ohm: float, line_ohm: float) -> float:
    """Least return loss [dB] that such a piece makes, where it is an odd number of quarter waves long.

    -20 log|(n² - 1)/(n² + 1)|, n = insert / line; 8.30 dB for 50 ohm in 75 ohm; math.inf where they are alike.
    Raises ValueError where an impedance is not above zero. Source: textbook, quarter-wave transformer.
    """
    unlikeness = _unlikeness(insert_ohm, line_ohm)
    return inf if unlikeness == 0 else 10 * log10(1 + unlikeness**-2)


def bare_joint_loss_db(lines: int) -> float:
    """Loss [dB] from one line to each other one where ``lines`` alike are joined without a splitter: 20 log(lines/2).

    3.52 dB at a tee of three. Raises ValueError below two lines. Source: textbook, lines in parallel.
    """
    _refuse_single(lines)
    return 20 * log10(lines / 2)


def bare_joint_return_loss_db(lines: int) -> float:
    """Return loss [dB] at each line of a bare joint of ``lines`` alike: 20 log(lines / (lines - 2)).

    9.54 dB at a tee of three; math.inf where two are joined. Raises ValueError below two lines.
    Source: textbook, lines in parallel.
    """
    _refuse_single(lines)
    return inf if lines == 2 else 20 * log10(lines / (lines - 2))


def stub_notch_hz(length_m: float, velocity_factor: float, order: int = 0) -> float:
    """Frequency [Hz] at which an open stub on a bare tee shorts the line: (2 order + 1) VF c / (4 l).

    length_m [m]; order 0 is the lowest, then every odd multiple. Raises ValueError where the length is not above zero
    or the order below zero. Source: textbook, quarter-wave stub.
    """
    if not 0 < length_m < inf or order < 0:
        raise ValueError("the length of a stub is above zero, the order of a notch zero or more")
    return (2 * order + 1) * velocity_m_per_s(velocity_factor) / (4 * length_m)


def stub_notch_depth_db(stub_loss_db: float) -> float:
    """Loss [dB] in that notch, of a stub of the line's own impedance: 20 log(1 + 1 / (2 tanh(A / 8.686))).

    stub_loss_db: one-way loss A of the stub at the notch [dB]; 0 gives math.inf. Raises ValueError below zero.
    Source: textbook, impedance Z0 tanh(alpha l) across a matched line.
    """
    if not stub_loss_db >= 0:
        raise ValueError("the loss of a stub is zero or more")
    across = tanh(stub_loss_db / DB_PER_NEPER)
    return inf if across == 0 else 20 * log10(1 + 1 / (2 * across))


def _unlikeness(insert_ohm: float, line_ohm: float) -> float:
    if not (0 < insert_ohm < inf and 0 < line_ohm < inf):
        raise ValueError("an impedance is above zero")
    ratio = insert_ohm / line_ohm
    return (ratio - 1 / ratio) / 2


def _refuse_single(lines: int) -> None:
    if lines < 2:
        raise ValueError("a joint has at least two lines")
