"""A check that says what it concerns, and what it suspects, says of everything else what it says by that."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import cache
from pathlib import Path

import pytest

from coaxwright.analysis import Analysis
from coaxwright.checks import CheckContext, DoesNotApply
from coaxwright.design import understand
from coaxwright.network import build_network
from coaxwright.reviewing.effective_rules import catalogue_of
from coaxwright.reviewing.judging import judged
from coaxwright.reviewing.reading import read_design
from coaxwright.reviewing.review_request import ReviewRequest
from coaxwright.rules import Rule, combine, shipped_registry
from coaxwright.rules.examples import example_files, examples_of
from coaxwright.source import Document, read_text

TOP = Path(__file__).parents[2]
DESIGNS = sorted([*TOP.glob("examples/*/*.coax.yaml"), *TOP.glob("tests/seeded/sites/*.coax.yaml")])
RULES: dict[str, Rule] = {
    rule.name: rule
    for name in shipped_registry().names
    for rule in combine([shipped_registry().newest(name)], shipped_registry()).rules.values()
    if rule.check.applies_to is not None or rule.check.prefilter is not None
}
CONCERNED = [rule for rule in RULES.values() if rule.check.applies_to is not None]
SUSPECTING = [rule for rule in RULES.values() if rule.check.prefilter is not None]


def _sites() -> Iterator[CheckContext]:
    for path in DESIGNS:
        yield _site_of(judged(read_design(path, path.name, {}), shipped_registry(), ReviewRequest())[1])
    for file in example_files():
        for example in examples_of(file.stem, [f"{file.parent.parent.name} 1"]):
            yield _small_site(read_text(example.design, example.rule))


def _small_site(document: Document) -> CheckContext:
    """Of a design without variances no rule asks what the others found: it need not be reviewed."""
    design = understand(document)
    if design.variances:
        return _site_of(judged(document, shipped_registry(), ReviewRequest())[1])
    network = build_network(design, catalogue_of(document, design)[0])
    return CheckContext(network, Analysis(network))


def _site_of(site: CheckContext | None) -> CheckContext:
    assert site is not None
    return site


@cache
def sites() -> tuple[CheckContext, ...]:
    return tuple(_sites())


@pytest.mark.parametrize("rule", CONCERNED, ids=lambda rule: rule.name)
def test_a_check_does_not_apply_to_what_it_says_does_not_concern_it(rule: Rule) -> None:
    check = rule.check
    assert check.applies_to is not None
    asked = passed_over = 0
    for site in sites():
        subjects = list(check.each.select(site.network))
        concerned = check.applies_to(subjects, site.network)
        others = without(concerned, subjects)
        for one in others:
            verdicts = list(check.judge(one, site, rule.limits))
            assert [type(verdict) for verdict in verdicts] == [DoesNotApply], check.each.describe(one)
        asked, passed_over = asked + len(concerned), passed_over + len(others)
    assert asked
    assert passed_over


@pytest.mark.parametrize("rule", SUSPECTING, ids=lambda rule: rule.name)
def test_a_check_says_nothing_of_what_it_does_not_suspect(rule: Rule) -> None:
    check = rule.check
    assert check.prefilter is not None
    asked = passed_over = 0
    for site in sites():
        subjects = list(check.each.select(site.network))
        if check.applies_to is not None:
            subjects = list(check.applies_to(subjects, site.network))
        suspected = check.prefilter(subjects, site.network)
        others = without(suspected, subjects)
        for one in others:
            assert not list(check.judge(one, site, rule.limits)), check.each.describe(one)
        asked, passed_over = asked + len(suspected), passed_over + len(others)
    assert asked
    assert passed_over


def without(some: Sequence[object], subjects: Sequence[object]) -> list[object]:
    """Of all subjects the others; ``some`` are of them, each once."""
    named = {id(one) for one in some}
    assert len(named) == len(some)
    assert named <= {id(one) for one in subjects}
    return [one for one in subjects if id(one) not in named]
