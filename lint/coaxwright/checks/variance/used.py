"""A variance covers something: without it there would be a finding."""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.checks.contract import Check, CheckContext, DoesNotApply, NotMet, Verdict
from coaxwright.checks.limits import Limits
from coaxwright.checks.selectors import GRANTED, Granted
from coaxwright.checks.variance._shared import first_entry, is_in_force, is_named
from coaxwright.design.value_types import TEXT, Phrase, list_of, phrase


def used(granted: Granted, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """Its rule found something on its item, with its facet where it names one."""
    results = context.results
    if not is_named(granted, results):
        yield DoesNotApply("names nothing")
        return
    if not any(is_in_force(variance, results.as_of) for _, variance in granted.entries):
        yield DoesNotApply("ended")
        return
    if granted.rule in results.skipped_rules:
        yield DoesNotApply("rule not asked")
        return
    facets = results.facets.get((granted.rule, granted.item))
    values = {"rule": granted.rule, "item": granted.item}
    if facets is None:
        yield NotMet("nothing found", (*first_entry(granted), "rule"), values)
    elif granted.facet and granted.facet not in facets:
        own = [Phrase("facet", {"facet": facet}) for facet in sorted(facets)]
        known = Phrase("facets", {"facets": own}) if own else Phrase("none")
        more = {"facet": granted.facet, "known": known}
        yield NotMet("another facet", (*first_entry(granted), "facet"), values | more)


_GRANTED = {"rule": TEXT, "item": TEXT}
_FACETS = list_of(phrase(facet={"facet": TEXT}))

CHECK = Check(
    name="variance.used",
    each=GRANTED,
    judge=used,
    cases={
        "nothing found": _GRANTED,
        "another facet": {**_GRANTED, "facet": TEXT, "known": phrase(facets={"facets": _FACETS}, none={})},
    },
    does_not_apply={"names nothing": {}, "ended": {}, "rule not asked": {}},
)
