"""What a reader is told once: what waits for one figure, and what says the very same of several things."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from coaxwright.findings import Finding, Folded, fold, gathered
from coaxwright.reviewing.pipeline import review_document
from coaxwright.rules import shipped_registry
from coaxwright.source import read_text

HEAD = """\
coaxwright: 1
title: Nothing
stage: as-built
basis: {rulesets: [trade 1], country: DE}
places: {hall: {}, shed: {exposure: outdoors}}
devices: {A: {kind: outlet, place: hall}}
cables:
"""


def of(cables: str, rule: str) -> list[Folded]:
    """What is shown of one rule's findings, gathered."""
    findings: tuple[Finding, ...] = review_document(read_text(HEAD + cables, "x"), shipped_registry()).findings
    return gathered(fold([finding for finding in findings if finding.rule == rule]))


def tags(shown: list[Folded]) -> list[tuple[str, ...]]:
    return [(one.finding.subject.tag, *(other.subject.tag for other in one.alike)) for one in shown]


CLASS = "jacket.reaction-to-fire"


def test_the_same_of_several_things_is_told_of_the_first() -> None:
    cables = "".join(f"  C-{n}: {{from: A, to: A, type: series 6, route: [hall: 3 m]}}\n" for n in (1, 2, 10))
    assert tags(of(cables, CLASS)) == [("C-1", "C-2", "C-10")]


def test_a_tag_is_left_out_as_a_whole_word_only() -> None:
    cables = "".join(f"  {tag}: {{from: A, to: A, type: series 6, route: [hall: 3 m]}}\n" for tag in "CD")
    assert tags(of(cables, CLASS)) == [("C", "D")]  # 'C' stands in no other word of what is said


def test_another_outcome_is_told_for_itself() -> None:
    cables = (
        "  C-1: {from: A, to: A, type: series 6, route: [hall: 3 m], fire class: Fca}\n"
        "  C-2: {from: A, to: A, type: series 6, route: [hall: 3 m]}\n"
    )
    assert tags(of(cables, CLASS)) == [("C-1",), ("C-2",)]


def test_other_words_are_told_for_themselves() -> None:
    cables = "".join(f"  C-{to}: {{from: A, to: {to}, type: series 6, length: 3 m}}\n" for to in ("X", "Y"))
    assert tags(of(cables, "plan.reference-known")) == [("C-X",), ("C-Y",)]


def changed(finding: Finding, **changes: object) -> Finding:
    from dataclasses import replace

    return replace(finding, **changes)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    "change",
    [
        pytest.param(lambda one: changed(one, due_later="as-built"), id="due later"),
        pytest.param(lambda one: changed(one, remarks=("Existing plant: advice only.",)), id="another remark"),
        pytest.param(lambda one: changed(one, outstanding=True), id="on the punch list"),
    ],
)
def test_what_stands_otherwise_is_told_for_itself(change: Callable[[Finding], Finding]) -> None:
    cables = "".join(f"  C-{n}: {{from: A, to: A, type: series 6, route: [hall: 3 m]}}\n" for n in (1, 2, 3))
    findings = [
        one for one in review_document(read_text(HEAD + cables, "x"), shipped_registry()).findings if one.rule == CLASS
    ]
    findings[1] = change(findings[1])
    assert tags(gathered(fold(findings))) == [("C-1", "C-3"), ("C-2",)]


def test_what_others_wait_on_is_told_for_itself() -> None:
    cables = "".join(f"  C-{n}: {{from: A, to: A, type: nonsense, route: [hall: 3 m]}}\n" for n in (1, 2))
    findings = review_document(read_text(HEAD + cables, "x"), shipped_registry()).findings
    shown = [one for one in gathered(fold(findings)) if one.waiting]
    assert {one.finding.subject.tag for one in shown} == {"C-1", "C-2"}
    assert all(not one.alike for one in shown)
