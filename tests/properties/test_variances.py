"""A variance touches what it covers, and nothing else; taken out again, it leaves no trace."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from coaxwright.findings import Finding, Identity, VarianceTerms
from coaxwright.reviewing import DesignReview, judge
from coaxwright.reviewing.reading import read_design
from coaxwright.reviewing.review_request import ReviewRequest
from coaxwright.rules import Severity, shipped_registry
from coaxwright.source import Document, read_text

EXAMPLES = Path(__file__).parents[2] / "examples"
DAY = date(2026, 7, 1)
SHELF = shipped_registry()
TEXTS = {
    place: (EXAMPLES / place / "as-drawn.coax.yaml").read_text(encoding="utf-8")
    for place in ("tern-cottage", "dunnock-cottage")
}
UNITS = """\
coaxwright: 1
title: Ruff Row 9 (invented)
basis: {rulesets: [us 2023]}
places: {closet: {}, den: {}}
typical:
  flat:
    devices:
      SP: {kind: splitter, ways: 3, place: closet}
      TV: {kind: outlet, place: den}
    cables:
      C-1: {from: SP.out-1, to: TV, type: series 6}
units:
  flat-1 to flat-4: {like: flat}
"""
TEXTS["units"] = UNITS


def reviewed(text: str, honoured: bool = True) -> DesignReview:
    done = judge(read_text(text, "x.coax.yaml"), SHELF, ReviewRequest(variances=VarianceTerms(DAY, honoured)))
    assert done.problems == ()
    return done


PLAIN = {name: reviewed(text) for name, text in TEXTS.items()}


def each(done: DesignReview) -> dict[Identity, Finding]:
    """Every finding, once for each unit that it holds for, without what was said of variances."""
    found = [one for one in done.unfolded if not one.rule.startswith("variance.")]
    every = [(identity, one) for one in found for identity in one.identities]
    assert len(dict(every)) == len(every)
    return dict(every)


def core(finding: Finding) -> tuple[object, ...]:
    """What a variance may not change; the words of a finding of several units are those of one of them."""
    return (
        finding.rule,
        finding.severity,
        finding.outcome,
        finding.case,
        finding.place,
        finding.reason,
        finding.sources,
    )


@st.composite
def designs(draw: st.DrawFn) -> tuple[str, str]:
    """One of the designs, and the variances that it is given, most of them from rules and for things of its own."""
    name = draw(st.sampled_from(sorted(TEXTS)))
    identities = sorted(each(PLAIN[name]))
    rules = st.sampled_from(sorted({one.rule for one in identities} | {"plan.no-such", "level.outlet-window"}))
    items = st.sampled_from(sorted({one.subject for one in identities} | {"nothing", "flat/SP", "flat/C-1"}))
    ends = st.sampled_from(["", ", until: 2026-07-01", ", until: 2026-06", ", until: 2025"])
    facets = st.sampled_from(["", "", ", facet: mast", ", facet: house"])
    entries = draw(st.lists(st.tuples(rules, items, facets, ends), min_size=1, max_size=6))
    lines = [
        f"  - {{rule: {rule}, item: {item}{facet}, reason: r, granted by: g{end}}}\n"
        for rule, item, facet, end in entries
    ]
    return name, f"variances:\n{''.join(lines)}"


@given(designs())
@settings(max_examples=60, deadline=None)
def test_a_variance_changes_nothing_but_what_it_covers(given_design: tuple[str, str]) -> None:
    """What it was folded under, it may stand beside afterwards."""
    name, block = given_design
    before, after = each(PLAIN[name]), each(reviewed(TEXTS[name] + block))
    assert before.keys() == after.keys()
    for identity, finding in after.items():
        assert core(finding) == core(before[identity])
        if finding.varied is None:
            assert finding.returns(Severity.ADVICE) == before[identity].returns(Severity.ADVICE)
            if not finding.instances:
                assert replace(finding, folded_under=before[identity].folded_under) == before[identity]
        else:
            assert not finding.returns(Severity.ADVICE)


@given(designs())
@settings(max_examples=30, deadline=None)
def test_one_that_is_not_honoured_returns_what_was_returned_before(given_design: tuple[str, str]) -> None:
    name, block = given_design
    before, after = each(PLAIN[name]), each(reviewed(TEXTS[name] + block, honoured=False))
    assert {one: found.returns(Severity.ADVICE) for one, found in after.items()} == {
        one: found.returns(Severity.ADVICE) for one, found in before.items()
    }


@given(designs())
@settings(max_examples=30, deadline=None)
def test_taken_out_again_it_leaves_the_review_as_it_was(given_design: tuple[str, str]) -> None:
    name, block = given_design
    with_it = TEXTS[name] + block
    reviewed(with_it)
    again = reviewed(with_it.removesuffix(block))
    # Rules are bound to functions, anew for each run.
    assert replace(again, rules=()) == replace(PLAIN[name], rules=())


@given(designs())
@settings(max_examples=30, deadline=None)
def test_every_entry_covers_something_or_is_told(given_design: tuple[str, str]) -> None:
    name, block = given_design
    text = TEXTS[name] + block
    done = reviewed(text)
    used = {one.varied.place.span.start.line for one in done.findings if one.varied is not None}
    told = {one.place.span.start.line for one in done.findings if one.rule.startswith("variance.")}
    related = {
        place.span.start.line for one in done.findings if one.rule == "variance.single" for place, _ in one.related
    }
    first = TEXTS[name].count("\n") + 2
    silent = set(range(first, text.count("\n") + 1)) - used - told - related
    for line in silent:  # everything that it covers is covered more closely by another one
        entry = text.splitlines()[line - 1]
        rule = entry.split("rule: ")[1].split(",")[0]
        assert any(one.rule == rule and one.varied is not None for one in done.findings)


@pytest.mark.parametrize("place", sorted(path.parent.name for path in EXAMPLES.glob("*/as-drawn.coax.yaml")))
def test_every_finding_of_a_site_can_be_varied_by_the_tag_that_it_bears(
    place: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(EXAMPLES / place)
    document = read_design(Path("as-drawn.coax.yaml"), "as-drawn.coax.yaml")
    plain = judge(document, SHELF, ReviewRequest(variances=VarianceTerms(DAY)))
    entries: list[dict[str, str]] = [
        {"rule": one.rule, "item": identity.subject, "reason": "r", "granted by": "g"}
        for one in plain.unfolded
        for identity in one.identities
    ]
    again = read_design(Path("as-drawn.coax.yaml"), "as-drawn.coax.yaml")
    done = judge(with_variances(again, entries), SHELF, ReviewRequest(variances=VarianceTerms(DAY)))
    assert [
        one.identity for one in done.unfolded if not one.is_varied and one.rule.partition(".")[0] != "variance"
    ] == []
    assert {one.rule for one in done.findings if one.rule.startswith("variance.")} <= {"variance.single"}


def with_variances(document: Document, entries: list[dict[str, str]]) -> Document:
    """The document with exceptions that are written nowhere."""
    assert isinstance(document.data, dict)
    return replace(document, data={**document.data, "variances": entries})
