"""A cable indoors is listed; one that is not comes from outdoors and ends soon in a protector.

Unlisted: the length from the point of entrance to the protector is at most the permitted one. Of limited use: thin and
in a dwelling, or in raceway, or exposed over a short length only. Source: NFPA 70, 800.48, found, and 800.113, found in
part.
"""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.catalogue import CableType
from coaxwright.checks.contract import CannotJudge, Check, CheckContext, DoesNotApply, NeedsPerson, NotMet, Verdict
from coaxwright.checks.jacket._shared import SUITING, path_of_mark
from coaxwright.checks.limits import LimitKind, Limits
from coaxwright.checks.selectors import CABLE
from coaxwright.design.quantities import LengthPair, is_at_most, total
from coaxwright.design.value_types import LENGTH, TAG, WORD, Derived, Phrase, phrase
from coaxwright.design.words import SMALL_DWELLINGS
from coaxwright.network import CableLink, DeviceNode, Network, Segment, Unknown
from coaxwright.network.indoor_runs import IndoorRun, indoor_runs, longest_in_each
from coaxwright.network.listing_marks import (
    FOR_ROOMS,
    LIMITED,
    MARK_SHOWN,
    NO_MARK,
    CableMark,
    listed_type,
    mark_of,
)


def listed_indoors(link: CableLink, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """The mark is one for rooms; without one, each run inside keeps to what is permitted of unlisted cable."""
    runs = indoor_runs(link)
    if isinstance(runs, Unknown):
        yield CannotJudge(runs)
        return
    if not runs:
        yield DoesNotApply("outdoors")
        return
    mark = mark_of(link)
    if isinstance(mark, Unknown):
        yield CannotJudge(mark)
        return
    if mark.mark in FOR_ROOMS:
        return
    if mark.mark not in LIMITED and mark.mark != NO_MARK:
        if any(node.service.kind != _VIDEO for node in context.network.services_on(link.tag)):
            yield NeedsPerson("other circuits", (*link.path, "listing"), {"cable": link.tag, "mark": mark.mark})
        return
    of_run = _of_limited if mark.mark in LIMITED else _of_unlisted
    for run in longest_in_each(runs):
        verdict = of_run(link, mark, run, context.network, limits)
        if verdict is not None:
            yield verdict
        if isinstance(verdict, (DoesNotApply, CannotJudge)):
            return


def _of_unlisted(
    link: CableLink, mark: CableMark, run: IndoorRun, network: Network, limits: Limits
) -> NotMet | DoesNotApply | CannotJudge | None:
    """An unlisted cable comes from outdoors, and ends in a protector within the permitted length of its entrance."""
    counted, bond_not_said = _from_entrance(run)
    inside = total([segment.length for segment in counted])
    limit = limits.one(LengthPair, "longest").for_author(inside.is_metric)
    is_short = is_at_most(inside, limit)
    device = run.end.device if run.end is not None else None
    protector = device if device is not None and device.protects else None
    if not counted or (run.comes_in and protector is not None and is_short):
        return None
    if link.cable.listing is None and isinstance(link.type, CableType) and not link.type.jacket.burial_rated:
        # some outdoor cable is listed, some is not
        if run.comes_in and is_short:
            return DoesNotApply("short")
        return CannotJudge(Unknown("no mark", (*link.path, "listing"), {"cable": link.tag}))
    if run.comes_in and bond_not_said is not None:
        return CannotJudge(bond_not_said)
    if run.end is not None and device is None:
        return CannotJudge(Unknown("no such device", run.end.path, {"written": run.end.written}))
    values = {"cable": link.tag, "mark": mark.shown, "length": inside, "instead": _instead(link, "listed cable")}
    at, facet = path_of_mark(link), run.building
    if not run.comes_in:
        return NotMet("starts inside", at, values, facet=facet)
    values["longest"] = limit
    if protector is None:
        return NotMet("no protector", at, values | {"end": _end(device)}, facet=facet, involved=(link.path,))
    over_m = inside.length_m - limit.length_m
    more = {"over": Derived(over_m, inside), "protector": protector.tag}
    return NotMet("too long", at, values | more, facet=facet, cites=(("longest",),), excess=over_m)


def _end(device: DeviceNode | None) -> Phrase:
    if device is None:
        return Phrase("leaves")
    return Phrase("at", {"device": device.tag, "kind": device.device.kind})


def _of_limited(
    link: CableLink, mark: CableMark, run: IndoorRun, network: Network, limits: Limits
) -> NotMet | CannotJudge | None:
    """A cable of limited use is thin and in a dwelling, or in raceway, or exposed over a short length only."""
    short, thin = limits.one(LengthPair, "short"), limits.one(LengthPair, "thin")
    diameter_m = link.type.outer_diameter_m if isinstance(link.type, CableType) else None
    is_thick = diameter_m is not None and not diameter_m < thin.feet.length_m
    exposed = total([segment.length for segment in run.segments if segment.raceway is None])
    limit = short.for_author(exposed.is_metric)
    if is_at_most(exposed, limit):
        return None
    occupancy = network.occupancy(run.building)
    if isinstance(occupancy, Unknown) and not is_thick:
        return CannotJudge(occupancy)
    if occupancy in _DWELLINGS and not is_thick:
        return None
    values = {
        "cable": link.tag,
        "mark": mark.shown,
        "length": exposed,
        "use": Phrase("thick", {"thin": thin}) if is_thick else Phrase("used", {"occupancy": occupancy}),
        "short": limit,
        "thin": thin,
        "instead": _instead(link, "marked cable"),
    }
    return NotMet("limited", (*link.path, "listing"), values, facet=run.building, cites=(("short",),))


def _instead(link: CableLink, otherwise: str) -> Phrase:
    suiting = listed_type(link, "riser")
    return Phrase("made", {"suiting": suiting}) if suiting else Phrase(otherwise)


def _from_entrance(run: IndoorRun) -> tuple[tuple[Segment, ...], Unknown | None]:
    """What counts from the point of entrance, and what is not said that would move it inwards.

    Bonded rigid or intermediate metal conduit that begins at the wall carries the point of entrance to its inner end.
    """
    counted = list(run.segments)
    for segment in run.segments if run.comes_in else ():
        node = segment.raceway
        if node is None or node.raceway.kind not in _RIGID or node.raceway.bonded is False:
            break
        if node.places and segment.tag not in node.places:
            break  # it is not drawn as coming through here
        if node.raceway.bonded is None:
            return tuple(counted), Unknown("bond not said", (*node.path, "bonded"), {"raceway": node.tag})
        del counted[0]
    return tuple(counted), None


_RIGID = frozenset(("rigid metal conduit", "intermediate metal conduit"))
"""What moves the point of entrance inwards; electrical metallic tubing does not. Source: NFPA 70, article 100."""
_DWELLINGS = SMALL_DWELLINGS | {"multifamily dwelling"}
_VIDEO = "camera video"

_UNLISTED = {"cable": TAG, "mark": MARK_SHOWN, "length": LENGTH, "instead": phrase(made=SUITING, listed_cable={})}

CHECK = Check(
    name="jacket.listed-indoors",
    each=CABLE,
    judge=listed_indoors,
    cases={
        "too long": _UNLISTED | {"longest": LENGTH, "over": LENGTH, "protector": TAG},
        "no protector": _UNLISTED | {"longest": LENGTH, "end": phrase(at={"device": TAG, "kind": WORD}, leaves={})},
        "starts inside": _UNLISTED,
        "limited": {
            "cable": TAG,
            "mark": MARK_SHOWN,
            "length": LENGTH,
            "use": phrase(thick={"thin": LENGTH}, used={"occupancy": WORD}),
            "short": LENGTH,
            "thin": LENGTH,
            "instead": phrase(made=SUITING, marked_cable={}),
        },
        "other circuits": {"cable": TAG, "mark": WORD},
    },
    cannot_judge={"no mark": {"cable": TAG}, "bond not said": {"raceway": TAG}},
    does_not_apply={"outdoors": {}, "short": {}},
    former_limits=("floors",),
    limits={
        "longest": LimitKind(LengthPair),
        "short": LimitKind(LengthPair),
        "thin": LimitKind(LengthPair),
    },
)
