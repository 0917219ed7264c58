"""What is asked of a design: everything that bears on its review, apart from its own files."""

from __future__ import annotations

from coaxwright.findings import VarianceTerms
from coaxwright.frozen_value import frozen_value
from coaxwright.reviewing.model import RETURNS_AT
from coaxwright.rules import Severity
from coaxwright.source import Problem, Span

NO_DAY_NAMED = VarianceTerms()


@frozen_value
class Origin:
    """Where something that is asked comes from: a place in a settings file, or the command."""

    file: str = ""
    """As findings name it; empty for the command."""
    span: Span | None = None

    def __str__(self) -> str:
        return f"{self.file}:{self.span.start.line}" if self.span is not None else "command line"


COMMAND = Origin()
"""The command line, or the call from a program."""


@frozen_value
class AskedRuleset:
    """A ruleset that others than the design ask: settings, or its reviewer."""

    label: str
    """``us 2023``, or what findings call its file."""
    text: str | None = None
    """The whole text of its file; None for one that comes with the program."""
    called: str = ""
    """What its file says that it is called, ``house 2``."""
    origin: Origin = COMMAND

    @property
    def printed(self) -> str:
        """``us 2023``, or ``house 2 (firm/house.coax-ruleset.yaml)``."""
        return f"{self.called} ({self.label})" if self.called else self.label


@frozen_value
class LeftOut:
    """A rule, or all rules of a topic, that is not to be asked."""

    name: str
    reason: str = ""
    origin: Origin = COMMAND


@frozen_value
class ReviewRequest:
    """How one design is reviewed; may be handed to another process, and is part of what a result depends on.

    A run begins with what the command asks; settings make of it what is asked of each design.
    """

    returns_at: Severity = RETURNS_AT
    """The severity from which a finding returns it."""
    with_amendments: bool = False
    """Whether the exact changes that would mend findings are proven and added: a second look at the design for each."""
    variances: VarianceTerms = NO_DAY_NAMED
    """The day by which a variance that ends is judged, and whether those of the design are honoured."""
    returns_at_from: Origin | None = None
    """Who chose the severity; None where nobody did."""
    rulesets: tuple[AskedRuleset, ...] = ()
    """Rulesets that are asked besides those that the design names; on the reviewer's terms instead of them."""
    reviewers_terms: bool = False
    """For a design that is not trusted: its rulesets, variances and settings are shown, and do not count."""
    only: tuple[str, ...] = ()
    """Rules and topics that alone are asked; all where there are none."""
    left_out: tuple[LeftOut, ...] = ()
    settings: tuple[str, ...] = ()
    """The settings files that hold for it, the outermost first."""
    set_aside: tuple[str, ...] = ()
    """On the reviewer's terms: settings and punch lists that are there and do not count."""
    mistakes: tuple[Problem, ...] = ()
    """What is wrong with its settings: it cannot be known what is to be asked."""


USUAL_REQUEST = ReviewRequest()
