"""How far outlets are kept apart: what one of them sends back, as it comes to another past what divides the signal.

isolation = isolation of the two ports that part them + loss from each port to its outlet

By the usual figures, as isolation is published. Parts that amplify count as no loss: they raise what is wanted too.
Source: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import combinations, islice

from coaxwright.analysis.loss_range import LossRange
from coaxwright.analysis.path_loss import Losses
from coaxwright.frozen_value import frozen_value
from coaxwright.network import DeviceNode, Unknown
from coaxwright.network.device_passages import Passage, PortPair
from coaxwright.network.service_demand import receiving_port


@frozen_value
class End:
    """An outlet behind a port, and the loss between them [dB]."""

    outlet: DeviceNode
    loss_db: float
    missing: Unknown | None = None
    """What is not known of that loss, which then is at least the figure."""


@frozen_value
class OutletIsolation:
    """Two outlets that are parted at a device, and their isolation [dB] at a frequency [Hz]."""

    one: DeviceNode
    other: DeviceNode
    freq_hz: float
    isolation_db: float
    missing: Unknown | None = None
    """What is not known on the way, so that the isolation is at least the figure."""


_Behind = Mapping[str, End]
"""By dwelling: the outlet of least loss."""


def dwelling_of(node: DeviceNode) -> str:
    """The repeated unit that a device belongs to, such as ``flat-03``; empty for what is common to all."""
    return node.tag.rpartition("/")[0]


class Isolations:
    """The isolation between the outlets of one service."""

    def __init__(self, losses: Losses) -> None:
        self._losses = losses
        self._grid = losses.signal.grid_hz
        self._sums: dict[int, tuple[tuple[float, Unknown | None, int], ...]] = {}
        start = tuple((0.0, None, 0) for _ in self._grid)
        for arrival in losses.signal.arrivals:  # nearest first: what lies before is there already
            if arrival.before is None:
                self._sums[id(arrival)] = start
                continue
            before = self._sums[id(arrival.before)]
            own = losses.step(arrival).losses
            self._sums[id(arrival)] = tuple(
                (total + max(loss.nominal, 0.0), missing, number)
                if isinstance(loss, LossRange)
                else (total, loss or missing, number + (loss is not None))
                for (total, missing, number), loss in zip(before, own, strict=True)
            )

    def within_dwellings(self, passage: Passage) -> Iterator[OutletIsolation | Unknown]:
        """Two outlets of one dwelling that are parted at a device, the nearest behind each two of its ports."""
        for one, other, freq_hz, apart_db in self._parted(passage):
            for dwelling in one.keys() & other.keys():
                if isinstance(apart_db, Unknown):
                    yield apart_db
                    break
                yield _apart(one[dwelling], other[dwelling], freq_hz, apart_db)

    def between_dwellings(self, passage: Passage) -> Iterator[OutletIsolation | Unknown]:
        """Two outlets of different dwellings that are parted at a device, the nearest behind each two of its ports."""
        for one, other, freq_hz, apart_db in self._parted(passage):
            if isinstance(apart_db, Unknown):
                if len(one.keys() | other.keys()) > 1:
                    yield apart_db
                continue
            for dwelling, mine in _two_least(one):
                for another, its in _two_least(other):
                    if dwelling != another:
                        yield _apart(mine, its, freq_hz, apart_db)

    def _parted(self, passage: Passage) -> Iterator[tuple[_Behind, _Behind, float, float | Unknown]]:
        """Every two legs of a device at every frequency at which the catalogue says how far they are apart.

        An Unknown stands in place of the isolation of two ports where it says so at no frequency.
        """
        node = passage.device
        if node.entry is None:
            return
        behind = [self._behind(leg, node) for leg in passage.legs]
        for (one, mine), (other, its) in combinations(zip(passage.legs, behind, strict=True), 2):
            if one.other.name == other.other.name:
                continue
            known = [node.entry.isolation(one.other.name, other.other.name, freq_hz) for freq_hz in self._grid]
            for index, isolation in enumerate(known):
                if isolation is not None:
                    yield mine[index], its[index], self._grid[index], isolation.nominal_db
            if not any(known) and self._grid:
                top_hz = self._grid[-1]
                values = {"device": node.tag, "one": one.other.name, "other": other.other.name, "frequency": top_hz}
                both = (pair for pair in zip(mine, its, strict=True) if all(pair))
                for nearest, others in islice(both, 1):
                    yield nearest, others, top_hz, Unknown("no figure of isolation", node.path, values)

    def _behind(self, leg: PortPair, node: DeviceNode) -> list[dict[str, End]]:
        """At each frequency the nearest outlet of every dwelling behind a leg."""
        found: list[dict[str, End]] = [{} for _ in self._grid]
        signal = self._losses.signal
        begins = [at for at in signal.ports_of(node.tag) if at.is_through and at.port == leg.other]
        if not begins:
            return found
        start = self._sums[id(begins[0])]
        for outlet in leg.wanted:
            port, dwelling = receiving_port(outlet), dwelling_of(outlet)
            for arrival in signal.ports_of(outlet.tag):
                if arrival.port != port:
                    continue
                for index, (total, missing, number) in enumerate(self._sums[id(arrival)]):
                    if not arrival.frequencies >> index & 1:
                        continue
                    end = End(outlet, total - start[index][0], missing if number > start[index][2] else None)
                    nearest = found[index].get(dwelling)
                    if nearest is None or end.loss_db < nearest.loss_db:
                        found[index][dwelling] = end
        return found


def _two_least(behind: _Behind) -> list[tuple[str, End]]:
    return sorted(behind.items(), key=lambda one: (one[1].loss_db, one[0]))[:2]


def _apart(one: End, other: End, freq_hz: float, apart_db: float) -> OutletIsolation:
    whole_db = apart_db + one.loss_db + other.loss_db
    return OutletIsolation(one.outlet, other.outlet, freq_hz, whole_db, one.missing or other.missing)
