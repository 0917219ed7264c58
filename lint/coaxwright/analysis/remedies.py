"""What would bring a level to where it is wanted: another class on one run, an amplifier, a pad."""

from __future__ import annotations

from collections.abc import Iterator
from math import ceil

from coaxwright.analysis.loss_range import LossRange
from coaxwright.analysis.losses import ROOM_C
from coaxwright.analysis.path_loss import Step
from coaxwright.catalogue import CableClass, CableType, Catalogue, Direction
from coaxwright.frozen_value import frozen_value
from coaxwright.network import CableLink, Unknown
from coaxwright.physics.attenuation import FrequencyOutsideTable
from coaxwright.physics.comparison import at_least

DIVIDING = frozenset(("splitter", "tap", "directional coupler", "multiswitch"))
"""Kinds ahead of which an amplifier belongs. Source: common practice, no source."""


@frozen_value
class LargerClass:
    """One run in another class, and what the level gains by it [dB]."""

    cable: CableLink
    cable_class: CableClass
    gain_db: float


def larger_class(
    chain: tuple[Step, ...], freq_hz: float, missing_db: float, catalogue: Catalogue
) -> LargerClass | None:
    """The change of one run's class that gains at least ``missing_db`` at a frequency; the least that does."""
    found = [one for one in class_changes(chain, freq_hz, catalogue) if at_least(one.gain_db, missing_db)]
    return min(found, key=lambda one: (one.gain_db, one.cable.tag), default=None)


def more_loss_db(link: CableLink, smaller: CableClass, freq_hz: float) -> float:
    """What a cable would lose more in a smaller class [dB]; 0 where it is no larger one, or a figure is missing.

    freq_hz [Hz]. At the usual figures and the temperature of a room.
    """
    if not isinstance(link.type, CableType) or isinstance(link.length, Unknown):
        return 0.0
    if link.type.impedance_ohm != smaller.impedance_ohm:
        return 0.0
    try:
        now = link.type.cable_class.attenuation.loss_db_per_m(freq_hz, ROOM_C).nominal_db_per_m
        then = smaller.attenuation.loss_db_per_m(freq_hz, ROOM_C).nominal_db_per_m
    except FrequencyOutsideTable:
        return 0.0
    return max(0.0, then - now) * link.length.length_m


def class_changes(chain: tuple[Step, ...], freq_hz: float, catalogue: Catalogue) -> Iterator[LargerClass]:
    """Every usual class of the same impedance that would lose less on a run, with its gain at the usual figures."""
    for step in chain:
        link = step.arrival.cable
        if link is None or not isinstance(link.type, CableType) or isinstance(link.length, Unknown):
            continue
        now = link.type.cable_class
        for other in catalogue.classes.values():
            if other.impedance_ohm != now.impedance_ohm or other.name == now.name:
                continue
            try:
                saved = (
                    now.attenuation.loss_db_per_m(freq_hz, ROOM_C).nominal_db_per_m
                    - other.attenuation.loss_db_per_m(freq_hz, ROOM_C).nominal_db_per_m
                )
            except FrequencyOutsideTable:
                continue
            if saved > 0:
                yield LargerClass(link, other, saved * link.length.length_m)


def place_of_amplifier(chain: tuple[Step, ...]) -> str | None:
    """Ahead of what an amplifier belongs: the first device that divides, else the last device.

    Of a device with several inputs the input is named: ``MS.terrestrial``.
    """
    for step in chain:
        device, before = step.arrival.device, step.arrival.before
        if not step.is_cable and device.device.kind in DIVIDING and before is not None:
            inputs = [port for port in device.ports if port.direction is Direction.IN]
            return f"{device.tag}.{before.port.name}" if len(inputs) > 1 else device.tag
    cables = [step for step in chain if step.is_cable]
    return cables[-1].arrival.device.tag if cables else None


def whole_decibels(needed_db: float) -> int:
    """The next whole number of decibels, as gains and pads are sold."""
    return ceil(needed_db - 1e-9)


def pad_db(needed_db: float, catalogue: Catalogue) -> float:
    """The smallest pad made that takes out at least ``needed_db``; where none does, the next whole decibel."""
    made = sorted(options.value_db for options in catalogue.made("attenuator") if options.value_db is not None)
    return next((value_db for value_db in made if at_least(value_db, needed_db)), float(whole_decibels(needed_db)))


def largest_losses(chain: tuple[Step, ...], index: int, most: int = 3) -> list[tuple[str, float]]:
    """The steps that lose most at one frequency of the grid, with their usual loss [dB], greatest first."""
    known = [(step.what, loss.nominal) for step in chain if isinstance(loss := step.losses[index], LossRange)]
    return sorted((one for one in known if one[1] > 0), key=lambda one: (-one[1], one[0]))[:most]
