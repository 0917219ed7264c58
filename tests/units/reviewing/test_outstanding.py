"""A review held against a punch list, and a punch list brought up to a review."""

from __future__ import annotations

from dataclasses import replace
from itertools import permutations

import pytest

from coaxwright.findings import Finding, Identity, Outcome, Result, Varied
from coaxwright.findings.preexisting import FindingRank, FindingState
from coaxwright.findings.punch_list import Item, PunchList, items_of, punch_list_of
from coaxwright.reviewing import WHOLE_DESIGN, Crash, DesignReview, Review, judge
from coaxwright.reviewing.punch_list_match import match_punch_list, record
from coaxwright.rules import Severity, shipped_registry
from coaxwright.source import read_text

ROW = """\
coaxwright: 1
title: Dotterel Close 4 (invented)
job: DC-4
basis: {rulesets: [trade 1]}
places: {closet: {}, den: {}}
typical:
  flat:
    devices:
      SP: {kind: splitter, ways: 3, place: closet}
      TV: {kind: outlet, place: den}
    cables:
      C-1: {from: SP.out-1, to: TV, type: series 6}
units:
  flat-1 to flat-NUMBER: {like: flat}
"""
SHELF = shipped_registry()


def row(number: int = 4) -> DesignReview:
    return judge(read_text(ROW.replace("NUMBER", str(number)), "row.coax.yaml"), SHELF)


def listed(*items: Item) -> PunchList:
    empty = punch_list_of(read_text("coaxwright punch list: 1\noutstanding:\n", "row.coax-punch-list.yaml"))
    return replace(empty, items=items)


def all_of(design: DesignReview) -> PunchList:
    return listed(*(item for finding in design.findings for item in items_of(finding)))


def returning(review: Review) -> list[Finding]:
    return [finding for design in review.designs for finding in design.findings if finding.returns(design.returns_at)]


def test_what_is_on_the_list_is_shown_and_returns_nothing() -> None:
    plain = Review((row(),))
    assert plain.result is Result.RETURNED
    held = match_punch_list(plain, all_of(row()))
    assert (held.result, held.exit_status, returning(held)) == (Result.CLEAR, 0, [])
    assert len(list(held.findings)) == len(list(plain.findings))
    assert held.count_outstanding == sum(bool(list(items_of(one))) for one in plain.findings) > 0
    assert [held.count(severity) for severity in Severity] == [0, 0, 0]
    (against,) = held.punch_lists
    assert against.gone == ()
    unmarked = [replace(one, outstanding=False) for one in held.findings]
    assert unmarked == list(plain.findings)


def test_an_empty_list_changes_nothing_but_that_it_is_named() -> None:
    plain = Review((row(),))
    assert replace(match_punch_list(plain, listed()), punch_lists=()) == plain


def test_a_further_unit_returns_and_is_named() -> None:
    held = match_punch_list(Review((row(6),)), all_of(row(4)))
    assert held.result is Result.RETURNED
    several = [one for one in returning(held) if len(one.instances) == 6]
    assert several
    assert {one.new_in for one in several} == {("flat-5", "flat-6")}
    assert not any(one.outstanding for one in several)


def test_one_that_has_become_graver_is_new_and_says_what_it_was() -> None:
    known = all_of(row())
    softer = listed(
        *(replace(item, gravity=FindingRank(Severity.ADVICE, item.gravity.bearing)) for item in known.items)
    )
    held = match_punch_list(Review((row(),)), softer)
    assert held.result is Result.RETURNED
    for finding in returning(held):
        assert finding.remarks[-1] in ("On the punch list as advice.", "On the punch list as advice, cannot be judged.")
        assert not finding.new_in


def test_a_figure_that_was_missing_and_is_wrong_now_is_new() -> None:
    design = row()
    missing = next(one for one in design.findings if one.outcome is Outcome.CANNOT_BE_JUDGED and not one.due_later)
    known = listed(*items_of(missing))
    wrong = replace(design, findings=(replace(missing, outcome=Outcome.NOT_MET),))
    assert match_punch_list(Review((replace(design, findings=(missing,)),)), known).result is Result.CLEAR
    held = match_punch_list(Review((wrong,)), known)
    assert held.result is Result.RETURNED
    assert returning(held)[0].remarks[-1] == f"On the punch list as {missing.severity.value}, cannot be judged."


