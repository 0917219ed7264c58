"""Does a bonding conductor run straight and guarded, and do the metals at its ends go together?"""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.checks.contract import Check, CheckContext, DoesNotApply, NeedsPerson, NotMet, Verdict
from coaxwright.checks.limits import Limits
from coaxwright.checks.phrasing import count
from coaxwright.checks.selectors import BONDING_CONDUCTOR
from coaxwright.design.quantities import shown
from coaxwright.network import BondNode
from coaxwright.physics.bonds import straight_wire_inductance_uh, surge_voltage_kv

_FAMILIES = {
    "copper": "copper",
    "copper-clad steel": "copper",
    "bronze": "copper",
    "aluminium": "aluminium",
    "copper-clad aluminium": "aluminium",
    "galvanised steel": "zinc",
}
"""Metals that behave alike where they touch; stainless steel, and plain steel wire, are left out."""
_EAT_EACH_OTHER = ({"copper", "aluminium"}, {"copper", "zinc"})
"""Pairs of which one is eaten away where they touch and get wet. Source: common practice, no source."""
_IN_THE_EARTH = ("ground rod", "ground plate", "ground ring")


def conductor_route(node: BondNode, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """A bond is run straight, without coils and sharp bends, guarded, and through no loose piece of metal pipe.

    Only what the design states is judged. Source: NFPA 70, 800.100(A)(5) and (6), the latter from memory.
    """
    item = node.item
    sleeves = [one for one in node.segments if one.raceway is not None and one.raceway.is_metal]
    stated = [one for one in sleeves if one.raceway is not None and one.raceway.raceway.bonded is not None]
    if item.coiled is None and item.bends is None and item.guarded is None and not stated:
        yield DoesNotApply("nothing is said of how it runs")
        return
    values = {"conductor": node.tag, "from": str(item.from_), "to": str(item.to), "effect": _effect(node)}
    served = context.network.bonded_over(node.tag)
    in_house = bool(served) and all(bondable.is_in_house for bondable in served)
    if item.coiled:
        yield NotMet("coiled", (*node.path, "coiled"), values, facet="coil", is_by_practice=in_house)
    if item.bends:
        bends = count(item.bends, "sharp bend")
        yield NeedsPerson("bends", (*node.path, "bends"), {**values, "bends": bends}, facet="bends")
    if item.guarded is False:
        yield NotMet("not guarded", (*node.path, "guarded"), values, facet="guard", is_by_practice=in_house)
    for segment in stated:
        raceway = segment.raceway
        if raceway is not None and raceway.raceway.bonded is False:
            more = {**values, "raceway": raceway.tag, "kind": raceway.raceway.kind}
            yield NotMet("sleeve", segment.path, more, at_key=True, facet=raceway.tag, is_by_practice=in_house)


def metals_compatible(node: BondNode, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """No joint of metals that eat each other without a clamp made for both, and no aluminium down to the earth."""
    conductor = node.item.conductor
    ends = [
        (end, context.network.bonds.get(str(tag))) for end, tag in (("from", node.item.from_), ("to", node.item.to))
    ]
    found = [(end, other) for end, other in ends if other is not None]
    if conductor is None or not found:
        yield DoesNotApply("no electrode is at its ends")
        return
    own = _FAMILIES.get(conductor.metal)
    is_judged = False
    for end, other in found:
        values = {
            "conductor": node.tag,
            "metal": conductor.metal,
            "electrode": other.tag,
            "kind": other.item.kind,
            "other": str(other.item.metal),
        }
        at = (*node.path, end)
        if own == "aluminium" and other.item.kind in _IN_THE_EARTH:
            is_judged = True
            yield NotMet("aluminium in the earth", at, values, facet=other.tag)
        elif other.item.metal is not None:
            is_judged = True
            if {own, _FAMILIES.get(other.item.metal)} not in _EAT_EACH_OTHER or node.item.suited_clamps:
                continue
            if node.item.suited_clamps is None:
                yield NeedsPerson("clamp not stated", at, values, facet=other.tag)
            else:
                yield NotMet("unsuited clamp", at, values, facet=other.tag)
    if not is_judged:
        yield DoesNotApply("the electrode's metal is not stated")


def _effect(node: BondNode) -> str:
    """What its inductance does, where its length is known."""
    conductor, length = node.item.conductor, node.length
    if conductor is None or length is None or length.length_m <= 0:
        return ""
    inductance_uh = straight_wire_inductance_uh(length.length_m, conductor.size.area_mm2)
    kilovolts = shown(surge_voltage_kv(inductance_uh), 1)
    micro = f"{shown(inductance_uh, 1)} µH"
    return f"; even straight, its {length.text} have {micro}, {kilovolts} kV for each kA/µs of a surge"


_ENDS = ("conductor", "from", "to", "effect")
_JOINT = ("conductor", "metal", "electrode", "kind", "other")

CHECKS = (
    Check(
        name="conductor-route",
        each=BONDING_CONDUCTOR,
        judge=conductor_route,
        cases={
            **dict.fromkeys(("coiled", "not guarded"), _ENDS),
            "bends": (*_ENDS, "bends"),
            "sleeve": (*_ENDS, "raceway", "kind"),
        },
        reads=(
            "bonding.*.kind",
            "bonding.*.coiled",
            "bonding.*.bends",
            "bonding.*.guarded",
            "bonding.*.route",
            "bonding.*.length",
            "bonding.*.conductor",
            "raceways.*.kind",
            "raceways.*.bonded",
        ),
    ),
    Check(
        name="metals-compatible",
        each=BONDING_CONDUCTOR,
        judge=metals_compatible,
        cases=dict.fromkeys(("aluminium in the earth", "unsuited clamp", "clamp not stated"), _JOINT),
        reads=(
            "bonding.*.kind",
            "bonding.*.from",
            "bonding.*.to",
            "bonding.*.conductor",
            "bonding.*.metal",
            "bonding.*.suited clamps",
        ),
    ),
)
