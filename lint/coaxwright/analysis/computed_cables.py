"""Which cables lead only to outlets whose levels are known: there a level can be judged in place of a length."""

from __future__ import annotations

from collections.abc import Iterable

from coaxwright.analysis.levels import Outlet
from coaxwright.analysis.loss_range import LossRange
from coaxwright.analysis.path_loss import Losses


def computed_cables(ways: Iterable[tuple[bool, Losses, tuple[Outlet, ...]]]) -> dict[str, bool]:
    """For each cable on the way to an outlet, whether the level is known at every frequency of every outlet behind it.

    ``ways``: of each service, whether its loss alone is enough, its losses and its outlets.
    Linear in the number of ports reached.
    """
    found: dict[str, bool] = {}
    for is_assumed, losses, outlets in ways:
        behind: dict[int, bool] = {}
        for outlet in outlets:
            for end in outlet.arrivals:
                known = bool(outlet.readings) and all(
                    isinstance(reading.loss_db if is_assumed else reading.level_dbmv, LossRange)
                    for reading in outlet.readings
                )
                behind[id(end)] = behind.get(id(end), True) and known
        for arrival in reversed(losses.signal.arrivals):  # what lies behind comes first, so each is complete when met
            known_here = behind.get(id(arrival))
            if known_here is None:
                continue
            if arrival.cable is not None:
                found[arrival.cable.tag] = found.get(arrival.cable.tag, True) and known_here
            if arrival.before is not None:
                key = id(arrival.before)
                behind[key] = behind.get(key, True) and known_here
    return found
