"""A finding: one thing wrong, or one thing that cannot be judged, with all that a reader needs."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date

from coaxwright.checks import Citation, Correction, Subject
from coaxwright.findings.outcome import Outcome
from coaxwright.frozen_value import frozen_value
from coaxwright.rules import Severity
from coaxwright.source import Path, Span


@dataclass(frozen=True, slots=True, order=True)
class Place:
    """A place in a file, with the text of its first line for an excerpt."""

    file: str
    span: Span
    line_text: str = ""
    in_part: bool = False
    """Whether the file is one that the design includes, not its own."""


@dataclass(frozen=True, slots=True, order=True)
class Identity:
    """What makes two findings the same one in two reviews: no line, no value, no file."""

    design: str
    rule: str
    kind: str
    subject: str
    second: str = ""
    facet: str = ""

    @property
    def fingerprint(self) -> str:
        """The identity as 32 hexadecimal figures."""
        from hashlib import sha256

        parts = (self.design, self.rule, self.kind, self.subject, self.second, self.facet)
        return sha256("\x1f".join(parts).encode()).hexdigest()[:32]


@frozen_value
class Amendment:
    """An exact change, proven to remove its finding and to add none."""

    span: Span
    """What is replaced, in the file of the finding."""
    written: str
    """What stands there now."""
    text: str
    """What to write instead."""
    changes: tuple[str, ...] = ()
    """The repeated units that it changes, all at once: those that are written where it is made."""


@frozen_value
class VarianceTerms:
    """How variances are taken in one review."""

    as_of: date = date.max
    """The day by which one that ends is judged; where a caller names none, every such one has ended."""
    honoured: bool = True
    """False for a design that is not trusted: what it grants itself is shown, and changes nothing."""


@frozen_value
class Varied:
    """That a variance covers a finding: an exception from its rule, granted for its subject."""

    reason: str
    granted_by: str
    until: str
    """The last day, month or year in which it holds; empty for one without an end."""
    place: Place
    """Where the variance is written."""
    honoured: bool = True
    """Whether the review takes it into account."""


@frozen_value
class Finding:
    """One subject that does not meet a rule, or cannot be judged by it."""

    identity: Identity
    rule: str
    title: str
    severity: Severity
    outcome: Outcome
    subject: Subject
    place: Place
    found: str
    required: str
    reason: str
    remedy: str
    sources: tuple[Citation, ...]
    remarks: tuple[str, ...] = ()
    """What else bears on it: whose it is, that it is existing plant, that the figure is not due yet."""
    related: tuple[tuple[Place, str], ...] = ()
    root: Path | None = None
    """For a finding that cannot be judged: where the missing figure belongs."""
    mend: Correction | None = None
    amendment: Amendment | None = None
    case: str = ""
    """The wording of the rule that applies; empty for one that cannot be judged."""
    instances: tuple[str, ...] = ()
    """The repeated units that it holds for: the worst, whose texts it has, then the others by their tags."""
    due_later: str = ""
    """Of what cannot be judged yet: the later stage at which the missing figure is due."""
    excess: float = 0.0
    """How far it is beyond its limit, in the measure of its check."""
    varied: Varied | None = None
    """The variance that covers it."""
    outstanding: bool = False
    """Whether it is on the punch list of the review: known before, and still to be mended."""
    group: tuple[str, ...] = ()
    """What it shares with findings of its rule on other subjects, of which the first stands for all; empty for none."""
    involved: tuple[Path, ...] = ()
    """The things of the design that have a part in it, besides its subject."""
    folded_under: Identity | None = None
    """The finding that it is folded under; None where it stands by itself."""
    new_in: tuple[str, ...] = ()
    """Of a finding that was known before in some repeated units, those others in which it is new."""

    @property
    def is_varied(self) -> bool:
        """Whether a variance that the review takes into account covers it."""
        return self.varied is not None and self.varied.honoured

    @property
    def is_set_aside(self) -> bool:
        """Whether it is counted apart and returns nothing: what is varied, or outstanding."""
        return self.is_varied or self.outstanding

    @property
    def identities(self) -> tuple[Identity, ...]:
        """The identity for each repeated unit that it holds for; its own where there is none."""
        if not self.instances:
            return (self.identity,)
        own = str(self.subject.path[1]).removeprefix(f"{self.instances[0]}/")
        return tuple(replace(self.identity, subject=f"{instance}/{own}") for instance in self.instances)

    def returns(self, returns_at: Severity) -> bool:
        """Whether it returns its design, when findings from ``returns_at`` up do.

        What needs a person never does, nor what is varied or outstanding.
        """
        return self.severity >= returns_at and self.outcome is not Outcome.NEEDS_A_PERSON and not self.is_set_aside

    @property
    def order(self) -> tuple[object, ...]:
        """A total order: the design's own file before its parts, then file, line, column, end, rule, subject, words."""
        span = self.place.span
        return (
            self.place.in_part,
            self.place.file,
            span.start,
            span.end,
            self.rule,
            self.subject.tag,
            self.identity,
            self.found,
        )
