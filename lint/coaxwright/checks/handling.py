"""How a cable is bent, and how it passes walls and floors: judged only where the design states it."""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.catalogue import UnknownWords
from coaxwright.checks.adjacent_hazards import short_text
from coaxwright.checks.contract import CannotJudge, Check, CheckContext, DoesNotApply, NotMet, Verdict
from coaxwright.checks.limits import LimitKind, Limits
from coaxwright.checks.selectors import CABLE
from coaxwright.checks.subject_filters import described
from coaxwright.design.quantities import Length, Times
from coaxwright.design.words import SMALL_DWELLINGS
from coaxwright.network import CableLink, Segment, Unknown
from coaxwright.physics.comparison import at_least


def bend_radius(link: CableLink, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """No bend that is stated is tighter than the cable's class allows, or else so many of its diameters."""
    tightest: dict[str, tuple[Segment, Length]] = {}
    for segment in link.segments:
        bend = segment.leg.tightest_bend if segment.leg is not None else None
        if bend is not None and (segment.tag not in tightest or bend.length_m < tightest[segment.tag][1].length_m):
            tightest[segment.tag] = (segment, bend)
    if not tightest:
        yield DoesNotApply("no bend of it is stated")
        return
    if isinstance(link.type, UnknownWords):
        yield CannotJudge(Unknown(f"the type of {link.tag} is not understood", (*link.path, "type")))
        return
    diameters = limits.quantity(Times, "diameters")
    assert diameters is not None
    outer_m, least_m = link.type.outer_diameter_m, link.type.cable_class.bend_radius_m
    if least_m is None and outer_m is not None:
        least_m = diameters.factor * outer_m
    if least_m is None:
        yield CannotJudge(Unknown(f"the diameter of {link.tag} is not known", (*link.path, "type")))
        return
    for segment, bend in tightest.values():
        if at_least(bend.length_m, least_m):
            continue
        values = {
            "cable": link.tag,
            "place": segment.tag,
            "class": link.type.cable_class.name,
            "bend": bend.text,
            "least": short_text(least_m, bend.is_metric),
            "missing": short_text(least_m - bend.length_m, bend.is_metric),
        }
        at = (*segment.path, "tightest bend")
        yield NotMet("tight", at, values, facet=segment.tag, excess=least_m - bend.length_m)


def firestop(link: CableLink, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """The holes that a cable passes in rated walls and floors are sealed, where the design speaks of them."""
    spoken = {
        segment.tag: segment
        for segment in sorted(link.segments, key=lambda one: (not _sealed(one), _sealed(one) is False))
        if _sealed(segment) is not None or _floors(segment) > 0
    }
    if not spoken:
        yield DoesNotApply("no hole in a rated wall or floor is drawn")
        return
    for segment in spoken.values():
        if _sealed(segment):
            continue
        at = (*segment.path, "firestopped")
        if _sealed(segment) is False:
            values = {"cable": link.tag, "place": segment.tag}
            yield NotMet("open hole", at, values, facet=segment.tag)
            continue
        occupancy = context.network.occupancy(segment.place.building if segment.place is not None else None)
        if occupancy not in SMALL_DWELLINGS:  # there, floors are seldom rated
            cause = f"{link.tag} passes floors in {segment.tag}, and nobody says whether the holes are sealed"
            yield CannotJudge(Unknown(cause, at), facet=segment.tag)


def drip_loop(link: CableLink, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """A cable that enters from outdoors has a drip loop and a sealed hole, where the design speaks of it."""
    said = {
        segment.tag: segment
        for segment in sorted(link.segments, key=lambda one: one.leg is not None and one.leg.drip_loop is False)
        if segment.leg is not None and segment.leg.drip_loop is not None
    }
    if not said:
        yield DoesNotApply("nothing is said of a drip loop")
        return
    for segment in said.values():
        if segment.leg is not None and segment.leg.drip_loop is False:
            values = {"cable": link.tag, "place": segment.tag}
            yield NotMet("none", (*segment.path, "drip loop"), values, facet=segment.tag)


def _sealed(segment: Segment) -> bool | None:
    return segment.leg.firestopped if segment.leg is not None else None


def _floors(segment: Segment) -> int:
    return (segment.leg.floors_crossed or 0) if segment.leg is not None else 0


_ROUTE = ("cables.*.route",)

CHECKS = (
    Check(
        name="bend-radius",
        each=CABLE,
        judge=bend_radius,
        applies_to=described(lambda one: one.leg is not None and one.leg.tightest_bend is not None),
        cases={"tight": ("cable", "place", "class", "bend", "least", "missing")},
        reads=("cables.*.type", *_ROUTE),
        limits={"diameters": LimitKind(Times)},
    ),
    Check(
        name="firestop",
        each=CABLE,
        judge=firestop,
        applies_to=described(lambda one: _sealed(one) is not None or _floors(one) > 0),
        cases={"open hole": ("cable", "place")},
        reads=(*_ROUTE, "basis.occupancy", "buildings.*.occupancy"),
    ),
    Check(
        name="drip-loop",
        each=CABLE,
        judge=drip_loop,
        applies_to=described(lambda one: one.leg is not None and one.leg.drip_loop is not None),
        cases={"none": ("cable", "place")},
        reads=_ROUTE,
    ),
)
