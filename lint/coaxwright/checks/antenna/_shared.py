"""A mast beside a power line: how high it is, and how far away the line."""

from __future__ import annotations

from coaxwright.checks.contract import CannotJudge, DoesNotApply
from coaxwright.design.quantities import Length
from coaxwright.design.value_types import LENGTH, TAG, WORD, Derived, Values
from coaxwright.design.words import POWER_LINES
from coaxwright.frozen_value import frozen_value
from coaxwright.network import DeviceNode, Network, Unknown
from coaxwright.physics.comparison import at_least
from coaxwright.source import Path

BESIDE_A_LINE = {
    "antenna": TAG,
    "distance": LENGTH,
    "height": LENGTH,
    "needed": LENGTH,
    "over": LENGTH,
    "lower": LENGTH,
}
NOT_KNOWN = {"line at no distance": {"line": WORD}, "no height": {"antenna": TAG}}
NOT_BESIDE: dict[str, Values] = {"no outdoor antenna": {}, "no power line": {}}


@frozen_value
class MastByLine:
    """A mast beside a power line."""

    antenna: DeviceNode
    bearer: str
    """The tag of the device at which it is described."""
    height: Length
    distance: Length
    at: Path

    @property
    def group(self) -> tuple[str, ...]:
        """What the antennas on one mast share."""
        return ("mast", self.bearer)

    def is_clear_by(self, factor: float) -> bool:
        """Whether the line is away by a multiple of the height, in the author's system where both are written in it."""
        if self.height.is_metric or self.distance.is_metric:
            return at_least(self.distance.length_m, factor * self.height.length_m)
        return at_least(self.distance.length_ft, factor * self.height.length_ft)

    def values(self, factor: float) -> dict[str, object]:
        """What there is to say of it where the line should be away by a multiple of the height."""
        needed_m = factor * self.height.length_m
        return {
            "antenna": self.antenna.tag,
            "distance": self.distance,
            "height": self.height,
            "needed": Derived(needed_m, self.distance),
            "over": Derived(needed_m - self.distance.length_m, self.distance),
            "lower": Derived(self.distance.length_m / factor, self.height),
        }


def mast_by_line(antenna: DeviceNode, network: Network) -> MastByLine | CannotJudge | DoesNotApply:
    """The mast with its height and the nearest power line: as it states, else as its place shows."""
    bearer = bearer_of(antenna, network)
    mast, place = bearer.mast, antenna.place
    if antenna.device.kind not in ("antenna", "dish") or (place is not None and not place.is_outside):
        return DoesNotApply("no outdoor antenna")
    lines = [] if place is None else [neighbor for neighbor in place.neighbors if neighbor.what in POWER_LINES]
    known = [(line.distance, line.path) for line in lines if line.distance is not None]
    if mast is not None and mast.from_power_line is not None:
        distance, at = mast.from_power_line, (*bearer.path, "mast", "from power line")
    elif known:
        distance, at = min(known, key=lambda line: line[0].length_m)
    elif lines:
        return CannotJudge(Unknown("line at no distance", lines[0].path, {"line": lines[0].what}))
    else:
        return DoesNotApply("no power line")
    if mast is None or mast.height is None:
        at = (*bearer.path, "mast") if mast is None else (*bearer.path, "mast", "height")
        return CannotJudge(Unknown("no height", at, {"antenna": bearer.tag}))
    return MastByLine(antenna, bearer.tag, mast.height, distance, at)


def bearer_of(antenna: DeviceNode, network: Network) -> DeviceNode:
    """The device at which the mast of an antenna is described."""
    mast = antenna.device.mast
    return network.devices.get(mast.of, antenna) if mast is not None and mast.of is not None else antenna
