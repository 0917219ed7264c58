"""Questions about where services go together: past which devices, from station to station, into the operator's drop.

Each is answered once, and kept.
"""

from __future__ import annotations

from functools import cached_property
from typing import TYPE_CHECKING

from coaxwright.network.backfeed import Backfeed, backfeeds
from coaxwright.network.device_passages import Passage, passages, station_passages
from coaxwright.network.nodes import DeviceNode
from coaxwright.network.service_overlap import IN_HOME, Pair, in_home_band, in_home_signal, pairs
from coaxwright.network.signals import Grid, Signal
from coaxwright.network.stations import from_station_to_station, stations
from coaxwright.network.subnetwork import Subnetwork, between

if TYPE_CHECKING:
    from coaxwright.network.network import Network


class Traffic:
    """The services of a network, and what they meet on their ways."""

    def __init__(self, network: Network) -> None:
        self.network = network
        self._passages: dict[str, tuple[Passage, ...]] = {}
        self._in_home_coax: dict[str, Subnetwork] = {}

    def passages(self, service: str) -> tuple[Passage, ...]:
        """The devices that a service passes on its way to where it is wanted; of in-home data, between its stations."""
        if service not in self._passages:
            network = self.network
            node = network.services[service]
            if node.service.kind == IN_HOME:
                passes = from_station_to_station(in_home_band(network, node).high_hz)
                found = station_passages(node, network.graph, self.stations(service), passes)
            else:
                found = passages(node, network.signal(service, "down"), network.graph, network.outlets_of(service))
            self._passages[service] = found
        return self._passages[service]

    def stations(self, service: str) -> tuple[DeviceNode, ...]:
        """The stations of an in-home data service, in tag order."""
        network = self.network
        return tuple(
            stations(network.services[service], tuple(network.services.values()), tuple(network.devices.values()))
        )

    def in_home_coax(self, service: str) -> Subnetwork:
        """The devices and cables between the stations of an in-home data service."""
        if service not in self._in_home_coax:
            self._in_home_coax[service] = between(self.network, (node.tag for node in self.stations(service)))
        return self._in_home_coax[service]

    def in_home_signal(self, service: str, grid_hz: Grid | None = None) -> Signal:
        """Where the signal of all stations of an in-home data service is known to go.

        ``grid_hz``: the frequencies asked for [Hz]; the ends of what it is on where it is left out.
        """
        if grid_hz is None:
            band = in_home_band(self.network, self.network.services[service])
            grid_hz = (band.low_hz, band.high_hz)
        return in_home_signal(self.network, self.stations(service), grid_hz)

    @cached_property
    def backfeeds(self) -> tuple[Backfeed, ...]:
        """The aerials and generators that feed into an operator's demarcation point."""
        return tuple(backfeeds(self.network))

    @cached_property
    def pairs(self) -> tuple[Pair, ...]:
        """The pairs of services that come over one coax."""
        return tuple(pairs(self.network))
