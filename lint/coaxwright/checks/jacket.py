"""Does the jacket suit the places the cable runs through?"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import permutations

from coaxwright.catalogue import CableType, UnknownWords
from coaxwright.checks.contract import CannotJudge, Check, CheckContext, Correction, DoesNotApply, NotMet, Verdict
from coaxwright.checks.limits import Limits
from coaxwright.checks.phrasing import listed
from coaxwright.checks.selectors import CABLE
from coaxwright.checks.subject_filters import at, in_raceway
from coaxwright.design.quantities import total
from coaxwright.design.words import BELOW_GROUND, SUN_OR_RAIN, Exposure
from coaxwright.network import CableLink, Segment, Unknown


def outdoor_rated(link: CableLink, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """Where a cable meets sun or standing water, its jacket resists them."""
    exposed = context.network.exposed_segments(link, SUN_OR_RAIN)
    if exposed == ():
        yield DoesNotApply("no part of it runs outdoors or in a wet place")
        return
    if isinstance(link.type, UnknownWords):
        yield CannotJudge(Unknown(f"the type of {link.tag} is not understood", (*link.path, "type")))
        return
    if link.type.jacket.resists_sun_and_wet:
        return
    if isinstance(exposed, Unknown):
        yield CannotJudge(exposed)
        return
    if _in_the_ground(link, context):
        yield DoesNotApply("it is buried as well, and judged by that")
        return
    if all(_is_in_conduit(segment) for segment in exposed):
        yield DoesNotApply("it lies in raceway wherever it is outdoors, and is judged by that")
        return
    stretches = [f"{segment.length.text} {_preposition(segment)} the {segment.tag}" for segment in exposed]
    values = {
        "cable": link.tag,
        "jacket": link.type.jacket.name,
        "stretches": listed(stretches),
        "exposed": total([segment.length for segment in exposed]).text,
    }
    at = (*link.path, "type")
    related = tuple((segment.path, "runs outdoors here") for segment in exposed)
    suiting = _suiting(link.type, burial=False)
    if suiting is None:
        yield NotMet("not made", at, values, related=related)
        return
    values["suiting"] = suiting
    case = "jacket not said" if "jacket" in link.type.defaulted else "indoor jacket"
    yield NotMet(case, at, values, mend=Correction(at, suiting), related=related)


def burial_rated(link: CableLink, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """Where a cable lies in the ground, or in a raceway that water stands in, its jacket and core keep water out."""
    buried = _in_the_ground(link, context)
    if buried == ():
        yield DoesNotApply("no part of it is buried or in a wet raceway")
        return
    if isinstance(link.type, UnknownWords):
        yield CannotJudge(Unknown(f"the type of {link.tag} is not understood", (*link.path, "type")))
        return
    if link.type.jacket.burial_rated:
        return
    if isinstance(buried, Unknown):
        if link.type.jacket.resists_sun_and_wet:
            yield CannotJudge(buried)
        else:
            yield DoesNotApply("its way is asked for already, to know whether it runs outdoors")
        return
    in_earth = [segment for segment in buried if _is_in_earth(segment)]
    values = {
        "cable": link.tag,
        "lies": "is buried"
        if len(in_earth) == len(buried)
        else f"{'is buried or ' if in_earth else ''}lies in the wet",
        "jacket": link.type.jacket.name,
        "stretches": listed([_stretch(segment) for segment in buried]),
    }
    at = (*link.path, "type")
    related = tuple((segment.path, "meets standing water here") for segment in buried)
    suiting = _suiting(link.type, burial=True)
    if suiting is None:
        yield NotMet("not made", at, values, related=related)
        return
    yield NotMet("other jacket", at, values | {"suiting": suiting}, mend=Correction(at, suiting), related=related)


def uv_conduit(link: CableLink, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """A raceway outdoors keeps off the sun and not the water: a cable in it has a jacket for wet places."""
    exposed = context.network.exposed_segments(link, SUN_OR_RAIN)
    if isinstance(exposed, Unknown) or not exposed or not all(_is_in_conduit(segment) for segment in exposed):
        yield DoesNotApply("it is not in raceway wherever it is outdoors")
        return
    if isinstance(link.type, UnknownWords):
        yield CannotJudge(Unknown(f"the type of {link.tag} is not understood", (*link.path, "type")))
        return
    if link.type.jacket.resists_sun_and_wet:
        return
    if _in_the_ground(link, context):
        yield DoesNotApply("water stands in its raceway, and it is judged by that")
        return
    suiting = _suiting(link.type, burial=False)
    values = {
        "cable": link.tag,
        "jacket": link.type.jacket.name,
        "stretches": listed([_stretch(segment) for segment in exposed]),
        "instead": f"take '{suiting}'" if suiting else "take a class that is made with an outdoor jacket",
    }
    at = (*link.path, "type")
    related = tuple((segment.path, "the raceway is outdoors here") for segment in exposed)
    yield NotMet("counted as dry", at, values, mend=Correction(at, suiting) if suiting else None, related=related)


def _is_in_conduit(segment: Segment) -> bool:
    return segment.raceway is not None and segment.raceway.raceway.kind not in _OPEN


def _in_the_ground(link: CableLink, context: CheckContext) -> tuple[Segment, ...] | Unknown:
    """The stretches in the ground, and those in a raceway in a wet place, or what is missing to tell them."""
    wet = context.network.exposed_segments(link, _WHERE_WATER_STANDS)
    if isinstance(wet, Unknown):
        return wet
    return tuple(segment for segment in wet if segment.raceway is not None or _is_in_earth(segment))


def _is_in_earth(segment: Segment) -> bool:
    return segment.place is not None and segment.place.exposure in BELOW_GROUND


_WHERE_WATER_STANDS: frozenset[Exposure] = BELOW_GROUND | {"wet"}
_OPEN = frozenset(("cable tray", "sleeve"))
"""Raceways that leave a cable to sun and rain."""
_SPANS = frozenset(("messenger",))
"""Jackets that carry a span: what replaces one has to carry it as well."""


def _suiting(made: CableType, burial: bool) -> str | None:
    """The type in the jacket, or the two jackets together, that its places ask for; None where it is not made so."""
    names = made.cable_class.jackets
    spans = _SPANS.intersection(jacket.name for jacket in made.jackets)
    for chosen in (*((name,) for name in names), *permutations(names, 2)):
        tried = made
        for name in chosen:
            tried = tried.with_jacket(name)
        resists = tried.jacket.resists_sun_and_wet and (tried.jacket.burial_rated or not burial)
        if resists and spans.issubset(jacket.name for jacket in tried.jackets):
            return tried.phrase
    return None


def _stretch(segment: Segment) -> str:
    raceway = f" in {segment.raceway.tag}" if segment.raceway is not None else ""
    return f"{segment.length.text} of {segment.tag}{raceway}"


def _preposition(segment: Segment) -> str:
    return "on" if segment.place is not None and segment.place.exposure == "rooftop" else "at"


_BURIED = ("cable", "lies", "jacket", "stretches")
_VALUES = ("cable", "jacket", "stretches", "exposed")

CHECKS = (
    Check(
        name="outdoor-rated",
        each=CABLE,
        judge=outdoor_rated,
        applies_to=at(SUN_OR_RAIN, or_unplaced=True),
        cases={
            "jacket not said": (*_VALUES, "suiting"),
            "indoor jacket": (*_VALUES, "suiting"),
            "not made": _VALUES,
        },
        reads=("cables.*.type", "cables.*.route", "places.*.exposure", "devices.*.place", "raceways.*.kind"),
    ),
    Check(
        name="burial-rated",
        each=CABLE,
        judge=burial_rated,
        applies_to=at(_WHERE_WATER_STANDS, or_unplaced=True),
        cases={"other jacket": (*_BURIED, "suiting"), "not made": _BURIED},
        reads=("cables.*.type", "cables.*.route", "places.*.exposure", "devices.*.place"),
    ),
    Check(
        name="uv-conduit",
        each=CABLE,
        judge=uv_conduit,
        applies_to=in_raceway,
        cases={"counted as dry": ("cable", "jacket", "stretches", "instead")},
        reads=("cables.*.type", "cables.*.route", "places.*.exposure", "raceways.*.kind"),
    ),
)
