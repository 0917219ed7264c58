"""What the tests of the checks share: a check asked of a small design, before anything is made of its verdicts."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable

import pytest
from asking import HEAD, said

from coaxwright.analysis import Analysis
from coaxwright.checks import CheckContext, NotMet, Verdict
from coaxwright.design import understand
from coaxwright.network import build_network
from coaxwright.reviewing.effective_rules import catalogue_of
from coaxwright.rules import combine, shipped_registry
from coaxwright.source import read_text

Verdicts = dict[str, list[Verdict]]


def _verdicts(rule: str, text: str, head: str = HEAD) -> Verdicts:
    document = read_text(head + text, "bench.coax.yaml")
    design = understand(document)
    network = build_network(design, catalogue_of(document, design)[0])
    bound = combine(tuple(design.basis.rulesets), shipped_registry()).rules[rule]
    site = CheckContext(network, Analysis(network))
    found: Verdicts = defaultdict(list)
    for thing in bound.check.each.select(network):
        found[bound.check.each.describe(thing).tag] += bound.check.judge(thing, site, bound.limits)
    return found


def _not_met(rule: str, text: str, head: str = HEAD) -> dict[str, list[NotMet]]:
    found = {tag: [one for one in all_ if isinstance(one, NotMet)] for tag, all_ in _verdicts(rule, text, head).items()}
    return {tag: broken for tag, broken in found.items() if broken}


@pytest.fixture
def verdicts_of() -> Callable[..., Verdicts]:
    """What a rule says of each subject of a design, by its tag: ``verdicts_of(rule, text, head)``."""
    return _verdicts


@pytest.fixture
def not_met_of() -> Callable[..., dict[str, list[NotMet]]]:
    """The subjects of a design that break a rule, by their tags: ``not_met_of(rule, text, head)``."""
    return _not_met


def _worded(rule: str, text: str, head: str = HEAD) -> dict[str, list[NotMet]]:
    labels = tuple(understand(read_text(head + text, "bench.coax.yaml")).basis.rulesets)
    bound = combine(labels, shipped_registry()).rules[rule]
    return {tag: [said(verdict, bound) for verdict in found] for tag, found in _not_met(rule, text, head).items()}


@pytest.fixture
def worded_of() -> Callable[..., dict[str, list[NotMet]]]:
    """The same with every value as the words of the rule have it: ``worded_of(rule, text, head)``."""
    return _worded
