"""Tilt: how much more a cable loses at the high end than at the low end, and what evens it out."""

from __future__ import annotations

from math import inf, sqrt

from coaxwright.physics.comparison import at_least, at_most


def tilt_db(loss_low_db: float, loss_high_db: float) -> float:
    """Tilt [dB] of a cable: its loss at the high frequency less its loss at the low one. Source: definition."""
    return loss_high_db - loss_low_db


def loss_ratio(low_hz: float, high_hz: float) -> float:
    """Loss at the low frequency over that at the high one [-] by the rule of sqrt(f): sqrt(f_low / f_high).

    54 to 450 MHz: 0.346; a table of the trade prints 0.333. A cable's own table is better: use its ratio.
    Raises ValueError unless 0 < low <= high. Source: trade rule.
    """
    if not 0 < low_hz <= high_hz < inf:
        raise ValueError("give the lower frequency first; both are above zero")
    return sqrt(low_hz / high_hz)


def tilt_of_loss_db(loss_high_db: float, ratio: float) -> float:
    """Tilt [dB] of a cable from its loss at the high frequency: A (1 - ratio).

    loss_high_db: A [dB]; ratio: loss at the low frequency over A [-]. Raises ValueError unless 0 <= ratio < 1 and the
    loss is not negative. Source: trade formula card, found.
    """
    _refuse_ratio(ratio)
    if not loss_high_db >= 0:
        raise ValueError("the loss of a cable is zero or more")
    return loss_high_db * (1 - ratio)


def equalizer_value_db(tilt: float, ratio: float) -> float:
    """Value [dB] of the equalizer that evens out a tilt [dB]: tilt / (1 - ratio).

    An equalizer is named after the cable loss at the high frequency that it complements. ratio: as in tilt_of_loss_db.
    Raises ValueError unless 0 <= ratio < 1. Source: trade formula card, found.
    """
    _refuse_ratio(ratio)
    return tilt / (1 - ratio)


def equalizer_loss_db(value_db: float, freq_hz: float, high_hz: float) -> float:
    """Loss [dB] of an ideal equalizer at a frequency: value (1 - sqrt(f / f_high)), none at the high frequency.

    value_db: the cable loss it complements [dB]. A real one loses 0.5 to 1 dB more (from memory).
    Raises ValueError unless 0 < f <= f_high. Source: trade rule, loss of cable with sqrt(f).
    """
    return value_db * (1 - loss_ratio(freq_hz, high_hz))


def sloped_gain_db(gain_high_db: float, slope_db: float, freq_hz: float, low_hz: float, high_hz: float) -> float:
    """Gain [dB] of an amplifier whose slope follows a cable: its gain at the high end, less at the low end.

    G(f) = G_high - slope (sqrt(f_high) - sqrt(f)) / (sqrt(f_high) - sqrt(f_low))

    slope_db: gain at the high end less gain at the low end [dB]. Raises ValueError unless low <= f <= high, low < high.
    Source: common practice, no source.
    """
    if not 0 < low_hz < high_hz < inf or not (at_least(freq_hz, low_hz) and at_most(freq_hz, high_hz)):
        raise ValueError("the frequency lies within the amplifier's band, given low end first")
    return gain_high_db - slope_db * (sqrt(high_hz) - sqrt(freq_hz)) / (sqrt(high_hz) - sqrt(low_hz))


def _refuse_ratio(ratio: float) -> None:
    if not 0 <= ratio < 1:
        raise ValueError("the ratio of the losses is zero or more, and below 1")
