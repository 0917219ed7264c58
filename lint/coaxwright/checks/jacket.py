"""Does the jacket suit the places the cable runs through?"""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.catalogue import CatalogueError, UnknownWords
from coaxwright.checks.contract import CannotJudge, Check, DoesNotApply, Mend, NotMet, Site, Verdict
from coaxwright.checks.limits import Limits
from coaxwright.checks.phrasing import listed
from coaxwright.checks.selectors import CABLE
from coaxwright.design.quantities import total
from coaxwright.design.words import BELOW_GROUND, SUN_OR_RAIN
from coaxwright.plant import CableLink, Segment, Unknown


def outdoor_rated(link: CableLink, site: Site, limits: Limits) -> Iterator[Verdict]:
    """Where a cable meets sun or standing water, its jacket resists them."""
    exposed = site.plant.exposed_segments(link, SUN_OR_RAIN)
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
    if site.plant.exposed_segments(link, BELOW_GROUND):
        yield DoesNotApply("it is buried as well, and judged by that")
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
    try:
        suiting = link.type.with_jacket("outdoor").phrase
    except CatalogueError:
        yield NotMet("not made", at, values, related=related)
        return
    values["suiting"] = suiting
    case = "jacket not said" if "jacket" in link.type.defaulted else "indoor jacket"
    yield NotMet(case, at, values, mend=Mend(at, suiting), related=related)


def burial_rated(link: CableLink, site: Site, limits: Limits) -> Iterator[Verdict]:
    """Where a cable lies in the ground, in a raceway or not, its jacket and core keep water out."""
    buried = site.plant.exposed_segments(link, BELOW_GROUND)
    if buried == ():
        yield DoesNotApply("no part of it is buried")
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
    values = {
        "cable": link.tag,
        "jacket": link.type.jacket.name,
        "stretches": listed([_stretch(segment) for segment in buried]),
    }
    at = (*link.path, "type")
    related = tuple((segment.path, "is buried here") for segment in buried)
    try:
        suiting = link.type.with_jacket("flooded").phrase
    except CatalogueError:
        yield NotMet("not made", at, values, related=related)
        return
    yield NotMet("other jacket", at, values | {"suiting": suiting}, mend=Mend(at, suiting), related=related)


def _stretch(segment: Segment) -> str:
    raceway = f" in {segment.raceway.tag}" if segment.raceway is not None else ""
    return f"{segment.length.text} of {segment.tag}{raceway}"


def _preposition(segment: Segment) -> str:
    return "on" if segment.place is not None and segment.place.exposure == "rooftop" else "at"


_BURIED = ("cable", "jacket", "stretches")
_VALUES = ("cable", "jacket", "stretches", "exposed")

CHECKS = (
    Check(
        name="outdoor-rated",
        each=CABLE,
        judge=outdoor_rated,
        cases={
            "jacket not said": (*_VALUES, "suiting"),
            "indoor jacket": (*_VALUES, "suiting"),
            "not made": _VALUES,
        },
        reads=("cables.*.type", "cables.*.route", "places.*.exposure", "devices.*.place"),
    ),
    Check(
        name="burial-rated",
        each=CABLE,
        judge=burial_rated,
        cases={"other jacket": (*_BURIED, "suiting"), "not made": _BURIED},
        reads=("cables.*.type", "cables.*.route", "places.*.exposure", "devices.*.place"),
    ),
)
