"""For each rule that defers to another: folded beside its owner, and standing by itself without it."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cache
from pathlib import Path

import pytest

from coaxwright.findings import Finding
from coaxwright.reviewing import DesignReview
from coaxwright.reviewing.effective_rules import RuleSources
from coaxwright.reviewing.pipeline import review_document
from coaxwright.reviewing.review_request import USUAL_REQUEST, LeftOut
from coaxwright.rules import EffectiveRules, Severity, Words, combine, shipped_registry
from coaxwright.source import read_file, read_text


@dataclass(frozen=True)
class Pair:
    """A rule, the owner that it defers to, and a design in which both find something on one thing."""

    rule: str
    owner: str
    design: str

    @property
    def name(self) -> str:
        return f"{self.rule} to {self.owner}"


PAIRS = [Pair(**entry) for entry in read_file(Path(__file__).with_name("deferrals.yaml"), "deferrals.yaml").data]
every_pair = pytest.mark.parametrize("pair", PAIRS, ids=[pair.name for pair in PAIRS])


def reviewed(text: str, left_out: str = "", sources: RuleSources | None = None) -> DesignReview:
    request = replace(USUAL_REQUEST, left_out=(LeftOut(left_out),) if left_out else ())
    review = review_document(read_text(text, "pair.coax.yaml"), sources or RuleSources(shipped_registry()), request)
    assert [str(problem) for problem in review.problems] == []
    assert review.crashes == ()
    return review


@cache
def both(pair: Pair) -> DesignReview:
    return reviewed(pair.design)


def of(rule: str, findings: tuple[Finding, ...]) -> list[Finding]:
    return [finding for finding in findings if finding.rule == rule]


def folded_under(pair: Pair, review: DesignReview) -> list[Finding]:
    owners = {finding.identity for finding in of(pair.owner, review.findings)}
    return [finding for finding in of(pair.rule, review.folded) if finding.folded_under in owners]


def test_every_deferral_of_every_ruleset_has_a_design_and_no_other_has() -> None:
    registry = shipped_registry()
    labels = [f"{name} {edition}" for name in registry.names for edition in registry.editions(name)]
    rules = [rule for label in labels for rule in combine([label], registry).rules.values()]
    said = {(rule.name, deferral.rule) for rule in rules for deferral in rule.defers}
    assert {(pair.rule, pair.owner) for pair in PAIRS} == said


@every_pair
def test_it_is_folded_under_its_owner_and_counted_nowhere(pair: Pair) -> None:
    assert folded_under(pair, both(pair))


@every_pair
def test_with_the_owner_left_out_it_stands(pair: Pair) -> None:
    waiting = {finding.identity for finding in folded_under(pair, both(pair))}
    alone = reviewed(pair.design, left_out=pair.owner)
    assert {finding.identity for finding in of(pair.rule, alone.findings)} & waiting


@every_pair
def test_with_the_owner_under_variance_it_stands(pair: Pair) -> None:
    granted = dict.fromkeys(finding.identity.subject for finding in of(pair.owner, both(pair).findings))
    lines = [f"  - {{rule: {pair.owner}, item: {item}, reason: r, granted by: g}}\n" for item in granted]
    waiting = {finding.identity for finding in folded_under(pair, both(pair))}
    alone = reviewed(f"{pair.design}variances:\n{''.join(lines)}")
    assert {finding.identity for finding in of(pair.rule, alone.findings)} & waiting


@every_pair
def test_under_an_owner_that_is_less_severe_it_stands(pair: Pair) -> None:
    waiting = {finding.identity for finding in folded_under(pair, both(pair))}
    alone = reviewed(pair.design, sources=_Graded(pair))
    assert {finding.identity for finding in of(pair.rule, alone.findings)} & waiting


class _Graded(RuleSources):
    """The rules with an owner that gives advice, and a rule that finds deficiencies."""

    def __init__(self, pair: Pair) -> None:
        super().__init__(shipped_registry())
        self.pair = pair

    def of(self, *asked: object, **said: object) -> EffectiveRules:
        whole: EffectiveRules = super().of(*asked, **said)  # type: ignore[arg-type]
        graded = {self.pair.owner: Severity.ADVICE, self.pair.rule: Severity.DEFICIENCY}
        rules = dict(whole.rules)
        for name, severity in graded.items():
            words = {case: Words(said.found, said.required, said.remedy) for case, said in rules[name].words.items()}
            rules[name] = replace(rules[name], severity=severity, words=words)
        return replace(whole, rules=rules)
