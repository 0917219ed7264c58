"""The cables of a raceway leave as much room as good practice asks; no code binds coax to it.

sum of pi d^2 / 4 <= most x pi D^2 / 4, with the diameters d of the cables and D inside the raceway [m].
Source: NFPA 70, chapter 9, table 1.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from math import pi, sqrt

from coaxwright.catalogue import CableType
from coaxwright.catalogue.measures import Percent
from coaxwright.checks.contract import CannotJudge, Check, CheckContext, DoesNotApply, NotMet, Verdict
from coaxwright.checks.limits import LimitKind, Limits
from coaxwright.checks.selectors import RACEWAY
from coaxwright.design.quantities import Length, LengthPair
from coaxwright.design.value_types import LENGTH, QUANTITY, SHARE, TAG, TAGS, TEXT, WORD, Derived, Phrase, phrase
from coaxwright.network import CableLink, RacewayNode, Unknown
from coaxwright.physics.comparison import at_most


def raceway_fill(node: RacewayNode, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """The share of its area that the cables fill is at most that for one, two or more of them."""
    contents = {link.tag: link for link, _ in context.network.contents(node.tag)}
    inner = _inner(node, limits)
    if not contents or inner is None:
        yield DoesNotApply("empty or no size")
        return
    if isinstance(inner, Unknown):
        yield CannotJudge(inner)
        return
    area_m2 = _area_m2(contents.values())
    if isinstance(area_m2, Unknown):
        yield CannotJudge(area_m2)
        return
    number = "one" if len(contents) == 1 else "two" if len(contents) == 2 else "more"
    most = limits.row(Percent, "most", number)
    share = area_m2 / (pi * inner.length_m**2 / 4)
    if most is None or at_most(share, most.share):
        return
    needed_m = sqrt(4 * area_m2 / (pi * most.share))
    larger = _larger(node, needed_m, limits)
    values = {
        "raceway": node.tag,
        "kind": node.raceway.kind,
        "cables": list(contents),
        "share": share,
        "most": most,
        "instead": Phrase("trade size", {"size": larger}) if larger is not None else Phrase("larger"),
        "needed": Derived(needed_m, inner),
    }
    key = "trade size" if node.raceway.inner_diameter is None else "inner diameter"
    yield NotMet("full", (*node.path, key), values, cites=(("most", number),), excess=share)


def _inner(node: RacewayNode, limits: Limits) -> Length | Unknown | None:
    """The inner diameter, stated or by kind and trade size; None where neither is stated."""
    stated, size = node.raceway.inner_diameter, node.raceway.trade_size
    if stated is not None:
        if stated.length_m > 0:
            return stated
        return Unknown("no width", (*node.path, "inner diameter"), {"raceway": node.tag})
    if size is None:
        return None
    known = limits.row(LengthPair, "inner diameter", node.raceway.kind, _trade_size(size))
    if known is None:
        return Unknown("size not known", (*node.path, "trade size"), {"raceway": node.tag, "size": size})
    return known.feet


def _trade_size(written: str) -> str:
    size = written.strip().removesuffix("in").removesuffix('"').strip().replace(" ", "-")
    return _METRIC_SIZES.get(size, size)


def _area_m2(links: Iterable[CableLink]) -> float | Unknown:
    """The area that cables fill [m²]."""
    area_m2 = 0.0
    for link in links:
        diameter_m = link.type.outer_diameter_m if isinstance(link.type, CableType) else None
        if diameter_m is None:
            return Unknown("no diameter", (*link.path, "type"), {"cable": link.tag})
        area_m2 += pi * diameter_m**2 / 4
    return area_m2


def _larger(node: RacewayNode, needed_m: float, limits: Limits) -> str | None:
    """The next trade size of the same kind that is wide enough."""
    if node.raceway.trade_size is None:
        return None
    for kind, size in limits.keys("inner diameter"):
        pair = limits.row(LengthPair, "inner diameter", kind, size)
        if kind == node.raceway.kind and pair is not None and at_most(needed_m, pair.feet.length_m):
            return size
    return None


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

CHECK = Check(
    name="route.raceway-fill",
    each=RACEWAY,
    judge=raceway_fill,
    cases={
        "full": {
            "raceway": TAG,
            "kind": WORD,
            "cables": TAGS,
            "share": SHARE,
            "most": QUANTITY,
            "instead": phrase(trade_size={"size": TEXT}, larger={}),
            "needed": LENGTH,
        }
    },
    cannot_judge={
        "no width": {"raceway": TAG},
        "size not known": {"raceway": TAG, "size": TEXT},
        "no diameter": {"cable": TAG},
    },
    does_not_apply={"empty or no size": {}},
    limits={
        "most": LimitKind(Percent, by=("cables",)),
        "inner diameter": LimitKind(LengthPair, by=("kind", "trade size")),
    },
)
