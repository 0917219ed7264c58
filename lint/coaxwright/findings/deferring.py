"""Findings that wait for another one: folded under it after every rule was judged by itself.

Several findings of one rule that share a group, such as the one part that is wrong, are folded under the first.

Rulesets say which rule defers to which. A finding folds under an owner that is not met, is not under variance, is about
the same subject (or about a thing that the finding involves), in a case that is named where any is, and is at least as
severe. It keeps all that was said of it; it counts in no total and returns no design, since its owner does.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace

from coaxwright.findings.finding import Finding, Identity
from coaxwright.findings.outcome import Outcome
from coaxwright.frozen_value import frozen_value
from coaxwright.network import tag_order
from coaxwright.rules import Deferral, Rule

_FOLDS = (Outcome.NOT_MET, Outcome.NEEDS_A_PERSON)
"""What cannot be judged is gathered under what it misses instead."""
_Thing = tuple[str, str]
"""A thing of the design: its section and its tag, that of a repeated unit with the unit."""


@frozen_value
class Deferred:
    """The findings of a design, and those that are folded under one of them."""

    findings: tuple[Finding, ...]
    folded: tuple[Finding, ...]


def fold_deferring(findings: Iterable[Finding], rules: Mapping[str, Rule]) -> Deferred:
    """Fold every finding under the owner that it defers to; of a chain, under the topmost."""
    every = tuple(findings)
    owners = _Owners(every)
    direct: dict[Identity, Finding] = {}
    for finding in every:
        if finding.is_varied or finding.outcome not in _FOLDS:
            continue
        deferrals = rules[finding.rule].defers if finding.rule in rules else ()
        owner = _owner(finding, deferrals, owners) or owners.first_of_group(finding)
        if owner is not None and owner is not finding:
            direct[finding.identity] = owner
    if not direct:
        return Deferred(every, ())
    shown = tuple(finding for finding in every if finding.identity not in direct)
    folded = tuple(
        replace(finding, folded_under=_top(finding, direct)) for finding in every if finding.identity in direct
    )
    return Deferred(shown, folded)


def _top(finding: Finding, direct: Mapping[Identity, Finding]) -> Identity:
    """The identity of the owner at the end of a chain; rules that defer in a ring are refused when they are loaded."""
    owner = direct[finding.identity]
    while owner.identity in direct:
        owner = direct[owner.identity]
    return owner.identity


class _Owners:
    """The findings under which others may fold, by what they are about and by what they share."""

    def __init__(self, findings: Iterable[Finding]) -> None:
        self._about: dict[tuple[str, _Thing], list[Finding]] = defaultdict(list)
        self._first: dict[tuple[object, ...], Finding] = {}
        for finding in findings:
            if finding.outcome is not Outcome.NOT_MET or finding.is_varied:
                continue
            for thing in _things(finding):
                self._about[finding.rule, thing].append(finding)
            if finding.group:
                key = _group(finding)
                self._first[key] = min(self._first.get(key, finding), finding, key=_by_rank)

    def about(self, rule: str, thing: _Thing) -> Sequence[Finding]:
        """The findings of a rule on a thing."""
        return self._about.get((rule, thing), ())

    def first_of_group(self, finding: Finding) -> Finding | None:
        """The finding that stands for all that share a group with one: that one itself, if it is the first."""
        is_grouped = finding.group and finding.outcome is Outcome.NOT_MET
        return self._first[_group(finding)] if is_grouped else None


def _group(finding: Finding) -> tuple[object, ...]:
    return (finding.rule, finding.group, len(finding.identities))


def _owner(finding: Finding, deferrals: Sequence[Deferral], owners: _Owners) -> Finding | None:
    """The owner of the first thing that a finding involves; of several owners of that, the first in tag order."""
    found = [match for deferral in deferrals for match in _matching(finding, deferral, owners)]
    return min(found, key=lambda match: (match[0], *_by_tag(match[1])))[1] if found else None


def _matching(finding: Finding, deferral: Deferral, owners: _Owners) -> list[tuple[int, Finding]]:
    """The findings that may own one by a deferral, each with the number of the thing that it is about.

    There are none where a unit, of several that the finding holds for, has no owner.
    """
    found: list[tuple[int, Finding]] = []
    for things in _wanted(finding, deferral):
        own = [
            (number, owner)
            for number, thing in enumerate(things)
            for owner in owners.about(deferral.rule, thing)
            if owner.severity >= finding.severity
            and (not deferral.cases or owner.case in deferral.cases)
            and _is_of_same_second(owner, finding, deferral)
        ]
        if not own:
            return []
        found += own
    return found


def _by_rank(finding: Finding) -> tuple[object, ...]:
    """The most severe first; then an order that stays when the entries of a design change their places."""
    return (-finding.severity.rank, *_by_tag(finding))


def _by_tag(finding: Finding) -> tuple[object, ...]:
    """An order that stays when the entries of a design change their places."""
    return (tag_order(finding.subject.tag), finding.identity)


def _is_of_same_second(owner: Finding, finding: Finding, deferral: Deferral) -> bool:
    """Whether both are about one second thing, such as a service, where both name one."""
    seconds = {owner.identity.second, finding.identity.second}
    return deferral.on == "involved" or "" in seconds or len(seconds) == 1


def _things(finding: Finding) -> Iterator[_Thing]:
    """What a finding is about, in every unit that it holds for."""
    for identity in finding.identities:
        yield str(finding.subject.path[0]), identity.subject


def _wanted(finding: Finding, deferral: Deferral) -> Iterator[list[_Thing]]:
    """For every unit that a finding holds for, the things of which an owner has to be about one, the nearest first."""
    if deferral.on == "subject":
        yield from ([thing] for thing in _things(finding))
        return
    units = finding.instances or ("",)
    for unit in units:
        yield [(str(path[0]), _in_unit(str(path[1]), units[0], unit)) for path in finding.involved]


def _in_unit(tag: str, first: str, unit: str) -> str:
    """A tag of the first unit as the same thing of another unit is called; what is of no unit keeps its own."""
    own = tag.removeprefix(f"{first}/") if first else tag
    return tag if own == tag else f"{unit}/{own}"