def test_what_is_varied_or_for_a_person_is_not_marked() -> None:
    design, known = row(), all_of(row())
    finding = next(one for one in design.findings if one.outcome is Outcome.NOT_MET)
    for changed in (
        replace(finding, varied=Varied("r", "g", "", finding.place)),
        replace(finding, outcome=Outcome.NEEDS_A_PERSON),
    ):
        (marked,) = match_punch_list(Review((replace(design, findings=(changed,)),)), known).findings
        assert marked == changed


class TestWhatIsGone:
    def gone(self, review: Review, known: PunchList) -> set[Identity]:
        (held,) = match_punch_list(review, known).punch_lists
        assert held is not None
        return {item.identity for item in held.gone}

    def test_what_is_mended(self) -> None:
        design = row()
        (mended, *rest) = design.findings
        review = Review((replace(design, findings=tuple(rest)),))
        assert self.gone(review, all_of(design)) == {item.identity for item in items_of(mended)}

    def test_nothing_of_designs_that_were_not_reviewed_or_not_understood(self) -> None:
        known = all_of(row())
        assert self.gone(Review((replace(row(), design="DC-5", findings=()),)), known) == set()
        assert self.gone(Review((DesignReview("row.coax.yaml"),)), known) == set()

    def test_nothing_of_a_check_that_failed_or_a_rule_that_was_not_asked(self) -> None:
        design = replace(row(), findings=())
        known = all_of(row())
        rules = {item.identity.rule for item in known.items}
        rule = min(rules)
        crashed = replace(design, crashes=(Crash(rule, "", "KeyError"),))
        unasked = replace(design, tallies=tuple(tally for tally in design.tallies if tally.rule != rule))
        for one in (crashed, unasked):
            assert {identity.rule for identity in self.gone(Review((one,)), known)} == rules - {rule}
        whole = replace(design, crashes=(Crash(WHOLE_DESIGN, "", "KeyError"),))
        assert self.gone(Review((whole,)), known) == set()

    def test_not_while_another_file_of_the_same_design_has_it(self) -> None:
        mended = replace(row(), findings=(), file="corrected.coax.yaml")
        for designs in permutations((row(), mended)):
            assert self.gone(Review(designs), all_of(row())) == set()


class TestRecording:
    def test_a_first_list_holds_all(self) -> None:
        done = record(Review((row(),)), None, prune=False)
        assert done.items == {item.identity: item.gravity for item in all_of(row()).items}
        assert (done.added, done.kept, done.gone, done.not_reviewed) == (len(done.items), 0, 0, 0)

    @pytest.mark.parametrize("prune", [False, True])
    def test_what_is_gone_stays_until_it_is_pruned(self, prune: bool) -> None:
        known = all_of(row())
        elsewhere = Item(
            Identity("DC-9", "plan.dead-end", "cable", "C-1"), FindingRank(Severity.ADVICE, FindingState.NOT_MET)
        )
        mended = replace(row(), findings=row().findings[1:])
        done = record(Review((mended,)), replace(known, items=(*known.items, elsewhere)), prune)
        gone = {item.identity for item in items_of(row().findings[0])}
        assert gone
        assert done.gone == len(gone)
        assert done.not_reviewed == 1
        assert elsewhere.identity in done.items
        assert (gone & set(done.items)) == (set() if prune else gone)

    def test_pruned_it_is_what_a_first_list_would_be(self) -> None:
        more, fewer = Review((row(6),)), Review((row(3),))
        before = listed(*(Item(*one) for one in record(more, None, prune=False).items.items()))
        assert record(fewer, before, prune=True).items == record(fewer, None, prune=False).items

    def test_lines_that_stand_twice_count_once_and_the_gravest_counts(self) -> None:
        first, *others = all_of(row()).items
        softer = replace(first, gravity=FindingRank(Severity.ADVICE, FindingState.CANNOT_BE_JUDGED))
        done = record(Review((row(),)), listed(softer, first, *others), prune=False)
        assert (done.doubled, done.graded_anew, done.items[first.identity]) == (1, 0, first.gravity)
        done = record(Review((row(),)), listed(softer, *others), prune=False)
        assert (done.doubled, done.graded_anew, done.items[first.identity]) == (0, 1, first.gravity)
