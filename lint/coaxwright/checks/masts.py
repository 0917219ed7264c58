"""Do masts stand where they may, and clear of power lines, also as they would fall?"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from math import ceil, floor

from coaxwright.checks.contract import CannotJudge, Check, CheckContext, DoesNotApply, NotMet, Verdict
from coaxwright.checks.limits import LimitKind, Limits
from coaxwright.checks.phrasing import length_text
from coaxwright.checks.selectors import DEVICE
from coaxwright.checks.subject_filters import kinds, those
from coaxwright.design.quantities import Length, Times, in_feet, in_metres, in_system_of
from coaxwright.design.quantities.lengths import FOOT_M
from coaxwright.design.words import POWER_LINES
from coaxwright.network import DeviceNode, Unknown
from coaxwright.physics.comparison import at_least
from coaxwright.source import Path

NO_LINE = "no power line is stated or drawn beside it"


def service_mast(antenna: DeviceNode, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """Nothing but the power drop is fixed to the mast of the electrical service."""
    mast = antenna.mast
    if mast is None or mast.on is None:
        yield DoesNotApply("it does not say what its mast is fixed to")
    elif mast.on == "power service mast":
        place = antenna.place.tag if antenna.place is not None else "a place not stated"
        values = {"antenna": antenna.tag, "kind": antenna.device.kind, "place": place}
        yield NotMet("fixed to it", (*antenna.path, "mast", "on"), values)


def power_line_fall(antenna: DeviceNode, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """A mast that falls stays short of the power line: distance over the ground >= height.

    Equal is just short of it. The height is what stands above the foot, as the design gives it; a mast on a roof may
    fall further, which the distance with its margin is for.
    """
    stands = _beside_a_line(antenna)
    if not isinstance(stands, _Stands):
        yield stands
        return
    if at_least(*stands.in_one_system(1.0)):
        return
    yield NotMet("falls into it", stands.at, stands.values(1.0))


def power_line_distance(antenna: DeviceNode, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """The power line is away by the height of the mast with a margin: distance >= times height."""
    stands = _beside_a_line(antenna)
    if not isinstance(stands, _Stands):
        yield stands
        return
    margin = limits.quantity(Times, "margin")
    assert margin is not None
    if not at_least(*stands.in_one_system(1.0)):
        yield DoesNotApply("it would fall into the line, which is judged for itself")
    elif not at_least(*stands.in_one_system(margin.factor)):
        yield NotMet("near", stands.at, {**stands.values(margin.factor), "margin": margin.text})


class _Stands:
    """A mast beside a power line."""

    def __init__(self, antenna: DeviceNode, height: Length, distance: Length, at: Path) -> None:
        self.antenna, self.height, self.distance, self.at = antenna, height, distance, at

    def needed(self, factor: float) -> Length:
        """The distance asked for, shown as the author wrote the one that is there."""
        return in_system_of(self.distance, factor * self.height.length_m)

    def in_one_system(self, factor: float) -> tuple[float, float]:
        """The distance and what is asked of it, in the author's own system where both are written in it."""
        if self.height.is_metric or self.distance.is_metric:
            return self.distance.length_m, factor * self.height.length_m
        return self.distance.length_ft, factor * self.height.length_ft

    def values(self, factor: float) -> dict[str, str]:
        needed = self.needed(factor)
        return {
            "antenna": self.antenna.tag,
            "distance": length_text(self.distance, needed),
            "height": self.height.text,
            "needed": needed.text,
            "over": _enough(self.distance, factor * self.height.length_m - self.distance.length_m, ceil).text,
            "lower": _enough(self.height, self.distance.length_m / factor, floor).text,
        }


def _enough(author: Length, length_m: float, rounding: Callable[[float], int]) -> Length:
    """A computed length as its author writes, to a tenth of a foot or a centimetre, rounded so that it is enough."""
    steps = length_m * 100 if author.is_metric else length_m / FOOT_M * 10
    whole = rounding(round(steps, 6))  # so that 3.0000000004 counts as 3
    return in_metres(whole / 100) if author.is_metric else in_feet(whole / 10)


def _beside_a_line(antenna: DeviceNode) -> _Stands | CannotJudge | DoesNotApply:
    """The mast with its height and the nearest power line: as it states, else as its place shows."""
    mast = antenna.mast
    place = antenna.place
    if antenna.device.kind not in ("antenna", "dish") or (place is not None and not place.is_outside):
        return DoesNotApply("it is no outdoor antenna")
    if antenna.device.mast is not None and antenna.device.mast.of is not None:
        return DoesNotApply("its mast is described at another antenna")
    lines = [] if place is None else [one for one in place.neighbours if one.what in POWER_LINES]
    known = [(one.distance, one.path) for one in lines if one.distance is not None]
    if mast is not None and mast.from_power_line is not None:
        distance, at = mast.from_power_line, (*antenna.path, "mast", "from power line")
    elif known:
        distance, at = min(known, key=lambda one: one[0].length_m)
    elif lines:
        return CannotJudge(Unknown(f"the {lines[0].what} is at no stated distance", lines[0].path))
    else:
        return DoesNotApply(NO_LINE)
    if mast is None or mast.height is None:
        at = (*antenna.path, "mast") if mast is None else (*antenna.path, "mast", "height")
        return CannotJudge(Unknown(f"{antenna.tag} states no height of its mast", at))
    return _Stands(antenna, mast.height, distance, at)


_READS = (
    "devices.*.kind",
    "devices.*.place",
    "devices.*.mast",
    "devices.*.mast.height",
    "devices.*.mast.from power line",
    "places.*.beside",
    "places.*.exposure",
)
_NEAR = ("antenna", "distance", "height", "needed", "over", "lower")

CHECKS = (
    Check(
        name="service-mast",
        each=DEVICE,
        judge=service_mast,
        applies_to=those(lambda node: node.device.mast is not None),
        cases={"fixed to it": ("antenna", "kind", "place")},
        reads=("devices.*.kind", "devices.*.mast", "devices.*.mast.on"),
    ),
    Check(
        name="power-line-fall",
        each=DEVICE,
        judge=power_line_fall,
        applies_to=kinds("antenna", "dish"),
        cases={"falls into it": _NEAR},
        reads=_READS,
    ),
    Check(
        name="power-line-distance",
        each=DEVICE,
        judge=power_line_distance,
        applies_to=kinds("antenna", "dish"),
        cases={"near": (*_NEAR, "margin")},
        reads=_READS,
        limits={"margin": LimitKind(Times)},
    ),
)
