"""What has to come in where nobody states it: the losses of all ways, held against the windows at their ends."""

from __future__ import annotations

from collections.abc import Iterable

from coaxwright.analysis.loss_range import LossRange
from coaxwright.frozen_value import frozen_value


@frozen_value
class HeldLevel:
    """One outlet at one frequency: the loss of its way [dB], and the window at its end [dBmV]."""

    tag: str
    freq_hz: float
    loss_db: LossRange
    low_dbmv: float | None
    high_dbmv: float | None


@frozen_value
class Bound:
    """A level at the demarcation point [dBmV], and the outlet that sets it."""

    level_dbmv: float
    tag: str


@frozen_value
class Budget:
    """What the demarcation point has to be at one frequency, at the usual figures of the coldest and the hottest day.

    Towards the outlets the levels that may come in; from them only ``most``: what is sure to arrive there.
    """

    freq_hz: float
    least: Bound | None
    most: Bound | None

    @property
    def is_possible(self) -> bool:
        """Whether one level does for all."""
        return self.least is None or self.most is None or self.least.level_dbmv <= self.most.level_dbmv


def budget(held: Iterable[HeldLevel], *, upstream: bool) -> tuple[Budget, ...]:
    """The budget at each frequency of what is given, rising; where no window is known there is none.

    down: the greatest of low + loss when hot, the least of high + loss when cold; up: the least of what every modem can
    send at most less its loss when hot. Source: sum of decibels, trade practice.
    """
    by_freq: dict[float, list[HeldLevel]] = {}
    for one in held:
        by_freq.setdefault(one.freq_hz, []).append(one)
    made = []
    for freq_hz, there in sorted(by_freq.items()):
        least = [Bound(one.low_dbmv + one.loss_db.hot, one.tag) for one in there if one.low_dbmv is not None]
        if upstream:
            most = [Bound(one.high_dbmv - one.loss_db.hot, one.tag) for one in there if one.high_dbmv is not None]
        else:
            most = [Bound(one.high_dbmv + one.loss_db.cold, one.tag) for one in there if one.high_dbmv is not None]
        if least or most:
            made.append(
                Budget(
                    freq_hz,
                    None if upstream else max(least, key=lambda one: one.level_dbmv, default=None),
                    min(most, key=lambda one: one.level_dbmv, default=None),
                )
            )
    return tuple(made)
