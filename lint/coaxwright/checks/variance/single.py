"""A variance is written once."""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.checks.contract import Check, CheckContext, NotMet, Verdict
from coaxwright.checks.limits import Limits
from coaxwright.checks.selectors import GRANTED, Granted
from coaxwright.checks.variance._shared import entry
from coaxwright.design.value_types import COUNT, TEXT, Phrase, phrase


def single(granted: Granted, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """No other entry grants the same."""
    first, *others = (index for index, _ in granted.entries)
    if others:
        times = Phrase("twice") if len(others) == 1 else Phrase("more", {"number": len(others) + 1})
        values = {"rule": granted.rule, "item": granted.item, "times": times}
        related = tuple(((*entry(index), "rule"), "once more") for index in (first, *others[1:]))
        yield NotMet("repeated", (*entry(others[0]), "rule"), values, related=related)


CHECK = Check(
    name="variance.single",
    each=GRANTED,
    judge=single,
    cases={"repeated": {"rule": TEXT, "item": TEXT, "times": phrase(twice={}, more={"number": COUNT})}},
    related=("once more",),
)
