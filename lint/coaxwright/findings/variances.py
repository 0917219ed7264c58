"""Variances: exceptions that a design records, and the findings that they cover.

A finding that is covered stays in the review with all that is said of it; it returns the design no more.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Iterator, Sequence
from dataclasses import replace

from coaxwright.checks import GRANTED, ReviewResults, is_in_force
from coaxwright.checks.selectors import ITEM, OWN_CLASS
from coaxwright.design import Variance
from coaxwright.findings.finding import Finding, Place, VarianceTerms, Varied
from coaxwright.findings.merge_units import in_typical
from coaxwright.frozen_value import frozen_value
from coaxwright.network import Network
from coaxwright.rules import Rule
from coaxwright.source import Document, Path

PlaceOf = Callable[[Path], Place]
"""Gives the place at which a path of the design is written."""


@frozen_value
class Names:
    """What a variance may call the subject of a finding, and what tells the finding from others on it."""

    items: tuple[str, ...]
    """The thing's own tag first; of a repeated unit, then its tag in the typical unit, which means all such units."""
    facets: frozenset[str]


def names_of(finding: Finding, document: Document) -> Names:
    """The names of a finding that is not yet told once for several units."""
    identity = finding.identity
    items, facets = [identity.subject], {identity.second, identity.facet}
    instance = document.instance(finding.subject.path)
    if instance is not None:
        items.append(f"{instance.typical}/{instance.tag}")
        facets |= {in_typical(facet, instance) for facet in facets}
    if identity.second == "mast":
        items = [*items, *(f"{item}.mast" for item in items)]
    return Names(tuple(items), frozenset(facets - {""}))


def vary(
    findings: Sequence[Finding],
    variances: Sequence[Variance],
    document: Document,
    place_of: PlaceOf,
    terms: VarianceTerms,
) -> list[Finding]:
    """The same findings, each that a variance covers with the mark of it; nothing else of any is changed.

    A variance covers what its rule found on its item: of any outcome, and of all facets where it names none. One that
    has ended covers nothing. Of several, the one that is meant most closely counts: for the thing itself before the
    typical unit, with a facet before without, then the first that is written.
    """
    granted: dict[tuple[str, str], list[tuple[int, Variance]]] = {}
    for index, variance in enumerate(variances):
        if is_in_force(variance, terms.as_of):
            granted.setdefault((variance.rule, variance.item), []).append((index, variance))
    told: list[Finding] = []
    for finding in findings:
        names = names_of(finding, document)
        covering = [
            (nearness, variance.facet is None, index, variance)
            for nearness, item in enumerate(names.items)
            for index, variance in granted.get((finding.rule, item), ())
            if variance.facet is None or variance.facet in names.facets
        ]
        if covering:
            *_, index, variance = min(covering, key=lambda candidate: candidate[:3])
            finding = replace(finding, varied=_varied(variance, place_of(("variances", index)), terms.honoured))
        told.append(finding)
    return told


def told_of(
    findings: Iterable[Finding],
    rules: Iterable[Rule],
    skipped_rules: Collection[str],
    network: Network,
    document: Document,
    terms: VarianceTerms,
) -> ReviewResults:
    """What the rules about variances have to know of a review: the other rules' findings, and all names.

    ``rules`` are all that bind the design, ``skipped_rules`` those of which nothing is known.
    """
    about_variances, others = (
        [rule.name for rule in rules if (rule.check.each is GRANTED) is about] for about in (True, False)
    )
    facets: dict[tuple[str, str], set[str]] = {}
    items: dict[str, None] = {}
    for path in _paths(network):
        instance = document.instance(path)
        names = [str(path[1])] if instance is None else [str(path[1]), f"{instance.typical}/{instance.tag}"]
        if path[0] == "devices" and network.devices[str(path[1])].mast is not None:
            names += [f"{name}.mast" for name in names]
        items.update(dict.fromkeys(names))
    for finding in findings:
        found = names_of(finding, document)
        for item in found.items:
            facets.setdefault((finding.rule, item), set()).update(found.facets)
    return ReviewResults(
        rules=tuple(others),
        about_variances=frozenset(about_variances),
        skipped_rules=frozenset(skipped_rules),
        items=tuple(items),
        facets={key: frozenset(known) for key, known in facets.items()},
        as_of=terms.as_of,
    )


def _paths(network: Network) -> Iterator[Path]:
    """Where everything with a tag or a name stands that a finding can be about."""
    for item in ITEM.select(network):
        yield ITEM.describe(item).path
    for own in OWN_CLASS.select(network):
        yield OWN_CLASS.describe(own).path


def _varied(variance: Variance, place: Place, honoured: bool) -> Varied:
    return Varied(variance.reason, variance.granted_by, variance.until or "", place, honoured)
