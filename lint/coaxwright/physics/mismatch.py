"""What a junction of unlike impedances does: reflection, return loss, ripple, and the pad that avoids it.

A reflection coefficient is a signed ratio of voltages between -1 and 1, real impedances throughout.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import inf, log10, sqrt

from coaxwright.physics.geometry import velocity_m_per_s


def reflection_coefficient(load_ohm: float, line_ohm: float) -> float:
    """Reflection coefficient [-] of a load, or of the next line, at the end of a line.

    r = (ZL - Z0) / (ZL + Z0)

    load [ohm]: 0 is a short, math.inf an open end; line [ohm].
    Raises ValueError where the line's impedance is not above zero or the load's is negative.
    Source: textbook.
    """
    if not 0 < line_ohm < inf or not load_ohm >= 0:
        raise ValueError("the line's impedance is above zero, the load's is zero or more")
    return 1.0 if load_ohm == inf else (load_ohm - line_ohm) / (load_ohm + line_ohm)


def reflection_of_vswr(vswr: float) -> float:
    """Size of the reflection coefficient [-] from a standing-wave ratio [-]: (s - 1) / (s + 1).

    Raises ValueError below 1. Source: textbook.
    """
    if not vswr >= 1:
        raise ValueError("a standing-wave ratio is at least 1")
    return 1.0 if vswr == inf else (vswr - 1) / (vswr + 1)


def reflection_of_return_loss(return_loss_db: float) -> float:
    """Size of the reflection coefficient [-] from a return loss [dB]: 10^(-RL/20).

    Raises ValueError where the return loss is negative. Source: textbook.
    """
    if not return_loss_db >= 0:
        raise ValueError("a return loss is zero or more")
    return float(10 ** (-return_loss_db / 20))


def return_loss_db(reflection: float) -> float:
    """Return loss [dB], a positive number: -20 log|r|; math.inf for a perfect match.

    reflection [-]. Raises ValueError beyond -1 to 1. Source: textbook; "RL = 20 log VSWR" on a public page is wrong.
    """
    size = _size(reflection)
    return inf if size == 0 else -20 * log10(size) + 0.0  # + 0.0: a full reflection gives 0.0, not -0.0


def vswr(reflection: float) -> float:
    """Standing-wave ratio [-]: (1 + |r|) / (1 - |r|); math.inf for a full reflection.

    reflection [-]. Raises ValueError beyond -1 to 1. Source: textbook.
    """
    size = _size(reflection)
    return inf if size == 1 else (1 + size) / (1 - size)


def reflected_power_share(reflection: float) -> float:
    """Share [-] of the arriving power that goes back: r².

    reflection [-]. Raises ValueError beyond -1 to 1. Source: textbook.
    """
    return _size(reflection) ** 2


def mismatch_loss_db(reflection: float) -> float:
    """Power [dB] that a load misses because of its reflection: -10 log(1 - r²); math.inf for a full reflection.

    reflection [-]. Raises ValueError beyond -1 to 1. Source: textbook.
    """
    kept = 1 - reflected_power_share(reflection)
    return inf if kept <= 0 else -10 * log10(kept) + 0.0


def return_loss_through_line_db(load_return_loss_db: float, line_loss_db: float) -> float:
    """Return loss [dB] of a load as seen through a line: RL + 2 A; a long line hides a poor load.

    load_return_loss_db [dB]; line_loss_db: the line's one-way loss A [dB]. Source: textbook.
    """
    return load_return_loss_db + 2 * line_loss_db


def total_line_loss_db(matched_loss_db: float, load_reflection: float) -> float:
    """Loss [dB] of a line with a reflecting load, power in to power into the load.

    10 log[(a² - r²) / (a (1 - r²))], a = 10^(A/10)

    matched_loss_db: A, the line's loss with a matched load [dB]; load_reflection: r [-]; math.inf where r is 1.
    The ratio of the power that enters the line to the power that the load takes; a source that does not match the
    line is not in it, so it is not the loss from the source's available power. For real impedances of the line, above
    some 10 MHz. Raises ValueError for a negative loss or a reflection beyond -1 to 1.
    Source: amateur antenna handbook, from memory.
    """
    if not matched_loss_db >= 0:
        raise ValueError("the loss of a line is zero or more")
    reflected, returned = _size(load_reflection) ** 2, 10 ** (-matched_loss_db / 10)
    if reflected == 1:
        return inf
    # (a² - r²) / (a (1 - r²)) over a, so that no long line is too much for a number
    return matched_loss_db + 10 * log10((1 - reflected * returned**2) / (1 - reflected))


def ripple_limits_db(reflection_a: float, reflection_b: float, line_loss_db: float = 0.0) -> tuple[float, float]:
    """Lowest and highest deviation [dB] of the response between two reflections with a line between them.

    20 log(1 - |ra rb| k) and 20 log(1 + |ra rb| k), k = 10^(-A/10)

    reflection_a, reflection_b [-]; A: one-way loss of the line [dB]; the wave passes it twice, hence A/10.
    Raises ValueError for a reflection beyond -1 to 1 or a negative loss. For two reflections, not for a row of them.
    Source: textbook.
    """
    if not line_loss_db >= 0:
        raise ValueError("the loss of a line is zero or more")
    echo = _size(reflection_a) * _size(reflection_b) * 10 ** (-line_loss_db / 10)
    return (-inf if echo == 1 else 20 * log10(1 - echo)), 20 * log10(1 + echo)


def ripple_period_hz(length_m: float, velocity_factor: float) -> float:
    """Distance in frequency [Hz] from one crest of the ripple to the next: VF c / (2 l).

    length_m: of the line between the two reflections [m]; velocity_factor [-].
    Raises ValueError where the length is not above zero. Source: textbook.
    """
    if not length_m > 0:
        raise ValueError("the length of a line is above zero")
    return velocity_m_per_s(velocity_factor) / (2 * length_m)


@dataclass(frozen=True, slots=True)
class MinimumLossPad:
    """Two resistors that match two impedances with the least possible loss."""

    series_ohm: float
    """On the side of the higher impedance [ohm]."""
    shunt_ohm: float
    """Across the side of the lower impedance [ohm]; math.inf where no pad is needed. It shorts a power feed."""
    loss_db: float


def minimum_loss_pad(higher_ohm: float, lower_ohm: float) -> MinimumLossPad:
    """The pad between two impedances Z1 >= Z2.

    series = Z1 sqrt(1 - Z2/Z1), shunt = Z2 / sqrt(1 - Z2/Z1), loss = 20 log(sqrt(Z1/Z2) + sqrt(Z1/Z2 - 1))

    higher_ohm: Z1 [ohm]; lower_ohm: Z2 [ohm]. 75 to 50 ohm: 43.30 and 86.60 ohm, 5.719 dB.
    Raises ValueError unless Z1 >= Z2 > 0. Not for a path that carries power: the shunt lies across the feed.
    Source: handbook tables of minimum-loss pads, found.
    """
    if not higher_ohm >= lower_ohm > 0:
        raise ValueError("give the higher impedance first; both are above zero")
    ratio = higher_ohm / lower_ohm
    root = sqrt(1 - 1 / ratio)
    shunt_ohm = inf if root == 0 else lower_ohm / root
    return MinimumLossPad(higher_ohm * root, shunt_ohm, 20 * log10(sqrt(ratio) + sqrt(ratio - 1)))


def _size(reflection: float) -> float:
    if not abs(reflection) <= 1:
        raise ValueError("a reflection coefficient lies between -1 and 1")
    return abs(reflection)
