"""An amendment is a splice that was tried: it removes its finding, adds none, and leaves every other byte alone."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coaxwright.amend import prove, scalar
from coaxwright.checks import Correction
from coaxwright.findings import Finding, Identity
from coaxwright.reviewing.pipeline import review_document
from coaxwright.reviewing.review_request import ReviewRequest
from coaxwright.rules import shipped_registry
from coaxwright.source import Document, Position, Span, Splice, apply, read_text

TEXT = (Path(__file__).parents[3] / "examples" / "tern-cottage" / "as-drawn.coax.yaml").read_text(encoding="utf-8")


def span(start: int, end: int) -> Span:
    return Span(Position(1, start + 1, start), Position(1, end + 1, end))


def amended(text: str) -> tuple[Document, tuple[Finding, ...]]:
    document = read_text(text, "x")
    review = review_document(document, shipped_registry(), ReviewRequest(with_amendments=True))
    assert review.problems == ()
    return document, tuple(finding for finding in review.findings if finding.amendment is not None)


def test_splices_are_made_whatever_their_order() -> None:
    splices = [Splice(4, 5, "E"), Splice(0, 1, "AA"), Splice(2, 2, "-")]
    assert apply("abcdef", splices) == apply("abcdef", splices[::-1]) == "AAb-cdEf"
    assert apply("abc", []) == "abc"


def test_splices_that_overlap_are_refused() -> None:
    with pytest.raises(ValueError, match="overlap"):
        apply("abcdef", [Splice(0, 3, "x"), Splice(2, 4, "y")])


@given(
    st.text(
        st.characters(
            codec="utf-8", exclude_categories=("Cc", "Cs", "Zl", "Zp"), exclude_characters="\ufeff\ufffe\uffff"
        ),
        min_size=1,
        max_size=40,
    )
)
def test_a_text_is_read_back_as_it_was_wherever_it_stands(value: str) -> None:
    assert read_text(f"a: {scalar(value)}\n", "x").data == {"a": value}
    assert read_text(f"[b, {scalar(value)}, {{c: {scalar(value)}}}]\n", "x").data == ["b", value, {"c": value}]


@pytest.mark.parametrize(
    "value",
    [
        "no",
        "on",
        "012",
        "1e3",
        "null",
        "~",
        "12:30:45",
        "true",
        "6'4\"",
        "a: b",
        "- a",
        "#a",
        "5 MHz to 42 MHz",
        "?",
        "?x's",
        ":0",
    ],
)
def test_a_text_that_looks_like_something_else_stays_a_text(value: str) -> None:
    assert read_text(f"{{a: {scalar(value)}}}\n", "x").data == {"a": value}


def test_what_the_example_is_offered() -> None:
    _, findings = amended(TEXT)
    assert {(one.rule, one.amendment.written, one.amendment.text) for one in findings if one.amendment} >= {
        ("plan.reference-known", "KITCHN", "KITCHEN"),
        ("jacket.outdoor-rated", "series 6 quad copper", "series 6 quad copper outdoor"),
    }


LOOKS = {
    "as it is": TEXT,
    "CR LF": TEXT.replace("\n", "\r\n"),
    "a sheet that looks like a number": TEXT.replace("sheet: T-1", "sheet: 012"),
    "quoted": TEXT.replace("to: KITCHN", "to: 'KITCHN'"),
    "a tag that looks like a number": TEXT.replace("BED", "101"),
    "byte-order mark": "\ufeff" + TEXT,
}


@pytest.mark.parametrize("look", LOOKS)
def test_an_amendment_does_what_it_promises(look: str) -> None:
    document, findings = amended(LOOKS[look])
    before = {finding.identity for finding in review_document(document, shipped_registry()).findings}
    assert len(findings) == len(amended(TEXT)[1])
    for finding in findings:
        assert finding.amendment is not None
        at = finding.amendment.span
        assert document.text[at.start.index : at.end.index] == finding.amendment.written
        text = apply(document.text, [Splice.of(at, finding.amendment.text)])
        assert text[: at.start.index] == document.text[: at.start.index]
        assert text.endswith(document.text[at.end.index :])
        after = {one.identity for one in review_document(read_text(text, "x"), shipped_registry()).findings}
        assert finding.identity not in after
        assert after < before


def a_finding(document: Document, mend: Correction | None) -> tuple[Finding, frozenset[Identity]]:
    findings = review_document(document, shipped_registry()).findings
    (finding,) = (one for one in findings if one.rule == "plan.reference-known")
    return replace(finding, mend=mend), frozenset(one.identity for one in findings)


MEND = Correction(("cables", "C-104", "to"), "KITCHEN")


def test_nothing_is_offered_that_was_not_proven() -> None:
    document = read_text(TEXT, "x")
    finding, known = a_finding(document, MEND)
    rest = known - {finding.identity}
    stranger = Identity("d", "r", "k", "s")
    assert prove(document, finding, known, lambda copy: rest) is not None
    assert prove(document, finding, known, lambda copy: known) is None, "the finding is still there"
    assert prove(document, finding, known, lambda copy: rest | {stranger}) is None, "a new one came"
    assert prove(document, finding, known, lambda copy: None) is None, "the copy is not understood"


def test_nothing_is_offered_that_mends_one_unit_and_adds_to_another() -> None:
    document = read_text(TEXT, "x")
    finding, known = a_finding(document, MEND)
    subject = replace(finding.subject, path=("cables", "u-1/C-104"))
    finding = replace(finding, subject=subject, instances=("u-1", "u-2"))
    first, second = finding.identities
    third = replace(first, subject="u-3/C-104")
    rest = known - {finding.identity}
    assert prove(document, finding, rest | {first, second}, lambda copy: rest) is not None
    assert prove(document, finding, rest | {first, second}, lambda copy: rest | {second}) is None, "one is left"
    assert prove(document, finding, rest | {first, second}, lambda copy: rest | {third}) is None, "another came"


def test_nothing_is_offered_where_nothing_can_be_mended() -> None:
    document = read_text(TEXT, "x")
    finding, known = a_finding(document, None)
    assert prove(document, finding, known, lambda copy: frozenset()) is None


def test_a_key_is_written_anew_in_its_place() -> None:
    document = read_text(TEXT, "x")
    finding, known = a_finding(document, Correction(("devices", "BED"), "BEDROOM", at_key=True))
    seen: list[Document] = []

    def judge(copy: Document) -> frozenset[Identity]:
        seen.append(copy)
        return frozenset()

    amendment = prove(document, finding, known, judge)
    assert amendment is not None
    assert (amendment.written, amendment.text) == ("BED", "BEDROOM")
    assert "  BEDROOM:     {kind: outlet" in seen[0].text


def test_a_key_that_is_taken_is_not_offered() -> None:
    document = read_text(TEXT, "x")
    finding, known = a_finding(document, Correction(("devices", "BED"), "KITCHEN", at_key=True))
    assert prove(document, finding, known, lambda copy: frozenset()) is None
