"""The shield bond of a dwelling is short; that an electrode of its own is joined has a rule of its own.

The length counts to the first termination or electrode: the clause limits the conductor of the protector, and the
conductor that joins a termination to the service is a part of the service. Source: NFPA 70, 800.100(A)(4) and
250.94(A), found in part.
"""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.checks.bonding._shared import line_of
from coaxwright.checks.contract import CannotJudge, Check, CheckContext, DoesNotApply, NeedsPerson, NotMet, Verdict
from coaxwright.checks.limits import LimitKind, Limits
from coaxwright.checks.selectors import BONDABLE
from coaxwright.design.quantities import Conductor, LengthPair, is_at_most
from coaxwright.design.value_types import CONDUCTOR, LENGTH, TAG, TAGS, WORD, Derived, optional
from coaxwright.design.words import SMALL_DWELLINGS
from coaxwright.network import Bondable, Unknown


def conductor_length(bondable: Bondable, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """The conductors of a shield's bond, in a one- or two-family dwelling, are not longer than the limit."""
    path = context.network.bond_paths[bondable.reference]
    if line_of(bondable) == "antenna":
        yield DoesNotApply("antenna")
        return
    if path is None:
        yield DoesNotApply("not bonded")
        return
    place = bondable.device.place
    occupancy = context.network.occupancy(place.building if place is not None else None)
    is_limited = isinstance(occupancy, Unknown) or occupancy in SMALL_DWELLINGS
    if isinstance(path.length, Unknown):
        yield CannotJudge(path.length) if is_limited else DoesNotApply("other occupancy")
        return
    longest = limits.one(LengthPair, "longest").for_author(path.length.is_metric)
    if is_at_most(path.length, longest):
        if not is_limited:
            yield DoesNotApply("other occupancy")
        return
    values = {
        "thing": bondable.reference,
        "conductors": [node.tag for node in path.conductors],
        "electrode": path.electrode.tag,
        "length": path.length,
        "longest": longest,
    }
    at, cites = (*path.conductors[0].path, "length"), (("longest",),)
    if bondable.is_in_house:
        yield NeedsPerson("on the premises", at, values, cites=cites)
    elif isinstance(occupancy, Unknown):
        yield CannotJudge(occupancy)
    elif occupancy not in SMALL_DWELLINGS:
        yield NeedsPerson("other occupancy", at, values | {"occupancy": occupancy}, cites=cites)
    else:
        over_m = path.length.length_m - longest.length_m
        more = {"over": Derived(over_m, path.length), "size": limits.row(Conductor, "joining", "copper")}
        yield NotMet("long", at, values | more, cites=cites, excess=over_m)


_BOND = {"thing": TAG, "conductors": TAGS, "electrode": TAG, "length": LENGTH, "longest": LENGTH}

CHECK = Check(
    name="bonding.conductor-length",
    each=BONDABLE,
    judge=conductor_length,
    cases={
        "long": {**_BOND, "over": LENGTH, "size": optional(CONDUCTOR)},
        "other occupancy": {**_BOND, "occupancy": WORD},
        "on the premises": _BOND,
    },
    does_not_apply={"antenna": {}, "not bonded": {}, "other occupancy": {}},
    limits={"longest": LimitKind(LengthPair), "joining": LimitKind(Conductor, by=("metal",))},
)
