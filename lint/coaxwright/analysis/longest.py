"""The longest run of each class that still meets an outlet's window, and the smallest class that would do."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from math import inf

from coaxwright.analysis.levels import Outlet
from coaxwright.analysis.loss_range import LossRange
from coaxwright.analysis.losses import ROOM_C
from coaxwright.catalogue import CableType, Catalogue
from coaxwright.frozen_value import frozen_value
from coaxwright.network import CableLink, Unknown
from coaxwright.physics.attenuation import FrequencyOutsideTable
from coaxwright.physics.comparison import at_most


@frozen_value
class LongestRuns:
    """The last run to an outlet, and how long it could be."""

    cable: CableLink
    length_m: float
    by_class: Mapping[str, float]
    """The longest run [m] of each usual class of its impedance, most lossy first; 0 where not even a short one does."""
    held: frozenset[str] = frozenset()
    """The classes that are held to a length by other reasons than the level."""

    @property
    def smallest(self) -> str | None:
        """The most lossy class that still reaches; None where none does."""
        return next((name for name, most_m in self.by_class.items() if at_most(self.length_m, most_m)), None)


def longest_runs(
    outlet: Outlet,
    lowest_dbmv: Sequence[float | None],
    catalogue: Catalogue,
    suiting_m: Callable[[str], float] = lambda _: inf,
) -> LongestRuns | None:
    """How long the last run to an outlet could be in each class, at the usual figures of the hottest day.

    lowest_dbmv: what has to arrive [dBmV], for each of the outlet's readings; None where nothing is asked for.
    suiting_m: how long [m] a class may be for the service for other reasons than its level; 0 leaves it out.
    None where the outlet has no last run, or its level or length is not known.
    """
    last = next((step for step in reversed(outlet.chain) if step.is_cable), None)
    link = last.arrival.cable if last is not None else None
    if last is None or link is None or not isinstance(link.type, CableType) or isinstance(link.length, Unknown):
        return None
    length_m = link.length.length_m
    before: list[tuple[float, float, float]] = []  # frequency, level ahead of the run less what has to arrive, heat
    for reading, least_dbmv in zip(outlet.readings, lowest_dbmv, strict=True):
        level, lost = reading.level_dbmv, last.losses[reading.index]
        if least_dbmv is None:
            continue
        if not isinstance(level, LossRange) or not isinstance(lost, LossRange):
            return None
        plain_db = length_m * link.type.cable_class.attenuation.loss_db_per_m(reading.freq_hz, ROOM_C).nominal_db_per_m
        heat = lost.hot / plain_db if plain_db else 1.0
        before.append((reading.freq_hz, level.hot + lost.hot - least_dbmv, heat))
    if not before:
        return None
    ranked: list[tuple[float, str, float]] = []
    held = set()
    for name, made in catalogue.classes.items():
        may_be_m = suiting_m(name)
        if made.impedance_ohm != link.type.impedance_ohm or not may_be_m:
            continue
        try:
            losses = [
                made.attenuation.loss_db_per_m(freq_hz, ROOM_C).nominal_db_per_m * heat for freq_hz, _, heat in before
            ]
        except FrequencyOutsideTable:
            continue
        longest_m = min(spare_db / loss for (_, spare_db, _), loss in zip(before, losses, strict=True))
        if may_be_m < longest_m:
            held.add(name)
        ranked.append((-losses[-1], name, max(0.0, min(longest_m, may_be_m))))
    return LongestRuns(link, length_m, {name: longest_m for _, name, longest_m in sorted(ranked)}, frozenset(held))
