"""A check that says what it concerns says of everything else, asked all the same, that it does not apply."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from pathlib import Path

import pytest

from coaxwright.checks import DoesNotApply, Site
from coaxwright.review.asked import Asked
from coaxwright.review.judge import judged
from coaxwright.review.reading import read_design
from coaxwright.rules import Rule, combine, shipped_shelf
from coaxwright.rules.examples import example_files, examples_of
from coaxwright.source import read_text

TOP = Path(__file__).parents[2]
DESIGNS = sorted([*TOP.glob("examples/*/*.coax.yaml"), *TOP.glob("tests/seeded/sites/*.coax.yaml")])
RULES: dict[str, Rule] = {
    rule.name: rule
    for name in shipped_shelf().names
    for rule in combine([shipped_shelf().newest(name)], shipped_shelf()).rules.values()
    if rule.check.concerns is not None
}


def _sites() -> Iterator[Site]:
    for path in DESIGNS:
        yield _site_of(judged(read_design(path, path.name, {}), shipped_shelf(), Asked())[1])
    for file in example_files():
        for example in examples_of(file.stem, [f"{file.parent.parent.name} 1"]):
            site = judged(read_text(example.design, example.rule), shipped_shelf(), Asked())[1]
            if site is not None:
                yield site


def _site_of(site: Site | None) -> Site:
    assert site is not None
    return site


@cache
def sites() -> tuple[Site, ...]:
    return tuple(_sites())


@pytest.mark.parametrize("rule", RULES.values(), ids=RULES)
def test_a_check_does_not_apply_to_what_it_says_does_not_concern_it(rule: Rule) -> None:
    check = rule.check
    assert check.concerns is not None
    asked = passed_over = 0
    for site in sites():
        subjects = list(check.each.select(site.plant))
        concerned = {id(one) for one in check.concerns(subjects, site.plant)}
        asked += len(concerned)
        assert concerned <= {id(one) for one in subjects}
        for one in subjects:
            if id(one) not in concerned:
                passed_over += 1
                verdicts = list(check.judge(one, site, rule.limits))
                assert [type(verdict) for verdict in verdicts] == [DoesNotApply], check.each.describe(one)
    assert asked
    assert passed_over
