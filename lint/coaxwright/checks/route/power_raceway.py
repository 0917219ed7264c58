"""No power is in the raceway, box or enclosure of coax without a barrier.

In a box the supply of the coaxial equipment itself is sound if it keeps its gap; whether it is that, a person sees.
Source: NFPA 70, 820.133(A)(1) and 800.133(A), found.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from coaxwright.checks.contract import Check, CheckContext, DoesNotApply, NeedsPerson, NotMet, Verdict
from coaxwright.checks.limits import LimitKind, Limits
from coaxwright.checks.route._shared import POWER, is_near, lacking
from coaxwright.checks.selectors import RACEWAY
from coaxwright.design.quantities import Length, LengthPair
from coaxwright.design.value_types import LENGTH, TAG, TAGS, WORD, WORDS
from coaxwright.network import Neighbor, RacewayNode


def power_raceway(node: RacewayNode, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """What power shares the raceway of coax is parted from it, or else keeps its gap in a box."""
    held = [neighbor for neighbor in node.holds if neighbor.what in POWER]
    coax = list(dict.fromkeys(link.tag for link, _ in context.network.contents(node.tag)))
    is_box = node.raceway.kind == "box"
    if not held or not coax or node.raceway.kind == "cable tray":  # in a tray the distance decides
        yield DoesNotApply("not together")
        return
    gap = limits.one(LengthPair, "gap")
    shared = [neighbor for neighbor in held if not neighbor.is_parted]
    near = [
        neighbor for neighbor in shared if not is_box or neighbor.distance is None or is_near(neighbor.distance, gap)
    ]
    results = near or shared
    if not results:
        return
    values: dict[str, object] = {
        "raceway": node.tag,
        "kind": node.raceway.kind,
        "coax": coax,
        "power": list(dict.fromkeys(neighbor.what for neighbor in results)),
        "gap": _gap_of_author(results, gap),
    }
    at, distances = results[0].path, _distances(near) if is_box else []
    if not near:
        yield NeedsPerson("supply", at, values)
    elif not distances:
        yield NotMet("together", at, values)
    else:
        least = min(distances, key=lambda distance: distance.length_m)
        values |= {"distance": least, "missing": lacking(least, gap.for_author(least.is_metric))}
        yield NotMet("too near in the box", at, values, cites=(("gap",),))


def _distances(neighbors: Sequence[Neighbor]) -> list[Length]:
    return [neighbor.distance for neighbor in neighbors if neighbor.distance is not None]


def _gap_of_author(neighbors: Sequence[Neighbor], gap: LengthPair) -> Length | LengthPair:
    stated = _distances(neighbors)
    return gap.for_author(stated[0].is_metric) if stated else gap


_TOGETHER = {"raceway": TAG, "kind": WORD, "coax": TAGS, "power": WORDS, "gap": LENGTH}

CHECK = Check(
    name="route.power-raceway",
    each=RACEWAY,
    judge=power_raceway,
    cases={
        "together": _TOGETHER,
        "too near in the box": _TOGETHER | {"distance": LENGTH, "missing": LENGTH},
        "supply": _TOGETHER,
    },
    does_not_apply={"not together": {}},
    limits={"gap": LimitKind(LengthPair)},
)
