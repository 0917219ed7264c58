"""A real design, mutated: an error inside what was changed, or the same findings as before. Never a crash or a hang."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from coaxwright.checks import all_checks
from coaxwright.findings import Outcome
from coaxwright.reviewing import DesignReview
from coaxwright.reviewing.pipeline import review_document
from coaxwright.rules import shipped_registry
from coaxwright.source import Document, ReadError, read_text

EXAMPLE = Path(__file__).parents[2] / "examples" / "tern-cottage" / "as-drawn.coax.yaml"
TEXT = EXAMPLE.read_text(encoding="utf-8")
DOCUMENT = read_text(TEXT, "x")
PATHS = [path for path in DOCUMENT.order() if path]
SCALARS = [
    path
    for path in PATHS
    if TEXT[(span := DOCUMENT.span(path)).start.index : span.end.index].find("\n") < 0
    and TEXT[span.start.index] not in "{["
]
FIELD_KEYS = [path for path in PATHS if isinstance(path[-1], str) and len(path) in (1, 3) and path[0] != "places"]
UNFILLED = re.compile(
    "{("
    + "|".join({name for check in all_checks().values() for names in check.cases.values() for name in names})
    + ")}"
)
"""A value of a check that a wording left out; braces that the author wrote are the author's."""
GARBAGE = st.sampled_from(["[[1], 2]", "{x: 1}", "null", "[[]]", "{}"])


def judged(text: str) -> DesignReview | ReadError:
    try:
        return review_document(read_text(text, "x"), shipped_registry())
    except ReadError as error:
        return error


def outcomes(review: DesignReview) -> list[tuple[str, str, Outcome, str]]:
    return sorted(
        (finding.identity.fingerprint, finding.rule, finding.outcome, finding.found) for finding in review.findings
    )


ORIGINAL = judged(TEXT)
assert isinstance(ORIGINAL, DesignReview)
BEFORE = outcomes(ORIGINAL)


@given(st.sampled_from(SCALARS), GARBAGE)
@settings(max_examples=150, deadline=None)
def test_a_value_turned_into_something_else_is_told_at_its_place(path: tuple[str | int, ...], garbage: str) -> None:
    assume((path[-1], garbage) != ("lightning system", "{}"))  # a group that says no more than that there is one
    span = DOCUMENT.span(path)
    after = judged(TEXT[: span.start.index] + garbage + TEXT[span.end.index :])
    assert isinstance(after, DesignReview)
    assert len(after.problems) >= 1
    # What the change has left with nothing, or without its length, is told at its own key.
    start = DOCUMENT.span(path, of_key=True).start.index
    for problem in after.problems:
        assert start <= problem.span.start.index <= span.start.index + len(garbage)


@given(st.sampled_from(FIELD_KEYS), st.sampled_from(["zz", "x-", "Q"]))
@settings(max_examples=100, deadline=None)
def test_a_mistyped_field_is_told_at_the_field(path: tuple[str | int, ...], prefix: str) -> None:
    span = DOCUMENT.span(path, of_key=True)
    if path[0] in ("places", "buildings", "devices", "cables", "bonding", "services", "basis") and len(path) == 1:
        mutated_end = DOCUMENT.span(path).end.index + len(prefix)  # a whole section loses its name
    else:
        mutated_end = span.end.index + len(prefix)
    after = judged(TEXT[: span.start.index] + prefix + TEXT[span.start.index :])
    assert isinstance(after, DesignReview)
    assert after.problems
    for problem in after.problems:
        owner = DOCUMENT.span(path[:-1], of_key=True)  # a field that must be there is missed at its owner
        inside = span.start.index <= problem.span.start.index <= mutated_end
        assert inside or problem.span.start.index == owner.start.index


NEUTRAL = {
    "comments after every line": lambda text: re.sub(r"(?m)(?<!E)$", "   # é", text),
    "blank lines": lambda text: text.replace("\n", "\n\n"),
    "CR LF": lambda text: text.replace("\n", "\r\n"),
    "byte-order mark": lambda text: "\ufeff" + text,
    "no final newline": lambda text: text.rstrip("\n"),
    "quoted tags": lambda text: text.replace("to: IBT", 'to: "IBT"').replace("from: SP1", "from: 'SP1'"),
    "deeper indentation": lambda text: re.sub(r"(?m)^( +)", r"\1\1", text),
    "ohm sign": lambda text: text.replace("50 ohm", "50 \N{OHM SIGN}").replace("µV", "uV"),
    "another title and revision": lambda text: re.sub(r"(?m)^(title|revision): .*$", r"\1: changed", text),
}


@pytest.mark.parametrize("how", NEUTRAL)
def test_a_neutral_change_leaves_every_finding_as_it_was(how: str) -> None:
    changed = NEUTRAL[how](TEXT)
    assert changed != TEXT
    after = judged(changed)
    assert isinstance(after, DesignReview)
    told = [(a, b, c, found.replace("\N{OHM SIGN}", "ohm")) for a, b, c, found in outcomes(after)]
    assert told == BEFORE


def _sections(text: str) -> list[str]:
    return re.split(r"(?m)^(?=[a-z]+:)", text)


@given(st.randoms(use_true_random=False))
@settings(max_examples=40, deadline=None)
def test_the_order_of_sections_and_entries_does_not_show(random: object) -> None:
    head, *sections = _sections(TEXT)
    shuffled = []
    for section in sections:
        first, *entries = re.split(r"(?m)^(?=  \S)", section)
        random.shuffle(entries)  # type: ignore[attr-defined]
        shuffled.append(first + "".join(entry.rstrip("\n") + "\n" for entry in entries))
    random.shuffle(shuffled)  # type: ignore[attr-defined]
    after = judged(head + "".join(shuffled))
    assert isinstance(after, DesignReview)
    assert not after.problems
    assert outcomes(after) == BEFORE


@given(st.integers(0, len(TEXT) - 1), st.integers(0, 30), st.text("{}[]:,-'\"#&*!|>%@` \n\t01aé", max_size=8))
@settings(max_examples=300, deadline=None)
def test_any_change_at_all_gives_a_review_or_an_error_inside_the_text(at: int, cut: int, put: str) -> None:
    text = TEXT[:at] + put + TEXT[at + cut :]
    after = judged(text)
    if isinstance(after, ReadError):
        assert 0 <= after.problem.span.start.index <= len(text)
        return
    assert after.crashes == ()
    for problem in after.problems:
        assert 0 <= problem.span.start.index <= problem.span.end.index <= len(text)
    for finding in after.findings:
        assert finding.place.span.start.index <= finding.place.span.end.index <= len(text)
        assert not UNFILLED.search(finding.found)


def test_document_is_the_one_under_test() -> None:
    assert isinstance(DOCUMENT, Document)
    assert len(BEFORE) == 14
