"""``coaxwright cite``: one rule, as it stands in the rulesets asked for, or a list of all of them or of a topic.

For a design, also what came of the rule there, thing by thing, or why it was not asked.
"""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from coaxwright.cli.output import complain, say, terminal_width

if TYPE_CHECKING:
    from coaxwright.reviewing.rule_explanation import DesignContext
    from coaxwright.rules import EffectiveRules


def run_cite(
    rule: str | None,
    rulesets: Sequence[str],
    design: Path | None,
    width: int | None,
    subject: str | None = None,
    reviewers_terms: Sequence[str] = (),
) -> int:
    """Show the rule, or list all, and give the exit status: 0, or 2 for a rule, ruleset or design that is not there.

    On the reviewer's terms, as in a review, nothing that the design names or grants itself counts.
    """
    from coaxwright.errors import CoaxwrightError
    from coaxwright.rules import combine, shipped_registry

    columns = width or terminal_width()
    shelf = shipped_registry()
    try:
        if design is not None:
            from coaxwright.reviewing.options import asked_for
            from coaxwright.reviewing.rule_explanation import read_here

            here = read_here(design, asked_for(reviewers_terms=reviewers_terms))
            say(_for_design(rule, rulesets, here, columns, subject))
            return 0
        groups = [tuple(rulesets)] if rulesets else [(shelf.newest(name),) for name in shelf.names]
        say(_shown(rule, [combine(group, shelf) for group in groups], columns))
    except CoaxwrightError as error:
        complain(str(error))
        return 2
    return 0


def _shown(rule: str | None, bases: Sequence[EffectiveRules], columns: int) -> str:
    from coaxwright.reports.citation import cited, listed_by_topic
    from coaxwright.rules import topic_of

    if rule is None:
        return listed_by_topic(bases, columns)
    having = [basis for basis in bases if rule in basis.rules]
    if not having and any(rule == topic_of(name) for basis in bases for name in basis.rules):
        return listed_by_topic(bases, columns, rule)
    if not having:
        bases[-1].rule(rule)  # says which name is nearest
    return cited(rule, having, columns)


def _for_design(
    rule: str | None, rulesets: Sequence[str], here: DesignContext, columns: int, subject: str | None
) -> str:
    from coaxwright.reports import rule_here as report
    from coaxwright.reviewing.rule_explanation import labels_with, rule_here
    from coaxwright.rules import combine, shipped_registry, topic_of

    bases = [here.basis, *([combine(tuple(rulesets), shipped_registry())] if rulesets else ())]
    if rule is None:
        return _shown(None, bases, columns)
    if subject is None and any(rule == topic_of(name) for basis in bases for name in basis.rules):
        return _shown(rule, bases, columns)
    told = rule_here(rule, here, subject)
    if not any(rule in basis.rules for basis in bases):  # shown as other rulesets have it
        bases = [combine((label,), shipped_registry()) for label in labels_with(rule, shipped_registry())]
    page = _shown(rule, bases, columns) if bases else f"{rule}\n"
    return f"{page}\n{report.render(told, columns)}"
