"""A cable has a length or a route; where it has both, they agree, but for the slack that is cut with it."""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.checks.contract import Check, CheckContext, DoesNotApply, NotMet, Verdict
from coaxwright.checks.limits import LimitKind, Limits
from coaxwright.checks.selectors import CABLE
from coaxwright.design.quantities import Length, LengthPair, in_system
from coaxwright.design.value_types import LENGTH, TAG, Derived, Phrase, phrase
from coaxwright.network import CableLink, Unknown
from coaxwright.physics.comparison import at_most

_SLACK_SHARE = 0.1
"""Of a route, that a cable is usually cut longer. Source: common practice, no source."""


def length_stated(link: CableLink, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """It is known, it is not zero, and its length is neither below its route nor far above it."""
    stated, route = link.cable.length, link.length
    if isinstance(route, Unknown):
        if context.network.design.stage == "concept":
            yield DoesNotApply("concept")
        else:
            yield NotMet("missing", route.root, {"cable": link.tag})
    elif not route.length_m or (stated is not None and not stated.length_m):
        at = link.path if stated is None else (*link.path, "length")
        yield NotMet("nothing", at, {"cable": link.tag}, at_key=stated is None)
    elif stated is not None and link.segments:
        yield from _disagreement(link, stated, route, limits)


def _disagreement(link: CableLink, stated: Length, route: Length, limits: Limits) -> Iterator[NotMet]:
    is_metric = stated.is_metric
    rounding, slack = (limits.one(LengthPair, name).for_author(is_metric) for name in ("rounding", "slack"))
    difference = in_system(stated, is_metric) - in_system(route, is_metric)
    most = max(in_system(slack, is_metric), _SLACK_SHARE * in_system(route, is_metric))
    values = {
        "cable": link.tag,
        "length": stated,
        "route": route,
        "difference": Derived(abs(stated.length_m - route.length_m), stated),
    }
    at = (*link.path, "length")
    if not at_most(-difference, in_system(rounding, is_metric)):
        allowed = Phrase("length", {"length": rounding})
        yield NotMet("shorter", at, {**values, "allowed": allowed}, cites=(("rounding",),))
    elif not at_most(difference, most):
        is_slack = most == in_system(slack, is_metric)
        allowed = Phrase("length", {"length": slack}) if is_slack else Phrase("tenth")
        yield NotMet("longer", at, {**values, "allowed": allowed}, cites=(("slack",),))


_LENGTH = {
    "cable": TAG,
    "length": LENGTH,
    "route": LENGTH,
    "difference": LENGTH,
    "allowed": phrase(length={"length": LENGTH}, tenth={}),
}

CHECK = Check(
    name="plan.length-stated",
    each=CABLE,
    judge=length_stated,
    cases={"missing": {"cable": TAG}, "nothing": {"cable": TAG}, "shorter": _LENGTH, "longer": _LENGTH},
    does_not_apply={"concept": {}},
    limits={"rounding": LimitKind(LengthPair), "slack": LimitKind(LengthPair)},
)
