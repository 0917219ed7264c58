"""Where a space carries the building's air, a cable outside metal raceway is listed for it.

The space above a lay-in ceiling is such a space only if it carries return air: the design has to say so. A raceway that
may burn is listed for it as well. Source: NFPA 70, table 800.154(a) and 300.22, found in part.
"""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.checks.contract import CannotJudge, Check, CheckContext, DoesNotApply, NotMet, Verdict
from coaxwright.checks.jacket._shared import MARKED, SUITING, unsuited
from coaxwright.checks.limits import Limits
from coaxwright.checks.selectors import CABLE
from coaxwright.checks.subject_filters import all_if
from coaxwright.design.value_types import TAG, WORD
from coaxwright.network import CableLink, Network, Segment, Unknown
from coaxwright.network.listing_marks import FOR_AIR, carries_air, mark_of, misnamed, segments_in_air


def plenum(link: CableLink, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """The mark of the cable is one for air, and so is that of its raceway."""
    doubtful = [segment for segment in link.segments if carries_air(segment) is None and not segment.is_in_metal]
    moved = segments_in_air(link)
    if not doubtful and not moved:
        yield DoesNotApply("no air")
        return
    mark = mark_of(link)
    if isinstance(mark, Unknown):
        yield CannotJudge(mark)
    elif mark.mark in FOR_AIR:
        yield from _raceways(link, moved)
    elif moved:
        yield unsuited(link, mark, "plenum", moved, {})
    else:
        for segment in {segment.tag: segment for segment in doubtful}.values():
            yield CannotJudge(_air_not_said(segment), facet=segment.tag)


def _raceways(link: CableLink, moved: list[Segment]) -> Iterator[NotMet]:
    """The raceways of stretches in moved air that are listed, and not for it; of each the last stretch."""
    found = {segment.raceway.tag: (segment, segment.raceway) for segment in moved if segment.raceway is not None}
    for segment, node in found.values():
        stated = node.raceway.listing
        if node.raceway.kind in _MAY_BURN and stated not in (None, "plenum"):
            values = {
                "cable": link.tag,
                "raceway": node.tag,
                "kind": node.raceway.kind,
                "listing": stated,
                "place": segment.tag,
            }
            yield NotMet("raceway", segment.path, values, facet=node.tag)


_MAY_BURN = frozenset(("rigid PVC conduit", "electrical nonmetallic tubing", "inner duct", "surface raceway"))
"""Raceways that are listed by their own mark and may burn."""


def _air_not_said(segment: Segment) -> Unknown:
    if segment.place is None:
        return misnamed(segment)
    return Unknown("air not said", ("places", segment.tag, "return air"), {"place": segment.tag})


def _may_carry_air(network: Network) -> bool:
    """Whether any space is drawn that carries the building's air, or may, or that is not known."""
    drawn = any(node.place.return_air or node.exposure == "plenum" for node in network.places.values())
    return drawn or bool(network.stretches.unplaced)


CHECK = Check(
    name="jacket.plenum",
    each=CABLE,
    judge=plenum,
    applies_to=all_if(_may_carry_air),
    cases={
        "other mark": MARKED | SUITING,
        "not made": MARKED,
        "raceway": {"cable": TAG, "raceway": TAG, "kind": WORD, "listing": WORD, "place": TAG},
    },
    cannot_judge={"air not said": {"place": TAG}},
    does_not_apply={"no air": {}},
    related=("runs here",),
)
