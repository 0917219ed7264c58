"""A raceway outdoors keeps off the sun and not the water: a cable in it has a jacket for wet places.

Source: common practice.
"""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.catalogue import CableType, UnknownWords
from coaxwright.checks.contract import CannotJudge, Check, CheckContext, Correction, DoesNotApply, NotMet, Verdict
from coaxwright.checks.jacket._shared import STRETCHES, SUITING, stretches_of, suiting_type
from coaxwright.checks.limits import Limits
from coaxwright.checks.selectors import CABLE
from coaxwright.checks.subject_filters import in_raceway
from coaxwright.design.value_types import TAG, WORD, Phrase, phrase
from coaxwright.design.words import SUN_OR_RAIN
from coaxwright.network import CableLink, Segment, Unknown


def uv_conduit(link: CableLink, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """A cable that is in raceway wherever it is outdoors has a jacket that resists water."""
    exposed = context.network.exposed_segments(link, SUN_OR_RAIN)
    if isinstance(exposed, Unknown) or not exposed or not all(segment.is_enclosed for segment in exposed):
        yield DoesNotApply("not in raceway")
        return
    if isinstance(link.type, UnknownWords):
        yield CannotJudge(Unknown("type not understood", (*link.path, "type"), {"cable": link.tag}))
        return
    if link.type.jacket.resists_sun_and_wet:
        return
    yield _counted_as_dry(link, link.type, exposed)


def _counted_as_dry(link: CableLink, made: CableType, exposed: tuple[Segment, ...]) -> NotMet:
    suiting = suiting_type(made, burial=False)
    values = {
        "cable": link.tag,
        "jacket": made.jacket.name,
        "stretches": stretches_of(exposed),
        "instead": Phrase("made", {"suiting": suiting}) if suiting else Phrase("not made"),
    }
    at = (*link.path, "type")
    related = tuple((segment.path, "outdoors") for segment in exposed)
    return NotMet("counted as dry", at, values, mend=Correction(at, suiting) if suiting else None, related=related)


CHECK = Check(
    name="jacket.uv-conduit",
    each=CABLE,
    judge=uv_conduit,
    applies_to=in_raceway,
    cases={
        "counted as dry": {
            "cable": TAG,
            "jacket": WORD,
            "stretches": STRETCHES,
            "instead": phrase(made=SUITING, not_made={}),
        }
    },
    does_not_apply={"not in raceway": {}},
    related=("outdoors",),
)
