"""Splitters on the ways to outlets: which stand one behind the other, and what each feeds without another between."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from coaxwright.catalogue import Direction
from coaxwright.design.words import ServiceKind
from coaxwright.frozen_value import frozen_value
from coaxwright.network.nodes import CableLink, DeviceNode
from coaxwright.network.signals import Arrival, Grid

if TYPE_CHECKING:
    from coaxwright.network.network import Network

SHARED: frozenset[ServiceKind] = frozenset(("cable broadband", "terrestrial TV", "FM radio"))
"""Services that are divided to the outlets of a home by passive splitters. Satellite and indoor antennas of boosters
are handed on from one divider to the next by their nature. Source: common practice, no source."""
_OTHER_SORTS = frozenset(("satellite", "50 ohm"))
USUAL_HZ: Grid = (10e6, 57e6, 98e6, 200e6, 500e6, 590e6, 690e6, 800e6, 1000e6, 1300e6, 1600e6, 2000e6)
"""Frequencies [Hz] in every usual band, for ways where a service states none. Source: common practice, no source."""


@frozen_value
class Split:
    """A splitter on the way to outlets."""

    splitter: DeviceNode
    ahead: tuple[DeviceNode, ...]
    """The splitters ahead of it, the first of the way first."""
    unamplified: tuple[DeviceNode, ...]
    """Those of them behind the last amplifier."""
    feeds: tuple[tuple[CableLink, DeviceNode], ...]
    """The outlets and sets that it feeds with no other splitter between, each with the cable that leaves for it."""


def splits(network: Network) -> dict[str, Split]:
    """Every splitter on the way of a shared service to where it is wanted, by its tag."""
    found: dict[str, Split] = {}
    for tag, node in network.services.items():
        if node.service.kind not in SHARED:
            continue
        signal = network.signal(tag, "down", node.grid_hz("down") or USUAL_HZ)
        for device in network.outlets_of(tag):
            arrival = network.arrival_at(signal, device)
            for split in _of(arrival) if arrival is not None else ():
                known = found.get(split.splitter.tag)
                if known is None:
                    found[split.splitter.tag] = split
                elif split.feeds and split.feeds[0] not in known.feeds:
                    feeds = (*known.feeds, *split.feeds)
                    found[split.splitter.tag] = Split(known.splitter, known.ahead, known.unamplified, feeds)
    return found


def _of(arrival: Arrival) -> Iterator[Split]:
    """The splitters on one way; what it leads to is fed by the last."""
    ahead: list[DeviceNode] = []
    since_amplifier = 0
    way = arrival.way
    last = max((at for at, step in enumerate(way) if _divides(step)), default=-1)
    for at, step in enumerate(way):
        entry = step.device.entry
        if step.is_through and entry is not None and entry.gain is not None:
            since_amplifier = len(ahead)
        if _divides(step):
            cable = next((later.cable for later in way[at + 1 :] if later.cable is not None), None)
            feeds = ((cable, arrival.device),) if at == last and cable is not None else ()
            yield Split(step.device, tuple(ahead), tuple(ahead[since_amplifier:]), feeds)
            ahead.append(step.device)


def _divides(step: Arrival) -> bool:
    """Whether a step leads from the input of a splitter to one of its outputs."""
    return (
        step.is_through
        and step.port.direction is Direction.OUT
        and step.device.device.kind == "splitter"
        and step.device.device.variant not in _OTHER_SORTS
    )
