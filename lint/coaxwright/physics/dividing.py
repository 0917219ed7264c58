"""What an ideal part that divides a signal loses: the bound that no passive one can better."""

from __future__ import annotations

from math import log10


def ideal_split_db(ways: int) -> float:
    """Loss [dB] from the input of an ideal splitter to each of its outputs.

    10 log(ways)

    ways [-]: outputs alike. Raises ValueError below 1.
    Source: definition of the decibel, power divided alike; practical splitters lose 0.5 to 3 dB more.
    """
    if ways < 1:
        raise ValueError("a splitter has at least one output")
    return 10 * log10(ways)


def ideal_through_db(tap_db: float, outputs: int = 1) -> float:
    """Loss [dB] of the way through an ideal tap or directional coupler.

    -10 log(1 - outputs * 10^(-tap/10))

    tap_db: loss to each tap output [dB]; outputs [-]: tap outputs alike.
    Raises ValueError where the tap outputs would take all of the signal or more.
    Source: conservation of power; a catalogue figure below it is wrong.
    """
    kept = 1 - outputs * 10 ** (-tap_db / 10)
    if outputs < 1 or kept <= 0:
        raise ValueError("the taps take all of the signal: no tap is made so")
    return -10 * log10(kept)


def least_loss_db(ways: int, taken: float = 0.0) -> float:
    """Loss [dB] below which several ways alike would together give out more than is left for them.

    -10 log((1 - taken) / ways), never below zero

    ways [-]: with that loss; taken [-]: share of the power that other ways take.
    Raises ValueError below one way, or where nothing is left. Source: conservation of power.
    """
    if ways < 1 or not 0 <= taken < 1:
        raise ValueError("one way at least has the loss, and something is left for it")
    return max(0.0, -10 * log10((1 - taken) / ways))
