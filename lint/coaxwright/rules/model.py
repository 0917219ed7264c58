"""A rule as data: what must hold, how serious, by which limits and sources, in which words."""

from __future__ import annotations

from collections.abc import Mapping
from enum import Enum, StrEnum
from functools import total_ordering

from coaxwright.checks import AnyCheck, Citation, Limits
from coaxwright.frozen_value import frozen_value
from coaxwright.rules.errors import RulesetError


@total_ordering
class Severity(Enum):
    """How serious a finding is, least first."""

    ADVICE = "advice"
    DEFICIENCY = "deficiency"
    VIOLATION = "violation"

    @property
    def rank(self) -> int:
        return _RANKS[self]

    def __lt__(self, other: object) -> bool:
        return self.rank < other.rank if isinstance(other, Severity) else NotImplemented


_RANKS = {severity: rank for rank, severity in enumerate(Severity)}


class ExistingPolicy(StrEnum):
    """What a rule means for network that was there before: codes are not retroactive, hazards are."""

    JUDGED = "judged"
    ADVICE = "advice"
    EXEMPT = "exempt"


_PRACTICE = "common practice"


@frozen_value
class Words:
    """The wording of one case; ``{name}`` stands for a value of the check."""

    found: str
    required: str
    remedy: str
    severity: Severity | None = None
    """Where this case is more or less serious than the rule."""


@frozen_value
class Deferral:
    """That findings of a rule fold under those of another one."""

    rule: str
    """The owner."""
    on: str
    """``subject``: the owner is about the same subject; ``involved``: about a thing that the finding involves."""
    cases: tuple[str, ...] = ()
    """The cases of the owner that count; empty for all."""


@frozen_value
class Rule:
    """One rule of one effective set of rules, bound to its check."""

    name: str
    title: str
    check: AnyCheck
    severity: Severity
    existing: ExistingPolicy
    due: str
    """The stage from which a missing figure returns a design."""
    reason: str
    words: Mapping[str, Words]
    limits: Limits
    sources: tuple[Citation, ...]
    cases: Mapping[Citation, tuple[str, ...]]
    """For a source that bears on some cases only, which."""
    origins: Mapping[str, str]
    """For each part of the rule, the ruleset that set it last."""
    defers: tuple[Deferral, ...] = ()
    """The owners under which its findings fold, the first that matches first."""

    def sources_for(self, case: str, cites: tuple[tuple[str, ...], ...]) -> tuple[Citation, ...]:
        """What a finding of a case cites: the limits that decided, else the sources that bear on the case."""
        if cites:
            return tuple(dict.fromkeys(self.limits.source(key) for key in cites))
        return tuple(source for source in self.sources if case in self.cases.get(source, (case,)))

    @property
    def practice(self) -> tuple[Citation, ...]:
        """What a finding cites that rests on practice alone, whatever the rule has for others."""
        known = tuple(source for source in self.sources if source.confidence == _PRACTICE)
        return known or (Citation(_PRACTICE, confidence=_PRACTICE),)

    @property
    def topic(self) -> str:
        return self.name.partition(".")[0]


@frozen_value
class Caution:
    """A warning that every review prints where it is called for."""

    name: str
    when: tuple[str, ...]
    """Circumstances that call for it, such as ``rooftop``; empty for always."""
    text: str
    source: Citation


@frozen_value
class Operation:
    """What a ruleset does with one rule: ``add``, ``set`` or ``off``."""

    verb: str
    rule: str
    fields: Mapping[str, object]
    where: str
    """Its file and line."""
    file: str = ""

    def fault(self, problem: str, *steps: str | int) -> RulesetError:
        """What is wrong with it, at the steps below its rule in the file."""
        return RulesetError(self.where, problem, file=self.file, path=(self.verb, self.rule, *steps))


@frozen_value
class Ruleset:
    """One file: its name and edition, what it builds on, its documents and what it does with rules."""

    name: str
    edition: str
    title: str
    builds_on: tuple[str, ...]
    documents: Mapping[str, Citation]
    operations: tuple[Operation, ...]
    cautions: tuple[Caution, ...]
    file: str

    @property
    def label(self) -> str:
        return f"{self.name} {self.edition}"
