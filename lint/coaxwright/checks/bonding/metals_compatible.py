"""No joint of metals that eat each other without a clamp made for both, and no aluminum down to the earth."""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.checks.contract import Check, CheckContext, DoesNotApply, NeedsPerson, NotMet, Verdict
from coaxwright.checks.limits import Limits
from coaxwright.checks.selectors import BONDING_CONDUCTOR
from coaxwright.design.value_types import TAG, WORD, optional
from coaxwright.network import BondNode

_FAMILIES = {
    "copper": "copper",
    "copper-clad steel": "copper",
    "bronze": "copper",
    "aluminum": "aluminum",
    "copper-clad aluminum": "aluminum",
    "galvanized steel": "zinc",
}
"""Metals that behave alike where they touch; stainless steel, and plain steel wire, are left out."""
_EAT_EACH_OTHER = ({"copper", "aluminum"}, {"copper", "zinc"})
"""Pairs of which one is eaten away where they touch and get wet. Source: common practice, no source."""
_IN_THE_EARTH = ("ground rod", "ground plate", "ground ring")


def metals_compatible(node: BondNode, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """At each end that is an electrode, its metal and the conductor's go together, or the clamp is made for both."""
    item, bonds = node.item, context.network.bonds
    ends = [(end, bonds.get(str(tag))) for end, tag in (("from", item.from_), ("to", item.to))]
    found = [(end, other) for end, other in ends if other is not None]
    if item.conductor is None or not found:
        yield DoesNotApply("no electrode")
        return
    verdicts = [verdict for end, other in found for verdict in _at(node, item.conductor.metal, end, other)]
    yield from (verdict for verdict in verdicts if not isinstance(verdict, DoesNotApply))
    if verdicts and all(isinstance(verdict, DoesNotApply) for verdict in verdicts) and len(verdicts) == len(found):
        yield verdicts[0]


def _at(node: BondNode, metal: str, end: str, other: BondNode) -> Iterator[Verdict]:
    values = {
        "conductor": node.tag,
        "metal": metal,
        "electrode": other.tag,
        "kind": other.item.kind,
        "other": other.item.metal,
    }
    own, at = _FAMILIES.get(metal), (*node.path, end)
    if own == "aluminum" and other.item.kind in _IN_THE_EARTH:
        yield NotMet("aluminum in the earth", at, values, facet=other.tag)
    elif other.item.metal is None:
        yield DoesNotApply("metal not said")
    elif {own, _FAMILIES.get(other.item.metal)} in _EAT_EACH_OTHER and not node.item.suited_clamps:
        if node.item.suited_clamps is None:
            yield NeedsPerson("clamp not stated", at, values, facet=other.tag)
        else:
            yield NotMet("unsuited clamp", at, values, facet=other.tag)


_JOINT = {"conductor": TAG, "metal": WORD, "electrode": TAG, "kind": WORD, "other": optional(WORD)}

CHECK = Check(
    name="bonding.metals-compatible",
    each=BONDING_CONDUCTOR,
    judge=metals_compatible,
    cases=dict.fromkeys(("aluminum in the earth", "unsuited clamp", "clamp not stated"), _JOINT),
    does_not_apply={"no electrode": {}, "metal not said": {}},
)
