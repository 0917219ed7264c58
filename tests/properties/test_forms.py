"""No form raises, whatever the design: the example sites, and any text where an author's or a file's name may be."""

from __future__ import annotations

import json
from dataclasses import replace
from functools import cache
from pathlib import Path
from xml.etree import ElementTree

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from coaxwright.cli.forms import Form, Paper, rendered
from coaxwright.findings import Finding, Outcome, Varied
from coaxwright.reports.excerpt import columns
from coaxwright.reviewing import Crash, DesignReview, Review, review
from coaxwright.rules import Severity
from coaxwright.source import Position, Problem, Span

EXAMPLES = Path(__file__).parents[2] / "examples"
SITES = sorted(EXAMPLES.rglob("*.coax.yaml"))
PARTS = sorted(EXAMPLES.rglob("*.coax-part.yaml"))
NEW = (Form.BRIEF, Form.NOTICE, Form.CHECKLIST, Form.JUNIT, Form.CODE_QUALITY, Form.ANNOTATIONS)
START = Position(1, 1, 0)


@cache
def example(path: Path) -> Review:
    return review([path])


def read(form: Form, text: str, width: int) -> None:
    """Hold a form to what every one of its readers needs."""
    text.encode("utf-8")
    assert text.endswith("\n")
    if form is Form.JUNIT:
        ElementTree.fromstring(text)
    elif form is Form.CODE_QUALITY:
        assert isinstance(json.loads(text), list)
    elif form in (Form.NOTICE, Form.CHECKLIST):
        wide = [line for line in text.splitlines() if columns(line) > width]
        assert [line for line in wide if len(line.split()) > 3 and not line.startswith(("### ", "|"))] == []


@pytest.mark.parametrize("path", SITES, ids=lambda path: f"{path.parent.name}-{path.name.partition('.')[0]}")
def test_no_form_raises_on_an_example_site(path: Path) -> None:
    """With drawn-in parts and repeated units among them."""
    for returns_at in Severity:
        for form in Form:
            for width in (80, 120):
                made = example(path).returning_at(returns_at)
                read(form, rendered(form, made, Paper(width, color=False, dated="2026-11-25")), width)


def test_the_example_sites_have_parts_and_units() -> None:
    assert PARTS
    findings = [finding for path in SITES for finding in example(path).findings]
    assert any(finding.place.in_part for finding in findings)
    assert any(len(finding.instances) > 1 for finding in findings)
    assert {finding.outcome for finding in findings} == {
        Outcome.NOT_MET,
        Outcome.CANNOT_BE_JUDGED,
        Outcome.NEEDS_A_PERSON,
    }


TEXTS = st.text(max_size=30) | st.sampled_from(
    ["]]>", "::error::", "\r\n", "\u202e", "\ufffe", "\udcff", "`", "|", "- "]
)


@st.composite
def findings(draw: st.DrawFn) -> Finding:
    """A finding of an example site with any texts, severity and outcome."""
    path = EXAMPLES / "gannet-house" / "as-drawn.coax.yaml"
    one = draw(st.sampled_from(list(example(path).findings)))
    varied = Varied(draw(TEXTS), draw(TEXTS), draw(TEXTS), one.place, draw(st.booleans()))
    return replace(
        one,
        severity=draw(st.sampled_from(Severity)),
        outcome=draw(st.sampled_from([Outcome.NOT_MET, Outcome.CANNOT_BE_JUDGED, Outcome.NEEDS_A_PERSON])),
        subject=replace(one.subject, tag=draw(TEXTS), where=draw(TEXTS)),
        place=replace(one.place, file=draw(TEXTS)),
        found=draw(TEXTS),
        required=draw(TEXTS),
        remedy=draw(TEXTS),
        remarks=tuple(draw(st.lists(TEXTS, max_size=2))),
        instances=tuple(draw(st.lists(TEXTS, max_size=4))),
        due_later=draw(st.sampled_from(["", "as-built"])),
        varied=draw(st.none() | st.just(varied)),
    )


@st.composite
def designs(draw: st.DrawFn) -> DesignReview:
    (design,) = example(EXAMPLES / "gannet-house" / "as-drawn.coax.yaml").designs
    problem = Problem(draw(TEXTS), Span(START, START), draw(TEXTS))
    return replace(
        design,
        file=draw(TEXTS),
        title=draw(TEXTS),
        job=draw(TEXTS),
        sheet=draw(TEXTS),
        authority=draw(TEXTS),
        findings=tuple(draw(st.lists(findings(), max_size=5))),
        problems=draw(st.sampled_from([(), (problem, problem)])),
        crashes=draw(st.sampled_from([(), (Crash("cable.run-length", draw(TEXTS), draw(TEXTS)),)])),
    )


@settings(suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large])
@given(st.lists(designs(), max_size=3), st.sampled_from(Severity), st.sampled_from(NEW))
def test_no_form_raises_whatever_the_texts(made: list[DesignReview], returns_at: Severity, form: Form) -> None:
    read(form, rendered(form, Review(tuple(made)).returning_at(returns_at), Paper(80)), 80)
