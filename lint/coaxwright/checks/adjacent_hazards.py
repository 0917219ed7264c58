"""What runs beside a cable, as several rules ask for it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from coaxwright.checks.contract import CannotJudge, NotMet
from coaxwright.checks.phrasing import in_system
from coaxwright.design.quantities import Length, LengthPair, in_feet, in_metres, shown
from coaxwright.network import Neighbour, Segment, Unknown
from coaxwright.physics.comparison import at_least

POWER = frozenset(("power cable", "lighting circuit", "Class 1 circuit", "fire alarm power circuit"))
"""Wiring of power, light and such control circuits as may carry as much."""
_LEAVES_OPEN = frozenset(("cable tray", "sleeve"))


def is_enclosed(segment: Segment) -> bool:
    """Whether the cable is in a raceway that parts it from what runs outside of it."""
    return segment.raceway is not None and segment.raceway.raceway.kind not in _LEAVES_OPEN


def beside(segment: Segment, kinds: frozenset[str]) -> list[Neighbour]:
    """The neighbours of these kinds with nothing fixed between; what a closed raceway holds as well is no neighbour."""
    own = segment.raceway.path if segment.raceway is not None and is_enclosed(segment) else None
    return [
        one
        for one in segment.neighbours
        if one.what in kinds and not one.is_parted and (own is None or one.path[:2] != own)
    ]


def is_near(distance: Length, limit: LengthPair) -> bool:
    """Whether a distance is below the limit that binds its author."""
    least = limit.for_author(distance.is_metric)
    return not at_least(in_system(distance, distance.is_metric), in_system(least, distance.is_metric))


def missing_text(distance: Length, least: Length) -> str:
    """How much a distance lacks, in inches or millimetres where it is short, else as its author writes."""
    return short_text(least.length_m - distance.length_m, distance.is_metric)


def short_text(length_m: float, is_metric: bool) -> str:
    """A computed length that may be a short one: ``40 mm``, ``1.5 in``, ``3.2 ft``."""
    if is_metric:
        return f"{shown(length_m * 1000, 1)} mm" if length_m < 1 else in_metres(length_m).text
    return f"{shown(length_m / 0.0254, 2)} in" if length_m < 0.6 else in_feet(length_m / 0.3048).text


def not_said(neighbour: Neighbour, what: str, link: str) -> Unknown:
    """What is not said of a neighbour."""
    return Unknown(f"{what} of the {neighbour.what} beside {link} is not stated", neighbour.path)


def one_per_facet(verdicts: Iterable[NotMet | CannotJudge]) -> Iterator[NotMet | CannotJudge]:
    """Of several verdicts of one facet the worst: what is not met first, the furthest beyond its limit of those."""
    best: dict[str, NotMet | CannotJudge] = {}
    for verdict in verdicts:
        before = best.get(verdict.facet)
        if before is None or _weight(verdict) > _weight(before):
            best[verdict.facet] = verdict
    yield from best.values()


def _weight(verdict: NotMet | CannotJudge) -> tuple[int, float]:
    if isinstance(verdict, CannotJudge):
        return 1, 0.0
    return 0 if verdict.case in _LEAST else 2, verdict.excess


_LEAST = frozenset(("parallel",))
"""Cases that are advice, and give way to a question that is open."""
