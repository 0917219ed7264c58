"""A rule asked of a small design: what it finds, and why it does not apply."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace

from coaxwright.analysis import Analysis
from coaxwright.checks import CheckContext, DoesNotApply, NeedsPerson, NotMet, all_checks
from coaxwright.design import understand
from coaxwright.findings import Finding
from coaxwright.network import build_network
from coaxwright.reviewing import DesignReview, judge
from coaxwright.rules import Rule, combine, shipped_registry
from coaxwright.rules.phrase_book import phrases_of, reason_text
from coaxwright.rules.wording import fill
from coaxwright.source import read_text

HEAD = "coaxwright: 1\ntitle: Bench (invented)\nbasis: {rulesets: [trade 1]}\n"


def findings(rule: str, text: str) -> list[Finding]:
    """What a rule finds in a design of which all but the head is given; of what it groups, the first."""
    of_rule = [finding for finding in reviewed(text).unfolded if finding.rule == rule]
    return [finding for finding in of_rule if finding.folded_under is None or finding.folded_under.rule != rule]


def reviewed(text: str) -> DesignReview:
    """The review of a design of which all but the head is given."""
    review = judge(read_text(HEAD + text, "bench.coax.yaml"), shipped_registry())
    assert [str(problem) for problem in review.problems] == []
    assert review.crashes == ()
    return review


def worded(text: str, verdict: NotMet | NeedsPerson, rule: str, is_metric: bool = False) -> str:
    """A text with the values of a verdict, as the rule's words would have them."""
    (check,) = (check for check in all_checks().values() if check.name == rule)
    types, phrases = check.cases[verdict.case], phrases_of(check.name).phrases
    return fill(text, verdict.values, types, phrases, is_metric)


def said(verdict: NotMet, rule: Rule, is_metric: bool = False) -> NotMet:
    """A verdict with its values as the words of a rule have them: with the format that stands there, if any does."""
    words = rule.words[verdict.case]
    text = words.found + words.required + words.remedy
    types, phrases = rule.check.cases[verdict.case], phrases_of(rule.check.name).phrases
    values = {}
    for name in verdict.values:
        placeholder = re.search(rf"\{{{name}(:[^}}]*)?\}}", text)
        shown = placeholder[0] if placeholder is not None else f"{{{name}}}"
        values[name] = fill(shown, verdict.values, types, phrases, is_metric)
    return replace(verdict, values=values)


def reasons(rule: str, text: str) -> Iterator[str]:
    """Why a rule does not apply, of each thing that it does not apply to."""
    network = build_network(understand(read_text(HEAD + text, "bench.coax.yaml")))
    bound = combine(["trade 1"], shipped_registry()).rules[rule]
    site = CheckContext(network, Analysis(network))
    for thing in bound.check.each.select(network):
        found = bound.check.judge(thing, site, bound.limits)
        yield from (reason_text(verdict, bound.check) for verdict in found if isinstance(verdict, DoesNotApply))
