"""Levels of a service at the outlets where it is wanted, and what its return path needs."""

from __future__ import annotations

from collections.abc import Sequence

from coaxwright.analysis.handoff import handoff_figures
from coaxwright.analysis.loss_range import LossRange
from coaxwright.analysis.merge_paths import chain_together, losses_together
from coaxwright.analysis.path_loss import Losses, Step
from coaxwright.frozen_value import frozen_value
from coaxwright.network import DeviceNode, ServiceNode, Unknown
from coaxwright.network.signals import Arrival
from coaxwright.source import Path

USUAL_LEVEL = "usual hand-off"
"""The limit by which rulesets say what usually comes in of a service whose level nobody states."""


@frozen_value
class Reading:
    """One service at one outlet and frequency."""

    index: int
    """Of the frequency in the grid."""
    freq_hz: float
    loss_db: LossRange | Unknown
    """From the demarcation point to the outlet; upstream, from the outlet to the demarcation point."""
    level_dbmv: LossRange | Unknown
    """Downstream, at the outlet; upstream, what the modem has to send for the wanted level at the demarcation point."""


@frozen_value
class Outlet:
    """An outlet of a service, with what comes to it in one direction."""

    device: DeviceNode
    readings: tuple[Reading, ...]
    """At the frequencies that reach it, rising; empty where none does."""
    chain: tuple[Step, ...]
    missed_hz: tuple[float, ...]
    """Frequencies of the service that do not reach it."""
    arrivals: tuple[Arrival, ...] = ()
    """The ways by which it comes, each with frequencies of its own."""

    @property
    def known(self) -> tuple[tuple[float, LossRange], ...]:
        """Frequency and level where the level is known."""
        return tuple((r.freq_hz, r.level_dbmv) for r in self.readings if isinstance(r.level_dbmv, LossRange))


def outlet_readings(service: ServiceNode, node: DeviceNode, arrivals: Sequence[Arrival], losses: Losses) -> Outlet:
    """The levels downstream at one outlet; ``arrivals`` are the ways to the port at which a set is served."""
    grid = losses.signal.grid_hz
    if not arrivals:
        return Outlet(node, (), (), grid)
    readings: list[Reading] = []
    missed: list[float] = []
    for index, (freq_hz, loss) in enumerate(zip(grid, losses_together(losses, arrivals), strict=True)):
        by = next((one for one in arrivals if one.frequencies >> index & 1), None)
        if loss is None or by is None:
            missed.append(freq_hz)
            continue
        source = handoff_figures(service, by.way[0].device, freq_hz)
        if isinstance(loss, Unknown):
            level: LossRange | Unknown = loss
        else:
            level = source if isinstance(source, Unknown) else source.less(loss)
        readings.append(Reading(index, freq_hz, loss, level))
    return Outlet(node, tuple(readings), chain_together(losses, arrivals), tuple(missed), tuple(arrivals))


def transmit_readings(service: ServiceNode, node: DeviceNode, arrivals: Sequence[Arrival], losses: Losses) -> Outlet:
    """What a modem at one outlet has to send, at each frequency of the return band."""
    grid = losses.signal.grid_hz
    if not arrivals:
        return Outlet(node, (), (), grid)
    wanted = service.service.up.wanted if service.service.up is not None else None
    readings: list[Reading] = []
    missed: list[float] = []
    for index, (freq_hz, loss) in enumerate(zip(grid, losses_together(losses, arrivals), strict=True)):
        if loss is None:
            missed.append(freq_hz)
            continue
        needed: LossRange | Unknown
        if isinstance(loss, Unknown):
            needed = loss
        elif wanted is None:
            at = ("services", service.tag, "up", "wanted")
            needed = Unknown("no level wanted", at, {"service": service.tag})
        else:
            needed = LossRange.exactly(wanted.level_dbmv).plus(loss)
        readings.append(Reading(index, freq_hz, loss, needed))
    chain = chain_together(losses, arrivals)
    return Outlet(node, tuple(readings), tuple(reversed(chain)), tuple(missed), tuple(arrivals))


def least_sure_cable(outlet: Outlet, index: int) -> Path:
    """Where a measured loss tells most: at the cable whose loss is least sure, else at the outlet.

    index: of the frequency in the grid.
    """
    spreads = [
        (loss.high - loss.low, number, step.arrival.cable)
        for number, step in enumerate(outlet.chain)
        if step.arrival.cable is not None and isinstance(loss := step.losses[index], LossRange)
    ]
    return max(spreads)[2].path if spreads else outlet.device.path
