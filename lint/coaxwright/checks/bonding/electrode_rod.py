"""A driven rod that serves coax is of the required length, and a water pipe is joined near to where it enters.

Source: NFPA 70, 250.52(A)(5), and 820.100(A)(4), exception, found; 800.100(B)(2) and (3), found in part.
"""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.checks.bonding._shared import PLACE, line_of, place_of, relying_on
from coaxwright.checks.contract import CannotJudge, Check, CheckContext, DoesNotApply, NeedsPerson, NotMet, Verdict
from coaxwright.checks.limits import LimitKind, Limits
from coaxwright.checks.selectors import ELECTRODE
from coaxwright.design.quantities import LengthPair, is_at_least, is_at_most
from coaxwright.design.value_types import LENGTH, TAG, TAGS, Derived
from coaxwright.network import BondNode, Network, Unknown


def electrode_rod(node: BondNode, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """A rod by its length, a pipe by how far from its entry it is joined."""
    judge = {"ground rod": _rod, "water pipe": _pipe}.get(node.item.kind)
    if judge is None:
        yield DoesNotApply("neither rod nor pipe")
        return
    things = relying_on(context.network, node.tag)
    if not things:
        yield DoesNotApply("nothing bonded to it")
        return
    values = {"electrode": node.tag, "place": place_of(node.place), "things": things}
    yield from judge(node, values, context.network, limits)


def _rod(node: BondNode, values: dict[str, object], network: Network, limits: Limits) -> Iterator[Verdict]:
    """Below the length for telephone rods no rod will do; between the two the edition's wording decides."""
    length = node.item.length
    if length is None:
        if node.item.state == "existing":
            yield DoesNotApply("existing rod")
        else:
            yield CannotJudge(Unknown("no length", (*node.path, "length"), {"electrode": node.tag}))
        return
    least = limits.one(LengthPair, "rod").for_author(length.is_metric)
    shortest = limits.one(LengthPair, "rod at the least").for_author(length.is_metric)
    if is_at_least(length, least):
        return
    missing_m = least.length_m - length.length_m
    values |= {"length": length, "least": least, "missing": Derived(missing_m, length)}
    at = (*node.path, "length")
    if not is_at_least(length, shortest) or _serves_an_antenna(node.tag, network):
        yield NotMet("short rod", at, values, cites=(("rod",),), excess=missing_m)
    else:
        yield NeedsPerson("telephone rod", at, values, cites=(("rod at the least",),))


def _pipe(node: BondNode, values: dict[str, object], network: Network, limits: Limits) -> Iterator[Verdict]:
    distance, at = node.item.from_entry, (*node.path, "from entry")
    if distance is None:
        yield CannotJudge(Unknown("no distance", at, {"electrode": node.tag}))
        return
    most = limits.one(LengthPair, "pipe").for_author(distance.is_metric)
    if is_at_most(distance, most):
        return
    over_m = distance.length_m - most.length_m
    values |= {"distance": distance, "most": most, "over": Derived(over_m, distance)}
    if network.occupancy(node.place.building if node.place is not None else None) == "commercial":
        yield NeedsPerson("exposed pipe", at, values, cites=(("pipe",),))
    else:
        yield NotMet("far pipe", at, values, cites=(("pipe",),), excess=over_m)


def _serves_an_antenna(tag: str, network: Network) -> bool:
    """Whether an antenna's mast or lead-in relies on an electrode, by a termination too."""
    reached = {tag, *(thing for thing in relying_on(network, tag) if thing in network.bonds)}
    return any(line_of(bondable) == "antenna" for electrode in reached for bondable in network.bonded_at(electrode))


_THINGS = {"electrode": TAG, "place": PLACE, "things": TAGS}
_ROD = {**_THINGS, "length": LENGTH, "least": LENGTH, "missing": LENGTH}
_FAR = {**_THINGS, "distance": LENGTH, "most": LENGTH, "over": LENGTH}

CHECK = Check(
    name="bonding.electrode-rod",
    each=ELECTRODE,
    judge=electrode_rod,
    cases={"short rod": _ROD, "telephone rod": _ROD, "far pipe": _FAR, "exposed pipe": _FAR},
    cannot_judge={"no length": {"electrode": TAG}, "no distance": {"electrode": TAG}},
    does_not_apply={"neither rod nor pipe": {}, "nothing bonded to it": {}, "existing rod": {}},
    limits={
        "rod": LimitKind(LengthPair),
        "rod at the least": LimitKind(LengthPair),
        "pipe": LimitKind(LengthPair),
    },
    former_values={"rely": "{things:relies|rely}"},
)
