"""A bonding conductor is of a permitted metal and as large as the things bonded over it need.

Beyond a termination it carries what every bond brought there carries: it meets the least size for a termination, that
of each thing bonded there, and the size of the largest bond brought to it.
"""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.catalogue import CableType
from coaxwright.checks.bonding._shared import line_of
from coaxwright.checks.contract import Check, CheckContext, Correction, DoesNotApply, NeedsPerson, NotMet, Verdict
from coaxwright.checks.limits import LimitKind, Limits
from coaxwright.checks.selectors import BONDING_CONDUCTOR
from coaxwright.design.author import is_metric
from coaxwright.design.quantities import Conductor
from coaxwright.design.value_types import CONDUCTOR, TAG, Phrase, list_of, one_of, phrase
from coaxwright.design.wire_sizes import as_written, sizes_sold
from coaxwright.frozen_value import frozen_value
from coaxwright.network import Bondable, BondNode, Network
from coaxwright.physics.comparison import at_least, at_most
from coaxwright.physics.conductors import wire_resistance_ohm_per_m

_TERMINATION = "termination"
"""The table for conductors that lead on from a termination."""


@frozen_value
class _Need:
    """What one thing asks of a conductor."""

    case: str
    thing: str
    line: str
    """The table that binds: ``antenna``, ``shield`` or ``termination``."""
    smallest: Conductor
    """The size to be met, as published or as computed."""
    brought: Phrase | None = None
    """The bond that asks for it, where another bond does."""
    is_by_practice: bool = False


