"""Where a cable lies in the ground, or in a raceway in a wet place, its jacket and core keep water out.

Source: common practice.
"""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.catalogue import CableType, UnknownWords
from coaxwright.checks.contract import CannotJudge, Check, CheckContext, Correction, DoesNotApply, NotMet, Verdict
from coaxwright.checks.jacket._shared import (
    STRETCHES,
    SUITING,
    WHERE_WATER_STANDS,
    in_standing_water,
    is_in_earth,
    stretches_of,
    suiting_type,
)
from coaxwright.checks.limits import Limits
from coaxwright.checks.selectors import CABLE
from coaxwright.checks.subject_filters import at
from coaxwright.design.value_types import TAG, WORD, one_of
from coaxwright.network import CableLink, Segment, Unknown


def burial_rated(link: CableLink, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """Where a cable lies in the ground, or in a raceway that water stands in, its jacket and core keep water out."""
    buried = in_standing_water(link, context.network)
    if buried == ():
        yield DoesNotApply("dry")
        return
    if isinstance(link.type, UnknownWords):
        yield CannotJudge(Unknown("type not understood", (*link.path, "type"), {"cable": link.tag}))
        return
    if link.type.jacket.burial_rated:
        return
    if isinstance(buried, Unknown):
        yield CannotJudge(buried)
        return
    yield _other_jacket(link, link.type, buried)


def _other_jacket(link: CableLink, made: CableType, buried: tuple[Segment, ...]) -> NotMet:
    values = {
        "cable": link.tag,
        "lies": _lies(buried),
        "jacket": made.jacket.name,
        "stretches": stretches_of(buried),
    }
    at = (*link.path, "type")
    related = tuple((segment.path, "water") for segment in buried)
    suiting = suiting_type(made, burial=True)
    if suiting is None:
        return NotMet("not made", at, values, related=related)
    return NotMet("other jacket", at, values | {"suiting": suiting}, mend=Correction(at, suiting), related=related)


def _lies(buried: tuple[Segment, ...]) -> str:
    in_earth = [is_in_earth(segment) for segment in buried]
    return "buried" if all(in_earth) else "both" if any(in_earth) else "wet"


_VALUES = {"cable": TAG, "lies": one_of("buried", "wet", "both"), "jacket": WORD, "stretches": STRETCHES}

CHECK = Check(
    name="jacket.burial-rated",
    each=CABLE,
    judge=burial_rated,
    applies_to=at(WHERE_WATER_STANDS, or_unplaced=True),
    cases={"other jacket": _VALUES | SUITING, "not made": _VALUES},
    does_not_apply={"dry": {}},
    related=("water",),
)
