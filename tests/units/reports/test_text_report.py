"""The review as people read it. The snapshots are whole reports; after a change of wording, read them again."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import fields, replace
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pytest_snapshot.plugin import Snapshot

from coaxwright.checks import Subject
from coaxwright.findings import Finding, Place
from coaxwright.reports.excerpt import columns, excerpt, shown
from coaxwright.reports.text import render
from coaxwright.reviewing import WHOLE_DESIGN, Crash, DesignReview, Review
from coaxwright.reviewing.pipeline import review_document
from coaxwright.reviewing.review_request import ReviewRequest
from coaxwright.rules import shipped_registry
from coaxwright.source import Position, Span, read_text

EXAMPLE = Path(__file__).parents[3] / "examples" / "tern-cottage"
HERE = Path(__file__).parent
AS_DRAWN = (EXAMPLE / "as-drawn.coax.yaml").read_text(encoding="utf-8")
CORRECTED = (EXAMPLE / "corrected.coax.yaml").read_text(encoding="utf-8")


def reviewed(text: str, name: str = "plans/site.coax.yaml") -> DesignReview:
    return review_document(read_text(text, name), shipped_registry(), ReviewRequest(with_amendments=True))


def incomplete() -> DesignReview:
    design = reviewed(CORRECTED)
    return replace(design, crashes=(Crash("bonding.conductor-length", "device GB1", "KeyError: 'B-1'"),))


def failed() -> DesignReview:
    return DesignReview("plans/site.coax.yaml", crashes=(Crash(WHOLE_DESIGN, "", "RecursionError: too deep"),))


REVIEWS = {
    "returned": lambda: Review((reviewed(AS_DRAWN),)),
    "clear": lambda: Review((reviewed(CORRECTED),)),
    "not-understood": lambda: Review((reviewed(CORRECTED.replace("to: IBT", "too: IBT").replace("8 ft}", "8}")),)),
    "incomplete": lambda: Review((incomplete(),)),
    "mixed": lambda: Review(
        (failed(), incomplete(), reviewed(CORRECTED.replace("to: IBT", "too: IBT")), reviewed(CORRECTED))
    ),
    "figures-missing": lambda: Review(
        (reviewed(CORRECTED.replace(", length: 9 ft", "").replace("length: 4 ft", "note: x")),)
    ),
}


@pytest.fixture
def kept(snapshot: Snapshot) -> Snapshot:
    snapshot.snapshot_dir = HERE / "snapshots" / "text_report"
    return snapshot


@pytest.mark.parametrize("color", [False, True], ids=["plain", "color"])
@pytest.mark.parametrize("width", [80, 120])
@pytest.mark.parametrize("name", REVIEWS)
def test_whole_reports(
    name: str, width: int, color: bool, kept: Snapshot, without_counts: Callable[[str], str]
) -> None:
    text = render(REVIEWS[name](), width, color)
    assert max(columns(line) for line in without_color(text).splitlines()) <= width
    kept.assert_match(without_counts(text), f"{name}-{width}-{'color' if color else 'plain'}.txt")


def test_the_closing_line_counts_rules_and_items() -> None:
    review = Review((reviewed(CORRECTED),))
    (design,) = review.designs
    judged = sum(tally.met + tally.not_met + tally.cannot_be_judged + tally.needs_a_person for tally in design.tallies)
    assert f"nothing found; {len(design.rules)} rules checked on {judged} items\n" in render(review, 120, False)
    assert judged > len(design.rules) > 0


def without_color(text: str) -> str:
    return re.sub("\x1b\\[[0-9;]*m", "", text)


@pytest.mark.parametrize("name", REVIEWS)
def test_color_changes_nothing_but_color(name: str) -> None:
    review = REVIEWS[name]()
    assert without_color(render(review, 80, color=True)) == render(review, 80, color=False)


@pytest.mark.parametrize(("clear", "named"), [(5, True), (4, False)])
def test_of_many_designs_those_that_are_not_clear_are_named_with_the_total(clear: int, named: bool) -> None:
    others = (replace(reviewed(AS_DRAWN), file="plans/returned.coax.yaml"), failed())
    many = tuple(replace(reviewed(CORRECTED), file=f"plans/{number}.coax.yaml") for number in range(clear))
    total = render(Review((*many, *others))).partition(f"{clear + 2} designs: ")[2].partition("Cautions")[0]
    assert ("\n  returned: plans/returned.coax.yaml\n" in total) is named
    assert ("\n  incomplete: plans/site.coax.yaml\n" in total) is named
    assert "clear: " not in total


def test_a_review_never_says_that_something_is_safe_or_approved() -> None:
    for make in REVIEWS.values():
        text = render(make(), 1000).lower().replace("it does not say that an installation is safe or approved", "")
        for word in ("approved", "passed", "safe ", "compliant"):
            assert word not in text


def at(line: str, start: int, end: int, width: int = 74) -> tuple[str, str]:
    span = Span(Position(7, start + 1, 100 + start), Position(7, end + 1, 100 + end))
    return excerpt(Place("x", span, line), width)


MARKS = {
    "plain": (("  C-1: {from: A}", 9, 13), ("C-1: {from: A}", "       |--|")),
    "one character": (("a: b", 3, 4), ("a: b", "   |")),
    "two characters": (("a: bc", 3, 5), ("a: bc", "   ||")),
    "nothing, at the end": (("a:", 2, 2), ("a:", "  |")),
    "an empty line": (("", 0, 0), ("", "|")),
    "tabs": (("a:\tbc\td", 3, 5), ("a: bc d", "   ||")),
    "wide characters": (("貝塚: {to: 客間}", 9, 11), ("貝塚: {to: 客間}", "           |--|")),
    "combining marks": (("Mo\u0308we: {to: Mo\u0308we}", 12, 17), ("Mo\u0308we: {to: Mo\u0308we}", "           |--|")),
    "joined signs": (("a: \U0001f469\u200d\U0001f52c b", 7, 8), ("a: \U0001f469\u200d\U0001f52c b", "        |")),
    "turned text": (("a: \u202eb c", 6, 7), ("a: \N{REPLACEMENT CHARACTER}b c", "      |")),
}


@pytest.mark.parametrize("what", MARKS)
def test_the_mark_stands_under_what_it_means(what: str) -> None:
    arguments, expected = MARKS[what]
    assert at(*arguments) == expected


def test_a_part_of_many_lines_is_marked_to_the_end_of_its_first() -> None:
    span = Span(Position(7, 8, 100), Position(9, 3, 140))
    assert excerpt(Place("x", span, "  B-1: {from: GB1,   "), 74) == ("B-1: {from: GB1,   ", "     |---------|")


LONG = "  C-1: {from: A, " + "label: " + "x" * 90 + ", to: KITCHN, route: [" + "closet: 8 ft, " * 9 + "]}"


def test_a_long_line_is_cut_around_what_is_meant() -> None:
    start = LONG.index("KITCHN")
    line, mark = at(LONG, start, start + 6)
    assert line == "...xxxx, to: KITCHN, route: [closet: 8 ft, closet: 8 ft, closet: 8 ft, ..."
    assert mark == "             |----|"
    assert at(LONG, 2, 5)[0].startswith("C-1: {from: A")
    assert at(LONG, len(LONG) - 2, len(LONG))[0].endswith("closet: 8 ft, ]}")
    line, mark = at(LONG, 17, 17 + 97)
    assert line == f"...label: {'x' * 61}..."
    assert mark == f"   |{'-' * 66}|"


LINES = st.text(st.sampled_from("ab {}:\t客\u0308é\u200d\u202e\x1b\U0001f469"), max_size=200)


@given(LINES, st.integers(0, 200), st.integers(0, 200), st.integers(54, 120))
def test_an_excerpt_keeps_its_width_and_its_mark_in_it(line: str, start: int, length: int, width: int) -> None:
    start = min(start, len(line))
    text, mark = at(line, start, min(start + length, len(line)), width)
    assert columns(text) <= width
    assert columns(mark) <= max(width, columns(text) + 1)
    assert mark.strip(" |-") == ""
    assert mark.strip(" ") != ""
    assert not {"\t", "\x1b", "\u202e"} & set(text)
    if start < len(line) and columns(shown(line[start])) > 0:
        assert text_at(text, len(mark) - len(mark.lstrip(" "))) == shown(line[start]).replace("\t", " ")


def text_at(text: str, column: int) -> str:
    """The character that begins at a column of a terminal."""
    for index in range(len(text)):
        if columns(text[:index]) == column and columns(text[index]) > 0:
            return text[index]
    return ""


def a_finding() -> Finding:
    return next(finding for finding in reviewed(AS_DRAWN).findings if finding.rule == "protection.antenna-end")


def changed(finding: Finding, **changes: object) -> Review:
    return Review((replace(reviewed(AS_DRAWN), findings=(replace(finding, **changes),)),))  # type: ignore[arg-type]


def lines_of(review: Review, width: int) -> Iterator[str]:
    yield from render(review, width).splitlines()


def test_a_place_in_the_building_that_has_no_room_beside_the_rule_stands_below() -> None:
    finding = a_finding()
    subject = Subject(**{**vars_of(finding.subject), "where": "upper living room of the north wing, house"})
    lines = list(lines_of(changed(finding, subject=subject), 72))
    row = next(index for index, line in enumerate(lines) if "protection.antenna-end" in line)
    assert lines[row] == "  1 ADVICE  protection.antenna-end  ANT"
    assert lines[row + 1] == "    (upper living room of the north wing, house)"


def vars_of(subject: Subject) -> dict[str, object]:
    return {field.name: getattr(subject, field.name) for field in fields(subject)}


@pytest.mark.parametrize("where", ["title", "file"])
def test_no_text_of_an_author_can_rewrite_a_terminal(where: str) -> None:
    design = replace(reviewed(CORRECTED), **{where: "a \x1b[2J\u202eb\r\udcff"})  # type: ignore[arg-type]
    text = render(Review((design,)), 80)
    assert not {"\x1b", "\u202e", "\r", "\udcff"} & set(text)
    assert (
        "a \N{REPLACEMENT CHARACTER}[2J\N{REPLACEMENT CHARACTER}b\N{REPLACEMENT CHARACTER}\N{REPLACEMENT CHARACTER}"
        in text
    )


def test_wide_words_are_wrapped_by_their_columns() -> None:
    text = render(changed(a_finding(), found="客間 " * 40), 80)
    assert max(columns(line) for line in text.splitlines()) <= 80
    assert text.count("客間") == 40
