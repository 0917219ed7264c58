"""A rule asked of a small design: what it finds, and why it does not apply."""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.analysis import Analysis
from coaxwright.checks import CheckContext, DoesNotApply, NeedsPerson, NotMet, all_checks, value_types
from coaxwright.design import understand
from coaxwright.findings import Finding
from coaxwright.network import build_network
from coaxwright.reviewing import judge
from coaxwright.rules import combine, shipped_registry
from coaxwright.rules.phrase_book import phrases_of, reason_text
from coaxwright.rules.wording import fill
from coaxwright.source import read_text

HEAD = "coaxwright: 1\ntitle: Bench (invented)\nbasis: {rulesets: [trade 1]}\n"


def findings(rule: str, text: str) -> list[Finding]:
    """What a rule finds in a design of which all but the head is given."""
    review = judge(read_text(HEAD + text, "bench.coax.yaml"), shipped_registry())
    assert [str(problem) for problem in review.problems] == []
    assert review.crashes == ()
    return [finding for finding in review.findings if finding.rule == rule]


def worded(text: str, verdict: NotMet | NeedsPerson, rule: str, is_metric: bool = False) -> str:
    """A text with the values of a verdict, as the rule's words would have them."""
    (check,) = (check for check in all_checks().values() if check.name == rule)
    types, phrases = value_types(check, verdict.case), phrases_of(check.name).phrases
    return fill(text, verdict.values, types, phrases, is_metric)


def reasons(rule: str, text: str) -> Iterator[str]:
    """Why a rule does not apply, of each thing that it does not apply to."""
    network = build_network(understand(read_text(HEAD + text, "bench.coax.yaml")))
    bound = combine(["trade 1"], shipped_registry()).rules[rule]
    site = CheckContext(network, Analysis(network))
    for thing in bound.check.each.select(network):
        found = bound.check.judge(thing, site, bound.limits)
        yield from (reason_text(verdict, bound.check) for verdict in found if isinstance(verdict, DoesNotApply))
