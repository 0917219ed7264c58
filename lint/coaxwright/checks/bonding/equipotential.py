"""The electrode systems of two buildings that a shield joins are joined themselves.

A feeder between the two mostly joins them, and few drawings of coax show it: only where a building says with which it
is tied, and leaves the other out, are they known to stand apart. Else somebody has to see.
"""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.checks.contract import CannotJudge, Check, CheckContext, DoesNotApply, NeedsPerson, NotMet, Verdict
from coaxwright.checks.limits import Limits
from coaxwright.checks.selectors import BUILDING_PAIR
from coaxwright.design.value_types import TAG, TAGS, Phrase, phrase
from coaxwright.network import JoinedBuildings


def equipotential(pair: JoinedBuildings, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """Their buildings are tied, or their bonds meet."""
    network = context.network
    if network.are_joined(pair.one, pair.other):
        return
    for _, path in pair.bonds:
        missing = network.bonding.open_end(path.electrode)
        if missing is not None:
            yield CannotJudge(missing)
            return
    (near, near_path), (far, far_path) = pair.bonds
    if near_path.electrode is far_path.electrode:
        yield DoesNotApply("one electrode")
        return
    values = {
        "one": pair.one,
        "other": pair.other,
        "cables": Phrase("cables", {"tags": list(pair.cables)}) if pair.cables else Phrase("none"),
        "protectors": [near.reference, far.reference],
        "electrodes": [near_path.electrode.tag, far_path.electrode.tag],
    }
    at = ("buildings", pair.one)
    if any(network.buildings[tag].tied_to for tag in (pair.one, pair.other) if tag in network.buildings):
        yield NotMet("not joined", at, values, at_key=True)
    else:
        yield NeedsPerson("not shown", at, values, at_key=True)


_JOINED = {
    "one": TAG,
    "other": TAG,
    "cables": phrase(cables={"tags": TAGS}, none={}),
    "protectors": TAGS,
    "electrodes": TAGS,
}

CHECK = Check(
    name="bonding.equipotential",
    each=BUILDING_PAIR,
    judge=equipotential,
    cases={"not joined": _JOINED, "not shown": _JOINED},
    does_not_apply={"one electrode": {}},
)
