"""Resistors that lose on purpose: the matched pad, and the splitter of resistors."""

from __future__ import annotations

from dataclasses import dataclass
from math import inf, log10


@dataclass(frozen=True, slots=True)
class PiPad:
    """A matched pad of three resistors: one in the line, one across it on either side."""

    series_ohm: float
    shunt_ohm: float
    """Each of the two [ohm]; they lie across a power feed."""


def pi_pad(loss_db: float, impedance_ohm: float) -> PiPad:
    """The pad of a loss [dB] between two equal impedances [ohm].

    shunt = Z (k + 1)/(k - 1), series = Z (k² - 1)/(2 k), k = 10^(L/20)

    Raises ValueError where loss or impedance is not above zero. Not for a path that carries power.
    Source: attenuator formulas, found.
    """
    if not (0 < loss_db < 6000 and 0 < impedance_ohm < inf):
        raise ValueError("the loss of a pad and its impedance are above zero")
    ratio = 10 ** (loss_db / 20)
    return PiPad(impedance_ohm * (ratio - 1 / ratio) / 2, impedance_ohm * (ratio + 1) / (ratio - 1))


@dataclass(frozen=True, slots=True)
class ResistiveSplitter:
    """A star of equal resistors, one to each port, matched at every port."""

    arm_ohm: float
    loss_db: float
    """From any port to any other: there is no isolation."""


def resistive_splitter(outputs: int, impedance_ohm: float) -> ResistiveSplitter:
    """The star for ``outputs`` outputs: arm = Z (outputs - 1)/(outputs + 1), loss = 20 log(outputs).

    impedance_ohm: Z of all lines [ohm]. Two outputs in 75 ohm: 25 ohm, 6.02 dB. Raises ValueError below one output or
    where the impedance is not above zero. Source: textbook, from memory.
    """
    if outputs < 1 or not 0 < impedance_ohm < inf:
        raise ValueError("a splitter has at least one output, and an impedance above zero")
    return ResistiveSplitter(impedance_ohm * (outputs - 1) / (outputs + 1), 20 * log10(outputs))
