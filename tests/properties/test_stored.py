"""Any review comes back from its stored form as an equal one, and reads the same in every form of a report."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

from coaxwright.checks import Citation, Correction, Subject
from coaxwright.cli.forms import Form, Paper, rendered
from coaxwright.findings import Amendment, Finding, Identity, Outcome, Place, Varied
from coaxwright.network import AuthorValues
from coaxwright.reviewing import Crash, DesignReview, Review, RuleTally, review
from coaxwright.reviewing.cache.serialization import Kept, read, written
from coaxwright.reviewing.pipeline import review_document
from coaxwright.rules import Caution, Severity, shipped_registry
from coaxwright.source import Position, Problem, ReadError, Span, read_text

EXAMPLES = Path(__file__).parents[2] / "examples"
DRAWN = (EXAMPLES / "gannet-house" / "as-drawn.coax.yaml").read_text(encoding="utf-8")

TEXTS = st.text(max_size=12) | st.sampled_from(["\udcff", "\x00", "null", "[]", "\u2028"])
NUMBERS = st.integers(0, 10**6)
SPANS = st.builds(Span, *[st.builds(Position, NUMBERS, NUMBERS, NUMBERS)] * 2)
PATHS = st.lists(TEXTS | st.integers(0, 99), max_size=4).map(tuple)
PLACES = st.builds(Place, TEXTS, SPANS, TEXTS, st.booleans())
CITATIONS = st.builds(Citation, TEXTS, TEXTS, TEXTS, TEXTS, TEXTS)


def some(each: st.SearchStrategy) -> st.SearchStrategy:
    return st.lists(each, max_size=2).map(tuple)


FINDINGS = st.builds(
    Finding,
    identity=st.builds(Identity, TEXTS, TEXTS, TEXTS, TEXTS, TEXTS, TEXTS),
    rule=TEXTS,
    title=TEXTS,
    severity=st.sampled_from(Severity),
    outcome=st.sampled_from(Outcome),
    subject=st.builds(Subject, TEXTS, TEXTS, PATHS, TEXTS, TEXTS, TEXTS, TEXTS),
    place=PLACES,
    found=TEXTS,
    required=TEXTS,
    reason=TEXTS,
    remedy=TEXTS,
    sources=some(CITATIONS),
    remarks=some(TEXTS),
    related=some(st.tuples(PLACES, TEXTS)),
    root=st.none() | PATHS,
    mend=st.none() | st.builds(Correction, PATHS, TEXTS, st.booleans()),
    amendment=st.none() | st.builds(Amendment, SPANS, TEXTS, TEXTS, some(TEXTS)),
    case=TEXTS,
    instances=some(TEXTS),
    due_later=TEXTS,
    excess=st.floats(allow_nan=False),
    varied=st.none() | st.builds(Varied, TEXTS, TEXTS, TEXTS, PLACES, st.booleans()),
)
DESIGNS = st.builds(
    DesignReview,
    file=TEXTS,
    problems=some(st.builds(Problem, TEXTS, SPANS, TEXTS, TEXTS, TEXTS)),
    design=TEXTS,
    title=TEXTS,
    named_rulesets=some(TEXTS),
    findings=some(FINDINGS),
    tallies=some(st.builds(RuleTally, TEXTS, NUMBERS, NUMBERS, NUMBERS, NUMBERS, NUMBERS)),
    crashes=some(st.builds(Crash, TEXTS, TEXTS, TEXTS)),
    cautions=some(st.builds(Caution, TEXTS, some(TEXTS), TEXTS, CITATIONS)),
    author_values=some(
        st.builds(AuthorValues, TEXTS, st.sampled_from(["cable class", "device"]), TEXTS, TEXTS, some(TEXTS))
    ),
    as_of=TEXTS,
    returns_at=st.sampled_from(Severity),
)


@given(st.lists(DESIGNS, min_size=1, max_size=2))
@settings(max_examples=150, deadline=None, suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large])
def test_any_review_comes_back_equal(designs: list[DesignReview]) -> None:
    kept = Kept()
    for design in designs:
        back = read(written(design), design.rules, kept)
        assert back == design
        assert repr(back) == repr(design)  # and 0 is not 0.0
        assert written(back) == written(design)


@cache
def _example() -> DesignReview:
    (design,) = review([EXAMPLES / "gannet-house" / "as-drawn.coax.yaml"], with_amendments=True).designs
    return design


@given(st.integers(0, len(DRAWN) - 1), st.integers(0, 30), st.sampled_from(["", "x", "[", "0", "é: ", "\U0001f4e1"]))
@settings(max_examples=60, deadline=None)
def test_the_review_of_a_mutated_design_reads_the_same_in_every_form(at: int, length: int, text: str) -> None:
    try:
        document = read_text(DRAWN[:at] + text + DRAWN[at + length :], "a.coax.yaml")
    except ReadError:
        assume(False)
    design = review_document(document, shipped_registry())
    back = read(written(design), design.rules)
    assert back == design
    for form in Form:
        paper = Paper(100)
        assert rendered(form, Review((back,)), paper) == rendered(form, Review((design,)), paper)


def test_the_example_has_what_is_easily_lost() -> None:
    findings = _example().findings
    assert any(finding.amendment for finding in findings)
    assert any(finding.related for finding in findings) or any(finding.root for finding in findings)
    assert {type(finding.excess) for finding in findings} == {float}
