"""Where a cable meets sun, rain or a wet place, its jacket resists sun and water. Source: common practice."""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.catalogue import CableType, UnknownWords
from coaxwright.checks.contract import CannotJudge, Check, CheckContext, Correction, DoesNotApply, NotMet, Verdict
from coaxwright.checks.jacket._shared import SUITING, suiting_type
from coaxwright.checks.limits import Limits
from coaxwright.checks.selectors import CABLE
from coaxwright.checks.subject_filters import at
from coaxwright.design.quantities import total
from coaxwright.design.value_types import LENGTH, TAG, WORD, Phrase, list_of, phrase
from coaxwright.design.words import SUN_OR_RAIN
from coaxwright.network import CableLink, Segment, Unknown


def outdoor_rated(link: CableLink, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """Where a cable meets sun or standing water, its jacket resists them."""
    exposed = context.network.exposed_segments(link, SUN_OR_RAIN)
    if exposed == ():
        yield DoesNotApply("indoors")
        return
    if isinstance(link.type, UnknownWords):
        yield CannotJudge(Unknown("type not understood", (*link.path, "type"), {"cable": link.tag}))
        return
    if link.type.jacket.resists_sun_and_wet:
        return
    if isinstance(exposed, Unknown):
        yield CannotJudge(exposed)
        return
    yield _indoor_jacket(link, link.type, exposed)


def _indoor_jacket(link: CableLink, made: CableType, exposed: tuple[Segment, ...]) -> NotMet:
    values = {
        "cable": link.tag,
        "jacket": made.jacket.name,
        "stretches": [_stretch(segment) for segment in exposed],
        "exposed": total([segment.length for segment in exposed]),
    }
    at = (*link.path, "type")
    related = tuple((segment.path, "outdoors") for segment in exposed)
    suiting = suiting_type(made, burial=False)
    if suiting is None:
        return NotMet("not made", at, values, related=related)
    case = "jacket not said" if "jacket" in made.defaulted else "indoor jacket"
    return NotMet(case, at, values | {"suiting": suiting}, mend=Correction(at, suiting), related=related)


def _stretch(segment: Segment) -> Phrase:
    is_on_roof = segment.place is not None and segment.place.exposure == "rooftop"
    return Phrase("on" if is_on_roof else "at", {"length": segment.length, "place": segment.tag})


_WHERE = {"length": LENGTH, "place": TAG}
_VALUES = {
    "cable": TAG,
    "jacket": WORD,
    "stretches": list_of(phrase(at=_WHERE, on=_WHERE)),
    "exposed": LENGTH,
}

CHECK = Check(
    name="jacket.outdoor-rated",
    each=CABLE,
    judge=outdoor_rated,
    applies_to=at(SUN_OR_RAIN, or_unplaced=True),
    cases={"jacket not said": _VALUES | SUITING, "indoor jacket": _VALUES | SUITING, "not made": _VALUES},
    does_not_apply={"indoors": {}},
    related=("outdoors",),
)
