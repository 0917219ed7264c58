"""No bend that is stated is tighter than the cable's class allows, or else so many of its diameters.

radius >= that of the class; where it states none, diameters x outer diameter. Source: common practice.
"""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.catalogue import CableType, UnknownWords
from coaxwright.checks.contract import CannotJudge, Check, CheckContext, DoesNotApply, NotMet, Verdict
from coaxwright.checks.limits import LimitKind, Limits
from coaxwright.checks.selectors import CABLE
from coaxwright.checks.subject_filters import described
from coaxwright.design.quantities import Length, Times
from coaxwright.design.value_types import LENGTH, TAG, WORD, Derived
from coaxwright.network import CableLink, Segment, Unknown
from coaxwright.physics.comparison import at_least


def bend_radius(link: CableLink, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """The tightest bend in each place has at least the radius that the cable allows."""
    tightest: dict[str, tuple[Segment, Length]] = {}
    for segment in link.segments:
        bend = _bend(segment)
        if bend is not None and (segment.tag not in tightest or bend.length_m < tightest[segment.tag][1].length_m):
            tightest[segment.tag] = (segment, bend)
    if not tightest:
        yield DoesNotApply("no bend")
        return
    if isinstance(link.type, UnknownWords):
        yield CannotJudge(Unknown("type not understood", (*link.path, "type"), {"cable": link.tag}))
        return
    least_m = _least_m(link.type, limits)
    if least_m is None:
        yield CannotJudge(Unknown("no diameter", (*link.path, "type"), {"cable": link.tag}))
        return
    for segment, bend in tightest.values():
        if at_least(bend.length_m, least_m):
            continue
        lacking_m = least_m - bend.length_m
        values = {
            "cable": link.tag,
            "place": segment.tag,
            "class": link.type.cable_class.name,
            "bend": bend,
            "least": Derived(least_m, bend),
            "missing": Derived(lacking_m, bend),
        }
        yield NotMet("tight", (*segment.path, "bend radius"), values, facet=segment.tag, excess=lacking_m)


def _bend(segment: Segment) -> Length | None:
    return segment.leg.bend_radius if segment.leg is not None else None


def _least_m(made: CableType, limits: Limits) -> float | None:
    """The radius that a cable allows [m]; None where neither that nor its diameter is known."""
    stated_m, outer_m = made.cable_class.bend_radius_m, made.outer_diameter_m
    if stated_m is None and outer_m is not None:
        return limits.one(Times, "diameters").factor * outer_m
    return stated_m


CHECK = Check(
    name="route.bend-radius",
    each=CABLE,
    judge=bend_radius,
    applies_to=described(lambda segment: _bend(segment) is not None),
    cases={
        "tight": {"cable": TAG, "place": TAG, "class": WORD, "bend": LENGTH, "least": LENGTH, "missing": LENGTH},
    },
    cannot_judge={"no diameter": {"cable": TAG}},
    does_not_apply={"no bend": {}},
    limits={"diameters": LimitKind(Times)},
)
