"""What a raceway holds: no power with the coax, and not too much of it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import ceil, pi, sqrt

from coaxwright.catalogue import CableType
from coaxwright.catalogue.measures import Percent
from coaxwright.checks.adjacent_hazards import POWER, is_near, missing_text
from coaxwright.checks.contract import CannotJudge, Check, CheckContext, DoesNotApply, NeedsPerson, NotMet, Verdict
from coaxwright.checks.limits import LimitKind, Limits
from coaxwright.checks.phrasing import listed
from coaxwright.checks.selectors import RACEWAY
from coaxwright.design.quantities import Length, LengthPair, shown
from coaxwright.network import Neighbour, RacewayNode, Unknown
from coaxwright.physics.comparison import at_most

_METRIC_SIZES = {
    "16": "1/2",
    "21": "3/4",
    "27": "1",
    "35": "1-1/4",
    "41": "1-1/2",
    "53": "2",
    "63": "2-1/2",
    "78": "3",
    "91": "3-1/2",
    "103": "4",
}
"""Trade sizes by their metric designator. Source: NFPA 70, table 300.1(C), from memory."""


def power_raceway(node: RacewayNode, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """No power in the raceway, box or enclosure of coax without a barrier.

    In a box the supply of the coaxial equipment itself is sound if it keeps its gap; whether it is that, a person sees.
    """
    held = [one for one in node.holds if one.what in POWER]
    coax = _coax(node, context)
    if not held or not coax or node.raceway.kind == "cable tray":  # in a tray the distance decides
        yield DoesNotApply("it does not hold power and coax together, or is an open tray")
        return
    gap = limits.length("gap")
    assert gap is not None
    shared = [one for one in held if not one.is_parted]
    near = [one for one in shared if node.raceway.kind != "box" or one.distance is None or is_near(one.distance, gap)]
    results: Sequence[Neighbour] = near or shared
    if not results:
        return
    values = {
        "raceway": node.tag,
        "kind": node.raceway.kind,
        "coax": listed(coax),
        "power": listed(list(dict.fromkeys(one.what for one in results))),
        "gap": _gap_text(results, gap),
    }
    if near:
        distances = [one.distance for one in near if one.distance is not None and node.raceway.kind == "box"]
        if distances:
            worst = min(distances, key=lambda one: one.length_m)
            limit = gap.for_author(worst.is_metric)
            values |= {"distance": worst.text, "missing": missing_text(worst, limit)}
            yield NotMet("too near in the box", results[0].path, values, cites=(("gap",),))
        else:
            yield NotMet("together", results[0].path, values)
    else:
        yield NeedsPerson("supply", results[0].path, values)


def raceway_fill(node: RacewayNode, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """The cables of a raceway leave as much room as good practice asks; no code binds coax to it."""
    contents = {link.tag: link for link, _ in context.network.contents(node.tag)}
    inner = _inner_m(node, limits)
    if not contents or inner is None:
        yield DoesNotApply("it holds no coax, or its size is not stated")
        return
    if isinstance(inner, Unknown):
        yield CannotJudge(inner)
        return
    if inner <= 0:
        what = f"{node.tag} cannot have an inner diameter of nothing"
        yield CannotJudge(Unknown(what, (*node.path, "inner diameter")))
        return
    area_m2 = 0.0
    for link in contents.values():
        diameter_m = link.type.outer_diameter_m if isinstance(link.type, CableType) else None
        if diameter_m is None:
            yield CannotJudge(Unknown(f"the diameter of {link.tag} is not known", (*link.path, "type")))
            return
        area_m2 += pi * diameter_m**2 / 4
    number = "one" if len(contents) == 1 else "two" if len(contents) == 2 else "more"
    most = limits.quantity(Percent, "most", number)
    assert most is not None
    share = area_m2 / (pi * inner**2 / 4)
    if at_most(share, most.share):
        return
    decimals = 0
    while shown(share * 100, decimals) == shown(most.share * 100, decimals) and decimals < 6:
        decimals += 1
    needed_m = sqrt(4 * area_m2 / (pi * most.share))
    larger = _larger(node, needed_m, limits)
    is_metric = node.raceway.inner_diameter is not None and node.raceway.inner_diameter.is_metric
    values = {
        "raceway": node.tag,
        "kind": node.raceway.kind,
        "cables": listed(list(contents)),
        "share": f"{shown(share * 100, decimals)} %",
        "most": most.text,
        "instead": f"take trade size {larger}" if larger is not None else "take a larger raceway",
        "needed": _rounded_up(needed_m, is_metric),
    }
    key = "trade size" if node.raceway.inner_diameter is None else "inner diameter"
    yield NotMet("full", (*node.path, key), values, cites=(("most", number),), excess=share)


def _rounded_up(needed_m: float, is_metric: bool) -> str:
    """A diameter that is wide enough as it is written."""
    unit_m, steps, unit = (0.001, 10, "mm") if is_metric else (0.0254, 1000, "in")
    return f"{shown(ceil(needed_m / unit_m * steps - 1e-6) / steps, 3)} {unit}"


def _coax(node: RacewayNode, context: CheckContext) -> list[str]:
    return list(dict.fromkeys(link.tag for link, _ in context.network.contents(node.tag)))


def _gap_text(results: Sequence[Neighbour], gap: LengthPair) -> str:
    stated = [one.distance for one in results if one.distance is not None]
    return gap.for_author(stated[0].is_metric).text if stated else gap.text


def _inner_m(node: RacewayNode, limits: Limits) -> float | Unknown | None:
    """The inner diameter [m], stated or by kind and trade size; None where neither is stated."""
    stated: Length | None = node.raceway.inner_diameter
    if stated is not None:
        return stated.length_m
    size = node.raceway.trade_size
    if size is None:
        return None
    known = limits.length("inner diameter", node.raceway.kind, _trade_size(size))
    if known is None:
        what = f"the inner diameter of {node.tag} is not known by its trade size {size}"
        return Unknown(what, (*node.path, "trade size"))
    return known.feet.length_m


def _trade_size(written: str) -> str:
    size = written.strip().removesuffix("in").removesuffix('"').strip().replace(" ", "-")
    return _METRIC_SIZES.get(size, size)


def _larger(node: RacewayNode, needed_m: float, limits: Limits) -> str | None:
    """The next trade size of the same kind that is wide enough."""
    if node.raceway.trade_size is None:
        return None
    for kind, size in limits.keys("inner diameter"):
        pair = limits.length("inner diameter", kind, size)
        assert pair is not None
        if kind == node.raceway.kind and at_most(needed_m, pair.feet.length_m):
            return size
    return None


_TOGETHER = ("raceway", "kind", "coax", "power", "gap")

CHECKS = (
    Check(
        name="power-raceway",
        each=RACEWAY,
        judge=power_raceway,
        cases={
            "together": _TOGETHER,
            "too near in the box": (*_TOGETHER, "distance", "missing"),
            "supply": _TOGETHER,
        },
        reads=("raceways.*.kind", "raceways.*.holds", "raceways.*.state", "cables.*.route", "cables.*.state"),
        limits={"gap": LimitKind(LengthPair)},
    ),
    Check(
        name="raceway-fill",
        each=RACEWAY,
        judge=raceway_fill,
        cases={"full": ("raceway", "kind", "cables", "share", "most", "instead", "needed")},
        reads=(
            "raceways.*.kind",
            "raceways.*.trade size",
            "raceways.*.inner diameter",
            "raceways.*.state",
            "cables.*.type",
            "cables.*.route",
            "cables.*.state",
        ),
        limits={
            "most": LimitKind(Percent, by=("cables",)),
            "inner diameter": LimitKind(LengthPair, by=("kind", "trade size")),
        },
    ),
)
