"""Coax between buildings: bonded in each to that building's own electrodes, and those joined, or the shields parted."""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.checks.contract import CannotJudge, Check, CheckContext, DoesNotApply, NeedsPerson, NotMet, Verdict
from coaxwright.checks.limits import Limits
from coaxwright.checks.phrasing import listed
from coaxwright.checks.selectors import BUILDING_PAIR
from coaxwright.network import JoinedBuildings


def equipotential(pair: JoinedBuildings, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """The electrode systems of two buildings that a shield joins are joined themselves.

    A feeder between the two mostly joins them, and few drawings of coax show it: only where a building says with which
    it is tied, and leaves the other out, are they known to stand apart. Else somebody has to see.
    """
    network = context.network
    if network.are_joined(pair.one, pair.other):
        return
    for _, path in pair.bonds:
        missing = network.bonding.open_end(path.electrode)
        if missing is not None:
            yield CannotJudge(missing)
            return
    (one, one_way), (other, other_way) = pair.bonds
    if one_way.electrode is other_way.electrode:
        yield DoesNotApply("both ends are brought to one electrode, which is judged at the building it is not of")
        return
    values = {
        "one": pair.one,
        "other": pair.other,
        "cables": listed(pair.cables) if pair.cables else "their coax",
        "protectors": listed([one.reference, other.reference]),
        "electrodes": listed([one_way.electrode.tag, other_way.electrode.tag]),
    }
    at = ("buildings", pair.one)
    if any(network.buildings[tag].tied_to for tag in (pair.one, pair.other) if tag in network.buildings):
        yield NotMet("not joined", at, values, at_key=True)
    else:
        yield NeedsPerson("not shown", at, values, at_key=True)


CHECKS = (
    Check(
        name="equipotential",
        each=BUILDING_PAIR,
        judge=equipotential,
        cases=dict.fromkeys(("not joined", "not shown"), ("one", "other", "cables", "protectors", "electrodes")),
        reads=(
            "buildings.*.tied to",
            "places.*.building",
            "cables.*.from",
            "cables.*.to",
            "devices.*.kind",
            "bonding.*.from",
            "bonding.*.to",
            "bonding.*.electrode",
        ),
    ),
)
