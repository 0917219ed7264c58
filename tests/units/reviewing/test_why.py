"""What came of a rule for each thing of a design: the same as the review counted."""

from __future__ import annotations

from collections import Counter
from datetime import date
from pathlib import Path

import pytest

from coaxwright.findings import Outcome
from coaxwright.reviewing import KeptBy
from coaxwright.reviewing.options import asked_for
from coaxwright.reviewing.rule_explanation import DesignContext, NoSuchSubject, RuleExplanation, read_here, rule_here
from coaxwright.rules import RulesetError, shipped_registry

EXAMPLES = Path(__file__).parents[3] / "examples"
DESIGNS = sorted(EXAMPLES.glob("*/*.coax.yaml"))


def here_in(path: Path) -> DesignContext:
    return read_here(path, asked_for(as_of=date(2026, 11, 25)))


def answers(path: Path, rule: str, tag: str | None = None) -> RuleExplanation:
    return rule_here(rule, here_in(path), tag)


@pytest.mark.parametrize("path", DESIGNS, ids=lambda path: f"{path.parent.name}/{path.name}")
def test_the_answers_are_those_that_the_review_counts(path: Path) -> None:
    """Two ways to the same: the runner's counts, and the check asked once more thing by thing."""
    here = here_in(path)
    review = rule_here("plan.reference-known", here).review
    rules = sorted({finding.rule for finding in review.findings} | {"plan.tag-unique", "variance.used", "jacket.riser"})
    for rule in rules:
        if rule not in here.basis.rules:
            continue
        told = rule_here(rule, here)
        (tally,) = (one for one in review.tallies if one.rule == rule)
        counted = Counter(answer.outcome for answer in told.answers)
        assert {outcome: counted[outcome] for outcome in Outcome} == {
            Outcome.MET: tally.met,
            Outcome.NOT_MET: tally.not_met,
            Outcome.DOES_NOT_APPLY: tally.does_not_apply,
            Outcome.CANNOT_BE_JUDGED: tally.cannot_be_judged,
            Outcome.NEEDS_A_PERSON: tally.needs_a_person,
        }
        found = {finding.identity for answer in told.answers for finding in answer.findings}
        assert found == {finding.identity for finding in review.unfolded if finding.rule == rule}
        for answer in told.answers:
            assert bool(answer.findings) is (answer.outcome not in (Outcome.MET, Outcome.DOES_NOT_APPLY))


def test_what_does_not_apply_says_why() -> None:
    told = answers(EXAMPLES / "tern-cottage" / "as-drawn.coax.yaml", "jacket.listed-indoors")
    because = {one.subject.tag: one.because for one in told.answers if one.outcome is Outcome.DOES_NOT_APPLY}
    assert because["C-201"] == "no part of it runs indoors"
    assert all(because.values())


def test_a_tag_narrows_it() -> None:
    path = EXAMPLES / "tern-cottage" / "as-drawn.coax.yaml"
    (answer,) = answers(path, "bonding.conductor-length", "GB1").answers
    assert (answer.subject.tag, answer.outcome, len(answer.findings)) == ("GB1", Outcome.NOT_MET, 1)
    with pytest.raises(
        NoSuchSubject, match=r"is asked of every protector and metal mast, .* 'GB9'; did you mean 'GB1'\?"
    ):
        answers(path, "bonding.conductor-length", "GB9")


DESIGN = """\
coaxwright: 1
title: Sanderling Court (invented)
basis: {{rulesets: [{rulesets}], occupancy: multifamily dwelling}}
places: {{closet: {{}}, den: {{}}}}
devices:
  SP0:  {{kind: splitter, ways: 4, place: closet}}
typical:
  flat:
    devices:
      SP: {{kind: splitter, ways: 2, place: closet}}
      TV: {{kind: outlet, place: den}}
    cables:
      C-0: {{from: SP0, to: SP, type: series 6 quad, length: 9 m}}
      C-1: {{from: SP.out-1, to: TV, type: series 6 quad, length: 9 m}}
units:
  flat-1 to flat-3: {{like: flat}}
variances:
  - {{rule: level.unused-terminated, item: flat-2/SP, reason: capped on site, granted by: the owner}}
"""
RULE = "level.unused-terminated"


@pytest.fixture
def court(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    path = tmp_path / "court.coax.yaml"
    path.write_text(DESIGN.format(rulesets="us 2023"), encoding="utf-8")
    return path


def test_every_unit_has_its_own_answer_and_its_own_variance(court: Path) -> None:
    told = answers(court, RULE)
    by_tag = {one.subject.tag: one for one in told.answers}
    assert {"flat-1/SP", "flat-2/SP", "flat-3/SP"} <= set(by_tag)
    assert [by_tag[f"flat-{n}/SP"].findings[0].is_varied for n in (1, 2, 3)] == [False, True, False]
    assert len(answers(court, RULE, "flat/SP").answers) == 3
    assert len(answers(court, RULE, "flat-2/SP").answers) == 1


def test_why_a_rule_was_not_asked(court: Path, tmp_path: Path) -> None:
    court.write_text(DESIGN.format(rulesets="us 2023, x.coax-ruleset.yaml"), encoding="utf-8")
    (tmp_path / "x.coax-ruleset.yaml").write_text(
        "ruleset: x\nedition: 1\ntitle: x\nbuilds on: [trade 1]\ndocuments: {}\n"
        "off:\n  plan.tag-unique: {reason: labels are printed}\n",
        encoding="utf-8",
    )
    (tmp_path / "coax-settings.yaml").write_text(
        f"coaxwright settings: 1\nrules left out: {{{RULE}: capped by the owner}}\n", encoding="utf-8"
    )
    left, off = answers(court, RULE).skipped_rules, answers(court, "plan.tag-unique").skipped_rules
    assert left is not None
    assert off is not None
    assert (left.by, left.reason, left.origin) == (KeptBy.SETTINGS, "capped by the owner", "coax-settings.yaml:2")
    assert (off.by, off.reason, off.origin) == (KeptBy.RULESET, "labels are printed", "x 1")
    court.write_text(DESIGN.format(rulesets="trade 1"), encoding="utf-8")
    elsewhere = answers(court, "bonding.conductor-length").elsewhere
    assert elsewhere[:3] == ("us 2017", "us 2020", "us 2023")  # and later ones that set it
    assert set(elsewhere) <= {f"us {edition}" for edition in shipped_registry().editions("us")}
    with pytest.raises(RulesetError, match=r"did you mean 'bonding.conductor-length'"):
        answers(court, "bonding.conductor-lenght")


def test_it_is_judged_with_what_settings_add(court: Path, tmp_path: Path) -> None:
    court.write_text(DESIGN.format(rulesets="trade 1"), encoding="utf-8")
    (tmp_path / "coax-settings.yaml").write_text(
        "coaxwright settings: 1\nalso judged by: [us 2023]\n", encoding="utf-8"
    )
    assert answers(court, "bonding.conductor-length").elsewhere == ()
