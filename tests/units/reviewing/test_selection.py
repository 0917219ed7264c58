"""A part of the rules: chosen and left out by name or topic, and what is said of it."""

from __future__ import annotations

from pathlib import Path

import pytest

from coaxwright.findings import Result
from coaxwright.reviewing import KeptBy, SelectionError, review
from coaxwright.rules import combine, shipped_registry

EXAMPLE = Path(__file__).parents[3] / "examples" / "tern-cottage"
AS_DRAWN = EXAMPLE / "as-drawn.coax.yaml"
CORRECTED = EXAMPLE / "corrected.coax.yaml"
BOUND = frozenset(combine(["us 2023"], shipped_registry()).rules)
BONDING = {rule for rule in BOUND if rule.startswith("bonding.")}


def asked(only: tuple[str, ...] = (), leave_out: tuple[str, ...] = ()) -> set[str]:
    (design,) = review([CORRECTED], only=only, leave_out=leave_out).designs
    names = {tally.rule for tally in design.tallies}
    assert {rule.name for rule in design.rules} == names
    assert {one.rule for one in design.scope.skipped_rules} == BOUND - names
    assert {one.by for one in design.scope.skipped_rules} <= {KeptBy.COMMAND}
    return names


def test_by_rule_and_by_topic() -> None:
    assert asked() == BOUND
    assert asked(only=("bonding",)) == BONDING
    assert asked(only=("bonding.conductor-length",)) == {"bonding.conductor-length"}
    assert asked(only=("bonding.conductor-length", "bonding")) == BONDING
    assert asked(leave_out=("bonding", "plan.loop-free")) == BOUND - BONDING - {"plan.loop-free"}
    assert asked(("bonding",), ("bonding.conductor-length",)) == BONDING - {"bonding.conductor-length"}


def test_one_word_is_a_list_of_one() -> None:
    assert {tally.rule for tally in review([CORRECTED], only="bonding").designs[0].tallies} == BONDING
    assert review([CORRECTED], reviewers_terms="us 2020").designs[0].scope.reviewers_terms == ("us 2020",)


def test_findings_are_those_of_the_whole_review() -> None:
    whole, part = review([AS_DRAWN]), review([AS_DRAWN], only=["bonding"])
    assert list(part.findings) == [finding for finding in whole.findings if finding.rule in BONDING]
    assert list(part.findings) != []


def test_a_part_is_marked_as_one() -> None:
    assert not review([CORRECTED]).designs[0].scope.is_part
    (design,) = review([CORRECTED], only=["bonding"], leave_out=["bonding.equipotential"]).designs
    assert design.scope.is_part
    assert (design.scope.only, design.scope.leave_out) == (("bonding",), ("bonding.equipotential",))


def test_nothing_asked_is_not_clear() -> None:
    done = review([CORRECTED], only=["bonding.equipotential"], leave_out=["bonding"])
    assert (done.result, done.exit_status) == (Result.INCOMPLETE, 3)


def test_a_rule_of_another_ruleset_asks_nothing_of_a_design_that_names_it_not(tmp_path: Path) -> None:
    """A name that some ruleset of the program has is no mistake; but to have asked nothing is not to be clear."""
    path = tmp_path / "a.coax.yaml"
    path.write_text(CORRECTED.read_text(encoding="utf-8").replace("us 2023", "trade 1"), encoding="utf-8")
    assert review([path, CORRECTED], only=["bonding.conductor-length"]).exit_status == 3


@pytest.mark.parametrize(
    ("name", "told"),
    [
        ("bondng", "there is no rule or topic 'bondng'; did you mean 'bonding'?"),
        ("bonding.conductor-lenght", "did you mean 'bonding.conductor-length'?"),
        ("entry.filter", "did you mean 'indata.entry-filter'?"),
        ("Bonding", "did you mean 'bonding'?"),
        ("xyzzy", "there is no rule or topic 'xyzzy'; coaxwright cite lists all"),
        ("", "there is no rule or topic ''"),
    ],
)
def test_a_name_that_nobody_has_is_refused_with_the_nearest(name: str, told: str) -> None:
    for words in ({"only": [name]}, {"leave_out": ["plan", name]}):
        with pytest.raises(SelectionError) as error:
            review([CORRECTED], **words)
        assert told in str(error.value)


VARIED = """\
coaxwright: 1
title: Turnstone Wharf 41 (invented)
basis: {rulesets: [trade 1]}
places: {closet: {}, den: {}}
devices:
  SP1: {kind: splitter, ways: 2, place: closet}
  TV1: {kind: outlet, place: den}
  TV2: {kind: outlet, place: den}
cables:
  C-1: {from: SP1, to: TV1, type: series 6, length: 25 m, route: [closet: 3 m, den: 9 m]}
  C-2: {from: SP1, to: TV2, type: series 6, length: 9 m}
variances:
  - {rule: plan.length-stated, item: C-1, reason: opened in spring, granted by: the owner}
  - {rule: plan.length-stated, item: C-2, reason: opened in spring, granted by: the owner}
  - {rule: variance.used, item: C-2, reason: none, granted by: the owner}
"""


def test_a_variance_of_a_rule_that_was_not_asked_is_not_without_use(tmp_path: Path) -> None:
    path = tmp_path / "a.coax.yaml"
    path.write_text(VARIED, encoding="utf-8")

    def about_variances(**words: list[str]) -> list[tuple[str, str]]:
        (design,) = review([path], **words).designs
        return [(one.rule, one.identity.second) for one in design.findings if one.rule.startswith("variance.")]

    misnamed = ("variance.named", "variance.used")
    assert about_variances() == [("variance.used", "plan.length-stated"), misnamed]
    assert about_variances(leave_out=["plan.length-stated"]) == [misnamed]
    assert about_variances(only=["variance"]) == [misnamed]
    # what was not asked is still a rule that there is, and a rule about variances one from which none is granted
    assert about_variances(only=["variance.named"]) == [misnamed]


def test_an_amendment_adds_no_finding_of_a_rule_that_was_not_asked() -> None:
    """The amendments of a part of the rules are those of all of them."""
    whole = {f.identity: f.amendment for f in review([AS_DRAWN], with_amendments=True).findings if f.amendment}
    for rule in {identity.rule for identity in whole}:
        part = review([AS_DRAWN], with_amendments=True, only=[rule])
        assert {f.identity: f.amendment for f in part.findings if f.amendment} == {
            identity: amendment for identity, amendment in whole.items() if identity.rule == rule
        }
    assert whole
