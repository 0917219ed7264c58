"""What is asked of a design: everything that bears on its review, apart from its own files."""

from __future__ import annotations

from coaxwright.findings import VarianceTerms
from coaxwright.review.model import RETURNS_AT
from coaxwright.rules import Severity
from coaxwright.unchanging import unchanging

NO_DAY_NAMED = VarianceTerms()


@unchanging
class Asked:
    """How one design is reviewed; may be handed to another process, and is part of what a result depends on."""

    returns_at: Severity = RETURNS_AT
    """The severity from which a finding returns it."""
    with_amendments: bool = False
    """Whether the exact changes that would mend findings are proven and added: a second look at the design for each."""
    variances: VarianceTerms = NO_DAY_NAMED
    """The day by which a variance that ends is judged, and whether those of the design are honoured."""


USUALLY_ASKED = Asked()
