"""The identity, the order and the folding of findings."""

from __future__ import annotations

from dataclasses import fields, replace
from itertools import permutations
from pathlib import Path

import pytest

from coaxwright.findings import Finding, Identity, Outcome, fold
from coaxwright.reviewing import judge
from coaxwright.rules import Severity, shipped_registry
from coaxwright.source import read_text

TEXT = (Path(__file__).parents[3] / "examples" / "tern-cottage" / "as-drawn.coax.yaml").read_text(encoding="utf-8")


def findings_of(text: str) -> tuple[Finding, ...]:
    return judge(read_text(text, "x"), shipped_registry()).findings


FINDINGS = findings_of(TEXT)
FOLDED = judge(read_text(TEXT, "x"), shipped_registry()).folded
FIRST = FINDINGS[0]


def test_an_identity_holds_no_line_no_value_and_no_file() -> None:
    assert {field.name for field in fields(Identity)} == {"design", "rule", "kind", "subject", "second", "facet"}
    moved = findings_of("# a line above\n" + TEXT.replace("length: 26 ft", "length: 31 ft"))
    assert [one.identity for one in moved] == [one.identity for one in FINDINGS]
    assert [one.place for one in moved] != [one.place for one in FINDINGS]


def test_every_finding_of_a_design_has_its_own_identity_and_fingerprint() -> None:
    assert (
        len({one.identity for one in FINDINGS}) == len({one.identity.fingerprint for one in FINDINGS}) == len(FINDINGS)
    )


@pytest.mark.parametrize("part", [field.name for field in fields(Identity)])
def test_a_fingerprint_tells_every_part_and_where_it_stands(part: str) -> None:
    identity = Identity("d", "r", "k", "s", "t", "f")
    assert replace(identity, **{part: "x"}).fingerprint != identity.fingerprint
    assert Identity("ab", "c", "k", "s").fingerprint != Identity("a", "bc", "k", "s").fingerprint


def test_a_fingerprint_stays_what_it_was() -> None:
    # Punch lists that hold it would not find again what they know.
    assert (
        Identity("QH-07/T-1", "bonding.conductor-length", "device", "GB1").fingerprint
        == "0f4923d9d3d5a17525283e579e59db4f"
    )


def test_a_finding_of_several_units_has_an_identity_for_each() -> None:
    assert FIRST.identities == (FIRST.identity,)
    subject = replace(FIRST.subject, path=("cables", "flat-01/C-1"))
    identity = replace(FIRST.identity, subject="flat/C-1")
    told = replace(FIRST, subject=subject, identity=identity, instances=("flat-01", "flat-02"))
    assert [one.subject for one in told.identities] == ["flat-01/C-1", "flat-02/C-1"]
    assert {replace(one, subject="flat/C-1") for one in told.identities} == {identity}


def test_findings_have_one_order_by_place() -> None:
    backwards = FINDINGS[::-1]
    ordered = sorted(backwards, key=lambda one: one.order)
    assert tuple(ordered) == FINDINGS
    places = [(one.place.span.start.line, one.place.span.start.column) for one in FINDINGS]
    assert places == sorted(places)


def waiting(
    subject: str, severity: Severity, line: int, root: tuple[str, ...] = ("cables", "C-1", "length")
) -> Finding:
    span = FIRST.place.span
    start = replace(span.start, line=line)
    return replace(
        FIRST,
        identity=replace(FIRST.identity, subject=subject),
        severity=severity,
        outcome=Outcome.CANNOT_BE_JUDGED,
        root=root,
        place=replace(FIRST.place, span=replace(span, start=start)),
    )


def test_what_waits_for_one_figure_is_shown_once_under_the_most_serious() -> None:
    advice, violation, deficiency = (
        waiting("a", Severity.ADVICE, 3),
        waiting("b", Severity.VIOLATION, 5),
        waiting("c", Severity.DEFICIENCY, 4),
    )
    for findings in permutations((advice, violation, deficiency)):
        (folded,) = fold(findings)
        assert folded.finding == violation
        assert folded.waiting == [deficiency, advice]


def test_what_waits_for_a_broken_thing_stands_under_it() -> None:
    broken = replace(waiting("x", Severity.DEFICIENCY, 9), outcome=Outcome.NOT_MET)
    waits = waiting("y", Severity.VIOLATION, 1)
    (folded,) = fold([waits, broken])
    assert (folded.finding, folded.waiting) == (broken, [waits])


def test_different_figures_and_different_files_are_not_folded() -> None:
    one = waiting("a", Severity.ADVICE, 3)
    other_figure = waiting("b", Severity.ADVICE, 4, ("cables", "C-2", "length"))
    other_file = replace(one, place=replace(one.place, file="y"))
    assert [folded.finding for folded in fold([other_file, other_figure, one])] == [one, other_figure, other_file]
    assert all(folded.waiting == [] for folded in fold([one, other_figure, other_file]))


def test_folding_loses_no_finding() -> None:
    told = [one for folded in fold(FINDINGS, FOLDED) for one in (folded.finding, *folded.waiting, *folded.deferred)]
    assert sorted(told, key=lambda one: one.order) == sorted([*FINDINGS, *FOLDED], key=lambda one: one.order)
    waiting = [one for one in FINDINGS if one.outcome is Outcome.CANNOT_BE_JUDGED]
    assert len(fold(FINDINGS, FOLDED)) == len(FINDINGS) - len(waiting)
