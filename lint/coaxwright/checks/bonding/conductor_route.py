"""A bond is run straight, without coils and sharp bends, guarded, and through no loose piece of metal pipe.

Only what the design states is judged. Source: NFPA 70, 800.100(A)(5) and (6), the latter from memory.
"""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.checks.contract import Check, CheckContext, DoesNotApply, NeedsPerson, NotMet, Verdict
from coaxwright.checks.limits import Limits
from coaxwright.checks.selectors import BONDING_CONDUCTOR
from coaxwright.design.value_types import COUNT, NUMBER, QUANTITY, TAG, WORD, Phrase, optional, phrase
from coaxwright.network import BondNode
from coaxwright.physics.bonds import straight_wire_inductance_uh, surge_voltage_kv


def conductor_route(node: BondNode, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """None of what is stated of its run is a coil, a sharp bend, a missing guard or a loose metal sleeve."""
    item = node.item
    sleeves = [(segment, segment.raceway) for segment in node.segments if segment.raceway is not None]
    stated = [(segment, sleeve) for segment, sleeve in sleeves if sleeve.is_metal and sleeve.raceway.bonded is not None]
    if item.coiled is None and item.bends is None and item.guarded is None and not stated:
        yield DoesNotApply("nothing said")
        return
    values = {"conductor": node.tag, "from": str(item.from_), "to": str(item.to), "effect": _effect(node)}
    served = context.network.bonded_over(node.tag)
    in_house = bool(served) and all(bondable.is_in_house for bondable in served)
    if item.coiled:
        yield NotMet("coiled", (*node.path, "coiled"), values, facet="coil", is_by_practice=in_house)
    if item.bends:
        yield NeedsPerson("bends", (*node.path, "bends"), {**values, "bends": item.bends}, facet="bends")
    if item.guarded is False:
        yield NotMet("not guarded", (*node.path, "guarded"), values, facet="guard", is_by_practice=in_house)
    for segment, sleeve in stated:
        if sleeve.raceway.bonded is False:
            more = {**values, "raceway": sleeve.tag, "kind": sleeve.raceway.kind}
            yield NotMet("sleeve", segment.path, more, at_key=True, facet=sleeve.tag, is_by_practice=in_house)


def _effect(node: BondNode) -> Phrase | None:
    """What its inductance does, where its length is known."""
    conductor, length = node.item.conductor, node.length
    if conductor is None or length is None or length.length_m <= 0:
        return None
    inductance_uh = straight_wire_inductance_uh(length.length_m, conductor.size.area_mm2)
    voltage_kv = surge_voltage_kv(inductance_uh)
    return Phrase("straight", {"length": length, "inductance_uh": inductance_uh, "voltage_kv": voltage_kv})


_STRAIGHT = {"length": QUANTITY, "inductance_uh": NUMBER, "voltage_kv": NUMBER}
_ENDS = {"conductor": TAG, "from": TAG, "to": TAG, "effect": optional(phrase(straight=_STRAIGHT))}

CHECK = Check(
    name="bonding.conductor-route",
    each=BONDING_CONDUCTOR,
    judge=conductor_route,
    cases={
        "coiled": _ENDS,
        "not guarded": _ENDS,
        "bends": {**_ENDS, "bends": COUNT},
        "sleeve": {**_ENDS, "raceway": TAG, "kind": WORD},
    },
    does_not_apply={"nothing said": {}},
)
