"""A variance is granted from a rule that binds the design, for a thing that is in it."""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.checks.contract import Check, CheckContext, NotMet, Verdict
from coaxwright.checks.limits import Limits
from coaxwright.checks.selectors import GRANTED, Granted
from coaxwright.checks.variance._shared import first_entry
from coaxwright.design.value_types import TEXT
from coaxwright.network import nearest_tag


def named(granted: Granted, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """Its rule is one that a variance may be granted from, and its item is the tag of something."""
    results, at = context.results, first_entry(granted)
    if granted.rule in results.about_variances:
        yield NotMet("about variances", (*at, "rule"), {"rule": granted.rule}, facet="rule")
    elif granted.rule not in results.rules:
        from coaxwright.design.nearest import nearest_word

        near = nearest_word(granted.rule, results.rules)
        case, meant = ("rule misspelt", {"meant": near}) if near else ("no rule", {})
        yield NotMet(case, (*at, "rule"), {"rule": granted.rule, **meant}, facet="rule")
    if granted.item not in results.items:
        near = _nearest_item(granted.item, results.items)
        case, meant = ("item misspelt", {"meant": near}) if near else ("no item", {})
        yield NotMet(case, (*at, "item"), {"item": granted.item, **meant}, facet="item")


def _nearest_item(written: str, items: tuple[str, ...]) -> str | None:
    """The tag that was probably meant; of ``SP1.out-2`` the device."""
    host = written.rpartition(".")[0]
    return host if host in items else nearest_tag(written, list(items))


CHECK = Check(
    name="variance.named",
    each=GRANTED,
    judge=named,
    cases={
        "about variances": {"rule": TEXT},
        "rule misspelt": {"rule": TEXT, "meant": TEXT},
        "no rule": {"rule": TEXT},
        "item misspelt": {"item": TEXT, "meant": TEXT},
        "no item": {"item": TEXT},
    },
)
