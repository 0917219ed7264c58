"""Sums along a path of splitters and taps, both ways: outlets of a tap cascade, the return path, port to port.

Sums of decibels: right within 0.3 dB where every end has 16 dB of return loss and no tee is bare. With an open port, a
50 ohm part or a return loss below 10 dB, solve the network (``scattering``).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import inf, log10

from coaxwright.physics.comparison import at_least
from coaxwright.physics.dividing import ideal_through_db
from coaxwright.physics.levels import sum_of_voltages_db, total_of_equal_carriers_db


@dataclass(frozen=True, slots=True)
class TapStage:
    """One tap of a cascade and the cable before it, at one frequency."""

    cable_db: float
    tap_db: float
    """Input to tap output; a tap is sold in whole values, 1 dB to either side (1.5 dB above 1 GHz, from memory)."""
    through_db: float
    """Input to output."""


@dataclass(frozen=True, slots=True)
class TapLevels:
    """What a tap gives, in the unit of the level at the start of the cascade."""

    at_tap: float
    passed_on: float


def tap_cascade(level_in: float, stages: Sequence[TapStage]) -> list[TapLevels]:
    """Level at every tap of a cascade and behind it, in the unit of ``level_in`` [dBmV, dBµV].

    at tap n: in - cable to it - through losses of the taps before - its tap loss

    stages: from the start on. Source: sum of decibels, trade practice.
    """
    levels = []
    level = level_in
    for stage in stages:
        level -= stage.cable_db
        levels.append(TapLevels(level - stage.tap_db, level - stage.through_db))
        level -= stage.through_db
    return levels


def through_loss_is_possible(tap_db: float, through_db: float, outputs: int = 1) -> bool:
    """Whether a catalogue's through loss is at least that of the ideal tap: -10 log(1 - outputs 10^(-tap/10)).

    8 dB of one output leaves at least 0.75 dB; an entry below it is wrong, or rounded: allow for its last digit first.
    Raises ValueError as ideal_through_db does. Source: conservation of power.
    """
    return at_least(through_db, ideal_through_db(tap_db, outputs))


def transmit_level_dbmv(target_dbmv: float, path_losses_db: Sequence[float]) -> float:
    """Level [dBmV] a modem has to send so that the return signal reaches a point at ``target_dbmv``.

    target + greatest loss of the path

    path_losses_db: at the highest and, for cables with a copper-clad steel center, also the lowest return frequency
    [dB]; thin cladding loses 1.1 to 2.5 times the sqrt(f) law from 5 to 42 MHz. Raises ValueError where none is given.
    Source: sum of decibels, trade practice.
    """
    if not path_losses_db:
        raise ValueError("a path has a loss at one return frequency at least")
    return target_dbmv + max(path_losses_db)


def funnelled_noise_dbmv(noise_of_each_dbmv: float, legs: int) -> float:
    """Return noise [dBmV] where ``legs`` legs of the same noise come together: + 10 log(legs).

    Every leg counts, whichever carries the signal: an open outlet feeds noise in. Raises ValueError below one leg.
    Source: identity, powers add.
    """
    return total_of_equal_carriers_db(noise_of_each_dbmv, legs)


@dataclass(frozen=True, slots=True)
class PortToPort:
    """Loss [dB] from one outlet to another through a splitter: between these, as the two ways meet."""

    least_db: float
    """The isolation and the way by the input in step."""
    most_db: float
    """The two opposed: the notch; math.inf where they are equal."""
    bound_db: float
    """The way by the input alone with all of it sent back, as an entry filter does: twice the split."""


def port_to_port(
    isolation_db: float, split_a_db: float, split_b_db: float, input_return_loss_db: float, feed_loss_db: float = 0.0
) -> PortToPort:
    """Loss between two outputs of a splitter, for data that goes from outlet to outlet.

    by isolation: I; by the input: split_a + 2 feed + RL + split_b; together as voltages, in step and opposed

    isolation_db: output to output [dB], math.inf for none; split_a_db, split_b_db: input to each output [dB];
    input_return_loss_db: of what hangs on the input [dB]; an entry filter sends all back, 0 dB; feed_loss_db: one-way
    loss of the line between the splitter and that [dB]. Raises ValueError for a negative figure or where there is no
    way at all. Source: textbook, two paths in parallel; trade practice for in-home data, 1.1 to 1.7 GHz.
    """
    figures = (isolation_db, split_a_db, split_b_db, input_return_loss_db, feed_loss_db)
    if not all(figure >= 0 for figure in figures):
        raise ValueError("losses, isolation and return loss are zero or more")
    bound_db = split_a_db + split_b_db + 2 * feed_loss_db
    by_input_db = bound_db + input_return_loss_db
    if min(isolation_db, by_input_db) == inf:
        raise ValueError("there is no way from the one port to the other")
    return PortToPort(
        -sum_of_voltages_db([-isolation_db, -by_input_db]), _opposed_db(isolation_db, by_input_db), bound_db
    )


def _opposed_db(one_db: float, other_db: float) -> float:
    stronger_db, weaker_db = sorted((one_db, other_db))
    left = 1 - 10 ** ((stronger_db - weaker_db) / 20)
    return inf if left == 0 else stronger_db - 20 * log10(left)
