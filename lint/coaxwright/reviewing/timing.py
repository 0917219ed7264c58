"""Where the time of a review goes: reading, understanding, the network, and every rule.

Nothing of this is at work unless it is asked for: the rules of a run that is timed have checks that are timed.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from time import perf_counter
from typing import TYPE_CHECKING, Any

from coaxwright.checks import AnyCheck, CheckContext, Limits, Verdict
from coaxwright.reviewing.effective_rules import RuleSources
from coaxwright.reviewing.model import DesignReview
from coaxwright.reviewing.review_request import ReviewRequest
from coaxwright.reviewing.search import Found
from coaxwright.rules import EffectiveRules, Rule, RulesetRegistry
from coaxwright.source import Document, Drawn, FilesRead

if TYPE_CHECKING:
    from coaxwright.reviewing.design_reviewer import ReviewOne, Seen

READING = "reading the files"
UNDERSTANDING = "understanding them"
RULESETS = "putting the rules together"
NETWORK = "building the network"
BETWEEN = "choosing subjects and wording findings"
KEPT = "results that were kept"
PARTS = (READING, UNDERSTANDING, RULESETS, NETWORK, BETWEEN, KEPT)


@dataclass(slots=True)
class Clock:
    """Adds up the time of each part of the work; at any moment one part is at work."""

    seconds: dict[str, float] = field(default_factory=dict)
    """Of each of ``PARTS`` that there was, and of each rule, by its name [s]."""
    subjects: dict[str, int] = field(default_factory=dict)
    """How many subjects each rule was asked about."""
    designs: int = 0
    _part: str = ""
    _since: float = 0.0

    def turn_to(self, part: str) -> None:
        """The part that was at work ends, and another begins; none where it is empty."""
        now = perf_counter()
        if self._part:
            self.seconds[self._part] = self.seconds.get(self._part, 0.0) + now - self._since
        self._part, self._since = part, now

    def count(self, rule: str) -> None:
        """One more subject of a rule."""
        self.subjects[rule] = self.subjects.get(rule, 0) + 1

    def take(self) -> Clock:
        """What was added up until now, which begins anew."""
        taken = Clock(self.seconds, self.subjects, self.designs)
        self.seconds, self.subjects, self.designs = {}, {}, 0
        return taken

    def add(self, other: Clock) -> None:
        """The times of another process."""
        for part, seconds in other.seconds.items():
            self.seconds[part] = self.seconds.get(part, 0.0) + seconds
        for rule, count in other.subjects.items():
            self.subjects[rule] = self.subjects.get(rule, 0) + count
        self.designs += other.designs


class TimedRuleSources(RuleSources):
    """Rules whose checks are timed."""

    def __init__(self, shelf: RulesetRegistry, clock: Clock) -> None:
        super().__init__(shelf)
        self._clock = clock
        self._timed: dict[int, tuple[EffectiveRules, EffectiveRules]] = {}
        self._untimed: dict[int, Rule] = {}

    def of(self, labels: tuple[str, ...], own: tuple[Document, ...] = ()) -> EffectiveRules:
        """The rules of the rulesets named."""
        self._clock.turn_to(RULESETS)
        basis = super().of(labels, own)
        if id(basis) not in self._timed:
            rules = {name: replace(rule, check=_timed_check(rule, self._clock)) for name, rule in basis.rules.items()}
            self._timed[id(basis)] = (basis, replace(basis, rules=rules))
            self._untimed.update((id(rules[name]), rule) for name, rule in basis.rules.items())
        self._clock.turn_to(NETWORK)
        return self._timed[id(basis)][1]

    def untimed(self, design: DesignReview) -> DesignReview:
        """A review with the rules as they are when nothing is timed."""
        return replace(design, rules=tuple(self._untimed.get(id(rule), rule) for rule in design.rules))


def timed(
    review_one: ReviewOne,
    found: Found,
    bases: RuleSources,
    files: FilesRead,
    asked: ReviewRequest,
    seen: Seen,
    clock: Clock,
) -> DesignReview:
    """The review of one design, with its time added to the clock; ``bases`` are timed ones."""

    def read(drawn: Drawn) -> None:
        if seen is not None:
            seen(drawn)
        clock.turn_to(UNDERSTANDING)

    clock.turn_to(READING)
    try:
        design = review_one(found, bases, files, asked, read)
    finally:
        clock.turn_to("")
    clock.designs += 1
    return bases.untimed(design) if isinstance(bases, TimedRuleSources) else design


def _timed_check(rule: Rule, clock: Clock) -> AnyCheck:
    judge = rule.check.judge

    def judge_timed(thing: Any, site: CheckContext, limits: Limits) -> Iterator[Verdict]:
        clock.turn_to(rule.name)
        clock.count(rule.name)
        try:
            return iter(tuple(judge(thing, site, limits)))
        finally:
            clock.turn_to(BETWEEN)

    return replace(rule.check, judge=judge_timed)
