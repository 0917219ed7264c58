"""Is a rod long enough, a pipe joined near to its entry, and has a new service a termination for bonds?"""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.checks.adjacent_hazards import is_near, missing_text
from coaxwright.checks.bond_sizes import line_of
from coaxwright.checks.contract import CannotJudge, Check, CheckContext, DoesNotApply, NeedsPerson, NotMet, Verdict
from coaxwright.checks.electrodes import relying_on
from coaxwright.checks.limits import LimitKind, Limits
from coaxwright.checks.phrasing import in_system, length_text, listed
from coaxwright.checks.selectors import ELECTRODE
from coaxwright.design.quantities import LengthPair, in_system_of
from coaxwright.network import BondNode, Network, Unknown
from coaxwright.physics.comparison import at_most


def electrode_rod(node: BondNode, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """A driven rod that serves coax is of the required length, and a water pipe is joined near to where it enters.

    Source: NFPA 70, 250.52(A)(5), and 820.100(A)(4), exception, found; 800.100(B)(2) and (3), found in part.
    """
    judge = {"ground rod": _rod, "water pipe": _pipe}.get(node.item.kind)
    if judge is None:
        yield DoesNotApply("it is neither a driven rod nor a water pipe")
        return
    things = relying_on(context.network, node.tag)
    if not things:
        yield DoesNotApply("nothing is bonded to it")
        return
    values = {
        "electrode": node.tag,
        "place": node.place.tag if node.place is not None else "a place not stated",
        "things": listed(things),
        "rely": "relies" if len(things) == 1 else "rely",
    }
    yield from judge(node, values, context.network, limits)


def _rod(node: BondNode, values: dict[str, str], network: Network, limits: Limits) -> Iterator[Verdict]:
    """Below the length for telephone rods no rod will do; between the two the edition's wording decides."""
    least, shortest = limits.length("rod"), limits.length("rod at the least")
    assert least is not None
    assert shortest is not None
    length = node.item.length
    if length is None:
        if node.item.state == "existing":
            yield DoesNotApply("it is in the earth already, and its length is not known")
        else:
            yield CannotJudge(Unknown(f"{node.tag} states no length", (*node.path, "length")))
        return
    if not is_near(length, least):
        return
    limit = least.for_author(length.is_metric)
    results = {
        "length": length_text(length, limit),
        "least": limit.text,
        "missing": missing_text(length, limit),
    }
    at = (*node.path, "length")
    if is_near(length, shortest) or _serves_an_antenna(node.tag, network):
        yield NotMet("short rod", at, values | results, cites=(("rod",),), excess=limit.length_m - length.length_m)
    else:
        yield NeedsPerson("telephone rod", at, values | results, cites=(("rod at the least",),))


def _pipe(node: BondNode, values: dict[str, str], network: Network, limits: Limits) -> Iterator[Verdict]:
    most = limits.length("pipe")
    assert most is not None
    distance = node.item.from_entry
    if distance is None:
        cause = f"{node.tag} does not say how far from its entry it is joined"
        yield CannotJudge(Unknown(cause, (*node.path, "from entry")))
        return
    limit = most.for_author(distance.is_metric)
    if at_most(in_system(distance, limit.is_metric), in_system(limit, limit.is_metric)):
        return
    over_m = distance.length_m - limit.length_m
    results = {
        "distance": length_text(distance, limit),
        "most": limit.text,
        "over": in_system_of(distance, over_m).text,
    }
    at = (*node.path, "from entry")
    if network.occupancy(node.place.building if node.place is not None else None) == "commercial":
        yield NeedsPerson("exposed pipe", at, values | results, cites=(("pipe",),))
    else:
        yield NotMet("far pipe", at, values | results, cites=(("pipe",),), excess=over_m)


def _serves_an_antenna(tag: str, network: Network) -> bool:
    """Whether an antenna's mast or lead-in relies on an electrode, by a termination too."""
    reached = {tag, *(thing for thing in relying_on(network, tag) if thing in network.bonds)}
    return any(line_of(bondable) == "antenna" for electrode in reached for bondable in network.bonded_at(electrode))


def termination_present(node: BondNode, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """New service equipment has an intersystem termination; what is there already may stay as it is.

    Where the design gives the day it is installed, it says that it is new; else somebody has to see.
    Source: NFPA 70, 250.94(A), found in part.
    """
    if node.item.kind != "service equipment" or node.item.state != "new":
        yield DoesNotApply("it is no new service equipment")
        return
    if node.place is None:
        yield DoesNotApply("its place is not known, which is told for itself")
        return
    building = node.place.building
    if context.network.survey.terminations(building):
        return
    values = {"service": node.tag, "place": node.place.tag, "building": building or "the building"}
    if node.item.installed is not None:
        yield NotMet("none", node.path, values | {"day": str(node.item.installed)}, at_key=True)
    else:
        yield NeedsPerson("not shown", node.path, values, at_key=True)


_THINGS = ("electrode", "place", "things", "rely")
_ROD = (*_THINGS, "length", "least", "missing")
_FAR = (*_THINGS, "distance", "most", "over")
_FIELDS = ("bonding.*.kind", "bonding.*.place", "bonding.*.state", "places.*.building")

CHECKS = (
    Check(
        name="electrode-rod",
        each=ELECTRODE,
        judge=electrode_rod,
        cases={
            **dict.fromkeys(("short rod", "telephone rod"), _ROD),
            **dict.fromkeys(("far pipe", "exposed pipe"), _FAR),
        },
        reads=(
            *_FIELDS,
            "bonding.*.from",
            "bonding.*.to",
            "bonding.*.electrode",
            "bonding.*.length",
            "bonding.*.from entry",
            "basis.occupancy",
            "buildings.*.occupancy",
        ),
        limits={
            "rod": LimitKind(LengthPair),
            "rod at the least": LimitKind(LengthPair),
            "pipe": LimitKind(LengthPair),
        },
    ),
    Check(
        name="termination-present",
        each=ELECTRODE,
        judge=termination_present,
        cases={"none": ("service", "place", "building", "day"), "not shown": ("service", "place", "building")},
        reads=(*_FIELDS, "bonding.*.installed"),
    ),
)