def conductor_size(node: BondNode, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """A size is set for its metal, and it is not smaller than any thing bonded over it asks."""
    conductor, network = node.item.conductor, context.network
    served, beyond = network.bonded_over(node.tag), network.bonded_beyond(node.tag)
    if not (served or beyond) or conductor is None:
        yield DoesNotApply("nothing bonded over it")
        return
    users = [(line_of(bondable), bondable.reference) for bondable in served]
    users += [(_TERMINATION, termination.tag) for termination in beyond]
    for line, thing in users:
        if limits.row(Conductor, "smallest", line, conductor.metal) is None:
            is_by_practice = not beyond and all(bondable.is_in_house for bondable in served)
            yield _other_metal(_said(thing, line, node, conductor), line, node, conductor, limits, is_by_practice)
            return
    needs = [need for bondable in served for need in _of_thing(bondable, conductor, network, limits)]
    needs += [need for end in beyond for need in _of_termination(end, conductor, network, limits)]
    unmet = [need for need in needs if not at_least(conductor.size.area_mm2, need.smallest.size.area_mm2)]
    if not unmet:
        return
    most = max(unmet, key=lambda need: need.smallest.size.area_mm2)  # of equals the first: what is published
    at = (*node.path, "conductor")
    values = {**_said(most.thing, most.line, node, conductor), "smallest": most.smallest, "size": most.smallest}
    if most.brought is not None:
        values["brought"] = most.brought
    mend = Correction(at, as_written(most.smallest, is_metric(conductor)).text)
    cites = () if most.brought is not None else (("smallest", most.line, conductor.metal),)
    is_by_practice = all(need.is_by_practice for need in unmet)
    yield NotMet(most.case, at, values, mend=mend, cites=cites, is_by_practice=is_by_practice)


def _said(thing: str, line: str, node: BondNode, conductor: Conductor) -> dict[str, object]:
    ends = {"from": str(node.item.from_), "to": str(node.item.to)}
    return {"conductor": conductor, "thing": thing, "use": line, **ends}


def _of_thing(bondable: Bondable, conductor: Conductor, network: Network, limits: Limits) -> Iterator[_Need]:
    line = line_of(bondable)
    smallest = limits.row(Conductor, "smallest", line, conductor.metal)
    if smallest is None:
        return
    is_by_practice = bondable.is_in_house
    yield _Need("thin", bondable.reference, line, smallest, is_by_practice=is_by_practice)
    as_good = _as_good_as_shields(bondable, smallest, is_metric(conductor), network, limits)
    if as_good is not None:
        yield _Need("thinner than the shield", bondable.reference, line, as_good, is_by_practice=is_by_practice)


def _of_termination(termination: BondNode, conductor: Conductor, network: Network, limits: Limits) -> Iterator[_Need]:
    smallest = limits.row(Conductor, "smallest", _TERMINATION, conductor.metal)
    if smallest is not None:
        yield _Need("thin", termination.tag, _TERMINATION, smallest)
    bonded = network.bonded_at(termination.tag)
    for bondable in bonded:
        path = network.bond_paths[bondable.reference]
        last = path.conductors[-1] if path is not None else None
        brought = last.item.conductor if last is not None else None
        if last is not None and brought is not None and brought.metal == conductor.metal:
            bond = Phrase("bond", {"tag": last.tag, "conductor": brought})
            yield _Need("thinner than a bond", termination.tag, _TERMINATION, brought, bond)
    for bondable in bonded:
        yield from _of_thing(bondable, conductor, network, limits)


def _other_metal(
    said: dict[str, object], line: str, node: BondNode, conductor: Conductor, limits: Limits, is_by_practice: bool
) -> NotMet | NeedsPerson:
    """No size is set for the metal: steel rusts and will not do; of others somebody has to say whether they do."""
    keyed = [limits.row(Conductor, "smallest", *keys) for keys in limits.keys("smallest") if keys[0] == line]
    known = [size for size in keyed if size is not None]
    values = {**said, "metals": known, "sizes": known}
    at = (*node.path, "conductor")
    if conductor.metal != "steel":
        return NeedsPerson("other metal", at, values)
    copper = limits.row(Conductor, "smallest", line, "copper")
    mend = Correction(at, as_written(copper, is_metric(conductor)).text) if copper is not None else None
    return NotMet("metal", at, values, mend=mend, is_by_practice=is_by_practice)


def _as_good_as_shields(
    bondable: Bondable, smallest: Conductor, metric: bool, network: Network, limits: Limits
) -> Conductor | None:
    """A wire that conducts as well as the shields it bonds, up to the ceiling; None where the least size does."""
    ceiling = limits.row(Conductor, "ceiling", line_of(bondable), smallest.metal)
    if bondable.is_mast or ceiling is None or smallest.metal != "copper":
        return None
    shields = [
        link.type.shield_resistance_ohm_per_m
        for link in network.cables_at(bondable.device.tag)
        if link.in_use and isinstance(link.type, CableType) and link.type.shield_resistance_ohm_per_m
    ]
    if not shields:
        return None
    for size in sizes_sold(metric):
        if at_least(size.area_mm2, ceiling.size.area_mm2):
            return ceiling  # never more than this is asked, though a size that is sold may be larger
        if at_most(wire_resistance_ohm_per_m(size.area_mm2), min(shields)):
            larger = size.area_mm2 > smallest.size.area_mm2
            return Conductor.parse(size.text + " " + smallest.metal) if larger else None
    return None


_ENDS = {
    "conductor": CONDUCTOR,
    "thing": TAG,
    "use": one_of("antenna", "shield", _TERMINATION),
    "from": TAG,
    "to": TAG,
}
_SIZED = {**_ENDS, "smallest": CONDUCTOR, "size": CONDUCTOR}
_METALS = {**_ENDS, "metals": list_of(CONDUCTOR), "sizes": list_of(CONDUCTOR)}

CHECK = Check(
    name="bonding.conductor-size",
    each=BONDING_CONDUCTOR,
    judge=conductor_size,
    cases={
        "thin": _SIZED,
        "thinner than the shield": _SIZED,
        "thinner than a bond": {**_SIZED, "brought": phrase(bond={"tag": TAG, "conductor": CONDUCTOR})},
        "metal": _METALS,
        "other metal": _METALS,
    },
    does_not_apply={"nothing bonded over it": {}},
    limits={
        "smallest": LimitKind(Conductor, by=("line", "metal")),
        "ceiling": LimitKind(Conductor, by=("line", "metal")),
    },
    former_values={"mm2": "", "needed_mm2": ""},
)
