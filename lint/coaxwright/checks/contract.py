"""What a check is: a selector, a pure generator of verdicts, and what it needs and says.

The runner counts what the selector gave; a subject for which the generator yields nothing has met the rule.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import field
from typing import Any, Generic, TypeAlias, TypeVar

from coaxwright.analysis import Analysis
from coaxwright.checks.limits import LimitKind, Limits
from coaxwright.checks.review_context import ReviewResults
from coaxwright.checks.subjects import Subject
from coaxwright.design.value_types import Phrase, Values
from coaxwright.frozen_value import frozen_value
from coaxwright.network import Network, Unknown
from coaxwright.source import Path

S = TypeVar("S")


@frozen_value
class CheckContext:
    """Everything a check may ask."""

    network: Network
    analysis: Analysis
    results: ReviewResults = field(default_factory=ReviewResults)
    """For the rules about variances alone: no other rule hears of another one's findings."""


@frozen_value
class Correction:
    """An exact change that would put things right: the text at a path, and what to write there."""

    path: Path
    text: str
    at_key: bool = False
    """Whether the key at the path is to be written anew, not its value."""


@frozen_value
class NotMet:
    """The rule is broken. ``case`` names the wording in the ruleset, ``values`` fill it."""

    case: str
    at: Path
    values: Mapping[str, object]
    at_key: bool = False
    facet: str = ""
    """Tells apart two findings of one rule on one subject."""
    mend: Correction | None = None
    related: tuple[tuple[Path, str | Phrase], ...] = ()
    """Further places, each with the name of what the phrase book says of it, and the values that fill that."""
    cites: tuple[tuple[str, ...], ...] = ()
    """The limits that decided, by name and keys: their sources are the finding's, where there are any."""
    is_by_practice: bool = False
    """Whether no clause is sure to bind the subject, so that practice alone asks for it: then it is no violation."""
    group: tuple[str, ...] = ()
    """What several subjects of one rule share, such as the one part that is wrong: then the first stands for all."""
    involved: tuple[Path, ...] = ()
    """The things of the design that have a part in it: a finding on one of them may be the root of this one."""
    root: Path = ()
    """What others miss because of it, where that is not its place: what cannot be judged for it stands under it."""
    excess: float = 0.0
    """How far it is beyond its limit, in any measure of its check: of several units alike, the worst counts."""


@frozen_value
class CannotJudge:
    """A figure is missing."""

    unknown: Unknown
    facet: str = ""


@frozen_value
class NeedsPerson:
    """No number decides it: somebody has to look. Worded like ``NotMet``; it never returns a design by itself."""

    case: str
    at: Path
    values: Mapping[str, object]
    at_key: bool = False
    facet: str = ""
    cites: tuple[tuple[str, ...], ...] = ()


@frozen_value
class DoesNotApply:
    """The rule has nothing to say of this subject: ``case`` names the reason in the phrase book."""

    case: str
    values: Mapping[str, object] = field(default_factory=dict)


Verdict = NotMet | CannotJudge | NeedsPerson | DoesNotApply


@frozen_value
class Selector(Generic[S]):
    """One of the closed set of ways to pick subjects from a network."""

    name: str
    """Completes 'for every …'."""
    select: Callable[[Network], Iterable[S]]
    describe: Callable[[S], Subject]


SubjectFilter: TypeAlias = Callable[[Sequence[S], Network], Sequence[S]]
"""Of what a selector gives, that which a check can say anything of."""


@frozen_value
class Check(Generic[S]):
    """The code behind one or more rules."""

    name: str
    each: Selector[S]
    judge: Callable[[S, CheckContext, Limits], Iterator[Verdict]]
    cases: Mapping[str, Values]
    """For each case, the values its wording may use, by name and type."""
    limits: Mapping[str, LimitKind] = field(default_factory=dict)
    cannot_judge: Mapping[str, Values] = field(default_factory=dict)
    """The figures that it misses itself, each with its values; what the network misses is declared there."""
    does_not_apply: Mapping[str, Values] = field(default_factory=dict)
    """The reasons why it has nothing to say of a subject, each with its values."""
    related: Mapping[str, Values] | tuple[str, ...] = ()
    """The names of what it says of further places, each with its values where there are any."""
    former_values: Mapping[str, str] = field(default_factory=dict)
    """Values that texts of earlier versions may hold, each with the text that stands for it now."""
    former_limits: tuple[str, ...] = ()
    """Limits that rulesets for earlier versions may set and that decide nothing any more."""
    applies_to: SubjectFilter[S] | None = None
    """To all its other subjects it does not apply, so that it need not be asked of them; None where it may to any."""
    prefilter: SubjectFilter[S] | None = None
    """Of those, all others meet the rule; None where each has to be looked at."""


AnyCheck = Check[Any]
