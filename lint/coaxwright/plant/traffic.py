"""Questions about where services go together: past which devices, from station to station, into the operator's drop.

Each is answered once, and kept.
"""

from __future__ import annotations

from functools import cached_property
from typing import TYPE_CHECKING

from coaxwright.plant.backfeed import Backfeed, backfeeds
from coaxwright.plant.between import Between, between
from coaxwright.plant.parts import DeviceNode
from coaxwright.plant.passing import Passage, passages, station_passages
from coaxwright.plant.sharing import IN_HOME, Pair, in_home_band, in_home_signal, pairs
from coaxwright.plant.signals import Grid, Signal
from coaxwright.plant.stations import from_station_to_station, stations

if TYPE_CHECKING:
    from coaxwright.plant.plant import Plant


class Traffic:
    """The services of a plant, and what they meet on their ways."""

    def __init__(self, plant: Plant) -> None:
        self.plant = plant
        self._passages: dict[str, tuple[Passage, ...]] = {}
        self._in_home_coax: dict[str, Between] = {}

    def passages(self, service: str) -> tuple[Passage, ...]:
        """The devices that a service passes on its way to where it is wanted; of in-home data, between its stations."""
        if service not in self._passages:
            plant = self.plant
            node = plant.services[service]
            if node.service.kind == IN_HOME:
                passes = from_station_to_station(in_home_band(plant, node).high_hz)
                found = station_passages(node, plant.network, self.stations(service), passes)
            else:
                found = passages(node, plant.signal(service, "down"), plant.network, plant.outlets_of(service))
            self._passages[service] = found
        return self._passages[service]

    def stations(self, service: str) -> tuple[DeviceNode, ...]:
        """The stations of an in-home data service, in tag order."""
        plant = self.plant
        return tuple(stations(plant.services[service], tuple(plant.services.values()), tuple(plant.devices.values())))

    def in_home_coax(self, service: str) -> Between:
        """The devices and cables between the stations of an in-home data service."""
        if service not in self._in_home_coax:
            self._in_home_coax[service] = between(self.plant, (node.tag for node in self.stations(service)))
        return self._in_home_coax[service]

    def in_home_signal(self, service: str, grid_hz: Grid | None = None) -> Signal:
        """Where the signal of all stations of an in-home data service is known to go.

        ``grid_hz``: the frequencies asked for [Hz]; the ends of what it is on where it is left out.
        """
        if grid_hz is None:
            band = in_home_band(self.plant, self.plant.services[service])
            grid_hz = (band.low_hz, band.high_hz)
        return in_home_signal(self.plant, self.stations(service), grid_hz)

    @cached_property
    def backfeeds(self) -> tuple[Backfeed, ...]:
        """The aerials and generators that feed into an operator's hand-off."""
        return tuple(backfeeds(self.plant))

    @cached_property
    def pairs(self) -> tuple[Pair, ...]:
        """The pairs of services that come over one coax."""
        return tuple(pairs(self.plant))
