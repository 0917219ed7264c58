"""``coaxwright cite``: one rule, as it stands in the rulesets asked for, or a list of all of them."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from coaxwright.cli.output import complain, say, terminal_width


def run_cite(rule: str | None, rulesets: Sequence[str], design: Path | None, width: int | None) -> int:
    """Show the rule, or list all, and give the exit status: 0, or 2 for a rule, ruleset or design that is not there."""
    from coaxwright.errors import CoaxwrightError
    from coaxwright.reports.citation import cited, listed_by_topic
    from coaxwright.rules import combine, shipped_shelf

    shelf = shipped_shelf()
    try:
        if design is not None:
            from coaxwright.review.site import read_site

            bases = [read_site(design).basis, *([combine(tuple(rulesets), shelf)] if rulesets else ())]
        else:
            groups = [tuple(rulesets)] if rulesets else [(shelf.newest(name),) for name in shelf.names]
            bases = [combine(group, shelf) for group in groups]
        if rule is None:
            say(listed_by_topic(bases, width or terminal_width()))
            return 0
        having = [basis for basis in bases if rule in basis.rules]
        if not having:
            bases[-1].rule(rule)  # says which name is nearest
        say(cited(rule, having, width or terminal_width()))
    except CoaxwrightError as error:
        complain(str(error))
        return 2
    return 0
