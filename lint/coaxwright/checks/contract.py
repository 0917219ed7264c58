"""What a check is: a selector, a pure generator of verdicts, and what it needs and says.

The runner counts what the selector gave; a subject for which the generator yields nothing has met the rule.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import field
from typing import Any, Generic, TypeAlias, TypeVar

from coaxwright.analysis import Analysis
from coaxwright.checks.limits import LimitKind, Limits
from coaxwright.checks.subjects import Subject
from coaxwright.checks.told import Told
from coaxwright.network import Network, Unknown
from coaxwright.source import Path
from coaxwright.unchanging import unchanging

S = TypeVar("S")


@unchanging
class Site:
    """Everything a check may ask."""

    network: Network
    analysis: Analysis
    told: Told = field(default_factory=Told)
    """For the rules about variances alone: no other rule hears of another one's findings."""


@unchanging
class Mend:
    """An exact change that would put things right: the text at a path, and what to write there."""

    path: Path
    text: str
    at_key: bool = False
    """Whether the key at the path is to be written anew, not its value."""


@unchanging
class NotMet:
    """The rule is broken. ``case`` names the wording in the ruleset, ``values`` fill it."""

    case: str
    at: Path
    values: Mapping[str, str]
    at_key: bool = False
    facet: str = ""
    """Tells apart two findings of one rule on one subject."""
    mend: Mend | None = None
    related: tuple[tuple[Path, str], ...] = ()
    cites: tuple[tuple[str, ...], ...] = ()
    """The limits that decided, by name and keys: their sources are the finding's, where there are any."""
    is_by_practice: bool = False
    """Whether no clause is sure to bind the subject, so that practice alone asks for it: then it is no violation."""
    excess: float = 0.0
    """How far it is beyond its limit, in any measure of its check: of several units alike, the worst is told."""


@unchanging
class CannotJudge:
    """A figure is missing."""

    unknown: Unknown
    facet: str = ""


@unchanging
class NeedsPerson:
    """No number decides it: somebody has to look. Worded like ``NotMet``; it never returns a design by itself."""

    case: str
    at: Path
    values: Mapping[str, str]
    at_key: bool = False
    facet: str = ""
    cites: tuple[tuple[str, ...], ...] = ()


@unchanging
class DoesNotApply:
    """The rule has nothing to say of this subject, and why."""

    because: str


Verdict = NotMet | CannotJudge | NeedsPerson | DoesNotApply


@unchanging
class Selector(Generic[S]):
    """One of the closed set of ways to pick subjects from a network."""

    name: str
    """Completes 'for every …'."""
    select: Callable[[Network], Iterable[S]]
    describe: Callable[[S], Subject]


Concern: TypeAlias = Callable[[Sequence[S], Network], Sequence[S]]
"""Of what a selector gives, that which a check can say anything of."""


@unchanging
class Check(Generic[S]):
    """The code behind one or more rules."""

    name: str
    each: Selector[S]
    judge: Callable[[S, Site, Limits], Iterator[Verdict]]
    cases: Mapping[str, tuple[str, ...]]
    """For each case, the values its wording may use."""
    reads: tuple[str, ...]
    """The fields of the design file that the answer depends on, as dotted keys: ``cables.*.type``."""
    limits: Mapping[str, LimitKind] = field(default_factory=dict)
    concerns: Concern[S] | None = None
    """To all its other subjects it does not apply, so that it need not be asked of them; None where it may to any."""
    suspects: Concern[S] | None = None
    """Of those, all others meet the rule; None where each has to be looked at."""


AnyCheck = Check[Any]
