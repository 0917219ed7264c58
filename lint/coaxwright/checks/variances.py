"""Are the exceptions that a design records in order: named right, in force, needed, and there once?

The rules about variances are asked last, and read what was told before; no variance can be granted from them.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from coaxwright.checks.contract import Check, CheckContext, DoesNotApply, NotMet, Verdict
from coaxwright.checks.limits import Limits
from coaxwright.checks.phrasing import listed
from coaxwright.checks.review_context import ReviewResults
from coaxwright.checks.selectors import GRANTED, Granted
from coaxwright.design import Variance
from coaxwright.network import nearest_tag
from coaxwright.source import Path


def is_in_force(variance: Variance, as_of: date) -> bool:
    """Whether a variance still holds: through the whole of the day, the month or the year that it ends with."""
    until = variance.until
    return until is None or as_of.isoformat()[: len(until)] <= until


def variance_named(granted: Granted, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """A variance is granted from a rule that binds the design, for a thing that is in it."""
    results, at = context.results, _at(granted)
    if granted.rule in results.about_variances:
        yield NotMet("about variances", (*at, "rule"), {"rule": granted.rule}, facet="rule")
    elif granted.rule not in results.rules:
        from coaxwright.design.nearest import nearest_word

        near = nearest_word(granted.rule, results.rules)
        case = "rule misspelt" if near else "no rule"
        yield NotMet(case, (*at, "rule"), {"rule": granted.rule, "meant": near or ""}, facet="rule")
    if granted.item not in results.items:
        near = _nearest_item(granted.item, results.items)
        case = "item misspelt" if near else "no item"
        yield NotMet(case, (*at, "item"), {"item": granted.item, "meant": near or ""}, facet="item")


def _nearest_item(written: str, items: tuple[str, ...]) -> str | None:
    """The tag that was probably meant; of ``SP1.out-2`` the device."""
    host = written.rpartition(".")[0]
    return host if host in items else nearest_tag(written, list(items))


def variance_current(granted: Granted, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """A variance has not ended; of several that say the same, one that holds is enough."""
    if not _is_named(granted, context.results):
        yield DoesNotApply("it names nothing that is there")
    elif not any(is_in_force(variance, context.results.as_of) for _, variance in granted.entries):
        index, latest = max(granted.entries, key=lambda entry: entry[1].until or "")
        values = {"rule": granted.rule, "item": granted.item, "until": latest.until or "", "by": latest.granted_by}
        yield NotMet("ended", ("variances", index, "until"), values)


def variance_used(granted: Granted, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """A variance covers something: without it there would be a finding."""
    results = context.results
    if not _is_named(granted, results):
        yield DoesNotApply("it names nothing that is there")
        return
    if not any(is_in_force(variance, results.as_of) for _, variance in granted.entries):
        yield DoesNotApply("it has ended")
        return
    if granted.rule in results.skipped_rules:
        yield DoesNotApply("its rule was not asked")
        return
    facets = results.facets.get((granted.rule, granted.item))
    values = {"rule": granted.rule, "item": granted.item}
    if facets is None:
        yield NotMet("nothing found", (*_at(granted), "rule"), values)
    elif granted.facet and granted.facet not in facets:
        known = f"concern {listed([repr(facet) for facet in sorted(facets)])}" if facets else "have no facet"
        values |= {"facet": granted.facet, "known": known}
        yield NotMet("another facet", (*_at(granted), "facet"), values)


def variance_single(granted: Granted, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """A variance is written once."""
    (first, _), *others = granted.entries
    if others:
        times = "twice" if len(others) == 1 else f"{len(others) + 1} times"
        values = {"rule": granted.rule, "item": granted.item, "times": times}
        related = tuple(((*_entry(index), "rule"), "the same once more") for index in (first, *_indexes(others)[1:]))
        yield NotMet("repeated", (*_entry(others[0][0]), "rule"), values, related=related)


def _is_named(granted: Granted, results: ReviewResults) -> bool:
    return granted.rule in results.rules and granted.item in results.items


def _at(granted: Granted) -> Path:
    return _entry(granted.entries[0][0])


def _entry(index: int) -> Path:
    return ("variances", index)


def _indexes(entries: list[tuple[int, Variance]]) -> list[int]:
    return [index for index, _ in entries]


_READS = ("variances",)

CHECKS = (
    Check(
        name="variance-named",
        each=GRANTED,
        judge=variance_named,
        cases={
            "about variances": ("rule",),
            "rule misspelt": ("rule", "meant"),
            "no rule": ("rule",),
            "item misspelt": ("item", "meant"),
            "no item": ("item",),
        },
        reads=_READS,
    ),
    Check(
        name="variance-current",
        each=GRANTED,
        judge=variance_current,
        cases={"ended": ("rule", "item", "until", "by")},
        reads=_READS,
    ),
    Check(
        name="variance-used",
        each=GRANTED,
        judge=variance_used,
        cases={"nothing found": ("rule", "item"), "another facet": ("rule", "item", "facet", "known")},
        reads=_READS,
    ),
    Check(
        name="variance-single",
        each=GRANTED,
        judge=variance_single,
        cases={"repeated": ("rule", "item", "times")},
        reads=_READS,
    ),
)
