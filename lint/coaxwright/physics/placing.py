"""Where an amplifier may stand and what gain it may have, by levels alone; noise and power are other questions."""

from __future__ import annotations

from dataclasses import dataclass
from math import inf


@dataclass(frozen=True, slots=True)
class GainWindow:
    """The gains [dB] with which an outlet's level lies within its window; nothing does where least is above most."""

    least_db: float
    most_db: float


def gain_window_db(level_dbmv: float, loss_db: float, least_dbmv: float, most_dbmv: float) -> GainWindow:
    """The gain that brings an outlet into its window: window + loss - level, at one frequency.

    level_dbmv: where the amplifier would stand [dBmV]; loss_db: from there to the outlet [dB]; the window [dBmV].
    Any unit of level does, the same throughout. Raises ValueError where the window is upside down.
    Source: sum of decibels; home-wiring article, found.
    """
    if not least_dbmv <= most_dbmv:
        raise ValueError("give the lower end of the window first")
    return GainWindow(least_dbmv + loss_db - level_dbmv, most_dbmv + loss_db - level_dbmv)


@dataclass(frozen=True, slots=True)
class LineSection:
    """The stretch of a run [m from its start] along which an amplifier may stand."""

    nearest_m: float
    farthest_m: float


@dataclass(frozen=True, slots=True)
class BandEnd:
    """The signal at one end of its band, where a run begins, and what the run does to it."""

    level_dbmv: float
    loss_db_per_m: float


def amplifier_section_m(
    low: BandEnd, high: BandEnd, least_input_dbmv: float, most_input_dbmv: float
) -> LineSection | None:
    """Where along a run the input of an amplifier is strong enough at the high end and not too strong at the low end.

    level_high - loss_high x >= least, level_low - loss_low x <= most, x >= 0

    low, high: the signal at the low and high end of the band; least, most: levels at the amplifier's input [dBmV].
    None where no place will do; put it as near the start of the stretch as its power allows.
    Raises ValueError where a loss is not above zero or the levels are upside down. Source: sum of decibels.
    """
    if not (0 < low.loss_db_per_m < inf and 0 < high.loss_db_per_m < inf):
        raise ValueError("the loss of a cable is above zero")
    if not least_input_dbmv <= most_input_dbmv:
        raise ValueError("give the lower input level first")
    nearest_m = max(0.0, (low.level_dbmv - most_input_dbmv) / low.loss_db_per_m)
    farthest_m = (high.level_dbmv - least_input_dbmv) / high.loss_db_per_m
    return LineSection(nearest_m, farthest_m) if nearest_m <= farthest_m else None
