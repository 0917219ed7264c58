"""Loops: a frequency that comes to one port by two ways, or comes round again to where it was."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from coaxwright.frozen_value import frozen_value
from coaxwright.network.nodes import CableLink, DeviceNode, Direction
from coaxwright.network.signals import Arrival, Grid, Signal
from coaxwright.network.splitters import USUAL_HZ
from coaxwright.network.values import Unknown

if TYPE_CHECKING:
    from coaxwright.network.network import Network

_SELECTS = "multiswitch"
"""The kind whose outputs take one of several inputs at a time: two ways into it meet nowhere."""
_DIRECTIONS: tuple[Direction, ...] = ("down", "up")


@frozen_value
class Loop:
    """Two ways of one service to one port."""

    closing: CableLink
    """The cable over which the second way comes."""
    meets_at: DeviceNode
    around: tuple[str, ...]
    """The cables in which the two ways differ."""
    service: str
    hertz: Grid
    """The frequencies that come by both; empty where the service states none, so that nobody can tell."""
    comes_round: bool
    """Whether the second way leads by where the first had ended: feedback."""

    @property
    def unknown(self) -> Unknown | None:
        """What is missing to tell whether it is one."""
        if self.hertz:
            return None
        return Unknown("service without frequencies", ("services", self.service, "down"), {"service": self.service})


def loops(network: Network) -> Iterator[Loop]:
    """Every loop once, by the first service that runs in it, and one for each cable that closes some."""
    seen: set[frozenset[str]] = set()
    closed: set[str] = set()
    found = [
        loop for service in network.services for direction in _DIRECTIONS for loop in _of(network, service, direction)
    ]
    for loop in sorted(found, key=lambda one: not one.hertz):  # what is certain first
        around = frozenset(loop.around)
        if around not in seen and loop.closing.tag not in closed:
            yield loop
        seen.add(around)
        closed.add(loop.closing.tag)


def _of(network: Network, service: str, direction: Direction) -> Iterator[Loop]:
    stated = network.services[service].grid_hz(direction)
    if not stated and direction == "up":
        return
    signal = network.signal(service, direction, stated or USUAL_HZ)
    for double in signal.doubles:
        if double.is_through and double.device.device.kind == _SELECTS:
            continue
        first = _first(signal, double)
        one, other = (_cables(arrival) for arrival in (first, double))
        shared = next((n for n, (a, b) in enumerate(zip(one, other, strict=False)) if a is not b), len(one))
        ways = (one[shared:], other[shared:])
        around = tuple(dict.fromkeys(link.tag for way in ways for link in way))
        closing = next((link for link in reversed(ways[1]) if link not in ways[0]), None) or next(
            (link for link in reversed(ways[0])), None
        )
        if closing is not None:
            common = first.frequencies & double.frequencies
            yield Loop(closing, double.device, around, service, signal.hertz(common) if stated else (), not ways[0])


def _first(signal: Signal, double: Arrival) -> Arrival:
    """How the same frequencies had come to the same port before."""
    return next(
        arrival
        for arrival in signal.ports_of(double.device.tag)
        if arrival.port.name == double.port.name
        and arrival.is_through == double.is_through
        and arrival.before is not None
        and arrival.frequencies & double.frequencies
    )


def _cables(arrival: Arrival) -> list[CableLink]:
    """The cables of a way, in its order."""
    return [step.cable for step in arrival.way if step.cable is not None]
