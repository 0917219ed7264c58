"""Figures of tables: always one decimal, so that they stand below each other."""

from __future__ import annotations

from coaxwright.design.quantities import DBMV_OF_DBM_75_OHM, Level
from coaxwright.design.sentences import level_unit

_SHIFTS_DB = {"dBmV": 0.0, "dBm": -DBMV_OF_DBM_75_OHM, "dB\N{MICRO SIGN}V": 60.0}


def shift_db(like: Level) -> float:
    """What is added to a level in dBmV to give it in the unit of another, in 75 ohm."""
    return _SHIFTS_DB[level_unit(like)]


def level_figure(level_dbmv: float, like: Level) -> str:
    """A level in the unit of another, without the unit."""
    return _tenths(level_dbmv + shift_db(like))


def loss_figure(loss_db: float) -> str:
    """A loss; a gain is called so."""
    text = _tenths(loss_db)
    return f"gains {text[1:]} dB" if text.startswith("-") else f"{text} dB"


def _tenths(value: float) -> str:
    text = f"{value:.1f}"
    return "0.0" if text == "-0.0" else text
