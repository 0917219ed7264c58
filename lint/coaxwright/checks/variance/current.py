"""A variance has not ended; of several that say the same, one that holds is enough."""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.checks.contract import Check, CheckContext, DoesNotApply, NotMet, Verdict
from coaxwright.checks.limits import Limits
from coaxwright.checks.selectors import GRANTED, Granted
from coaxwright.checks.variance._shared import entry, is_in_force, is_named
from coaxwright.design.value_types import TEXT


def current(granted: Granted, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """One of those that grant the same holds on the day of the review."""
    if not is_named(granted, context.results):
        yield DoesNotApply("names nothing")
    elif not any(is_in_force(variance, context.results.as_of) for _, variance in granted.entries):
        index, latest = max(granted.entries, key=lambda written: written[1].until or "")
        values = {"rule": granted.rule, "item": granted.item, "until": latest.until or "", "by": latest.granted_by}
        yield NotMet("ended", (*entry(index), "until"), values)


CHECK = Check(
    name="variance.current",
    each=GRANTED,
    judge=current,
    cases={"ended": {"rule": TEXT, "item": TEXT, "until": TEXT, "by": TEXT}},
    does_not_apply={"names nothing": {}},
)
