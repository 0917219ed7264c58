"""Reviews that every form is shown: of every result, with each kind of finding, and with hostile texts.

They keep to a few rules, so that a new one changes no snapshot.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from functools import cache
from pathlib import Path

import pytest

from coaxwright.findings import Finding, Outcome, Varied
from coaxwright.findings.punch_list import items_of
from coaxwright.reviewing import WHOLE_DESIGN, Crash, DesignReview, Review
from coaxwright.reviewing.model import PunchListMatch, Since
from coaxwright.reviewing.pipeline import review_document
from coaxwright.rules import Severity, shipped_registry
from coaxwright.source import read_text

EXAMPLE = Path(__file__).parents[4] / "examples" / "tern-cottage"
AS_DRAWN = (EXAMPLE / "as-drawn.coax.yaml").read_text(encoding="utf-8")
CORRECTED = (EXAMPLE / "corrected.coax.yaml").read_text(encoding="utf-8")
RULES = {
    "bonding.conductor-length",
    "bonding.conductor-present",
    "bonding.conductor-size",
    "cable.run-length",
    "jacket.outdoor-rated",
    "plan.reference-known",
    "protection.antenna-end",
    "protection.entry-protector",
    "impedance.port-match",
}
RIGHT_TO_LEFT = "\N{RIGHT-TO-LEFT OVERRIDE}"
HOSTILE = f"<b>&amp;\x1b[2J]]>{RIGHT_TO_LEFT}::error::x%0A, y: `z` *a* [b](c) | d\n# e \x00\ufffe\u2028f"
"""What a title, a tag or a name could hold to make a reader see another text than is there, or to break a form."""


@cache
def reviewed(text: str, name: str = "plans/site.coax.yaml") -> DesignReview:
    design = review_document(read_text(text, name), shipped_registry())
    return replace(
        design,
        findings=tuple(finding for finding in design.findings if finding.rule in RULES),
        tallies=tuple(tally for tally in design.tallies if tally.rule in RULES),
        rules=tuple(rule for rule in design.rules if rule.name in RULES),
    )


def varied() -> DesignReview:
    """One finding of each standing: varied, with a variance that does not count, for a person, due later."""
    design = reviewed(AS_DRAWN)
    first, second, third, fourth, *rest = design.findings
    variance = Varied("roof access only after re-roofing", "the site engineer", "2027-06-30", first.place)
    changed = (
        replace(first, varied=variance),
        replace(second, varied=replace(variance, until="", honoured=False)),
        replace(third, outcome=Outcome.NEEDS_A_PERSON, severity=Severity.ADVICE),
        replace(fourth, outcome=Outcome.CANNOT_BE_JUDGED, severity=Severity.ADVICE, due_later="as-built"),
    )
    tallies = [
        replace(tally, not_met=tally.not_met - 1, needs_a_person=1) if tally.rule == third.rule else tally
        for tally in design.tallies
    ]
    return replace(design, findings=(*changed, *rest), tallies=tuple(tallies), as_of="2026-11-25")


def hostile(text: str = HOSTILE) -> DesignReview:
    """The example with a text in every place where an author's or a file's may be."""
    design = reviewed(AS_DRAWN)

    def spoilt(finding: Finding) -> Finding:
        return replace(
            finding,
            subject=replace(finding.subject, tag=text, where=text),
            place=replace(finding.place, file=f"{text}.yaml", line_text=text),
            found=text,
            required=text,
            remedy=text,
            remarks=(text,),
            varied=Varied(text, text, text, finding.place, honoured=False),
        )

    return replace(
        design,
        file=f"{text}.yaml",
        title=text,
        job=text,
        sheet=text,
        revision=text,
        authority=text,
        named_rulesets=(text,),
        findings=tuple(map(spoilt, design.findings)),
        crashes=(Crash("cable.run-length", text, text),),
    )


def outstanding(text: str = "plans/site.coax-punch-list.yaml") -> Review:
    """A violation on the punch list, a finding in one unit more than there, and one item that is mended."""
    design = reviewed(AS_DRAWN)
    second, first, *rest = design.findings
    assert first.severity is Severity.VIOLATION
    units = replace(second, instances=("flat-1", "flat-2"), new_in=("flat-2",))
    (gone,) = items_of(replace(first, identity=replace(first.identity, subject=text)))
    marked = replace(design, findings=(replace(first, outstanding=True), units, *rest))
    return Review((marked,), punch_lists=(PunchListMatch(text, (gone,)),))


def since(text: str = "main") -> Review:
    """All but the first finding are left out, since they stood at a revision already."""
    design = reviewed(AS_DRAWN)
    left = replace(design, findings=design.findings[:1], since=text, stood=design.findings[1:])
    return Review((left,), since=Since(text, "c" * 40, 3, (design.file,)))


def many(number: int = 1234) -> DesignReview:
    """A design with very many findings, the first of them advice."""
    design = reviewed(AS_DRAWN)
    advice, violation = design.findings[:2]
    assert (advice.severity, violation.severity) == (Severity.ADVICE, Severity.VIOLATION)
    findings = [
        replace(one, identity=replace(one.identity, subject=f"T-{index}"))
        for index, one in enumerate([advice] * 10 + [violation] * (number - 10))
    ]
    return replace(design, findings=tuple(findings))


def incomplete() -> DesignReview:
    crash = Crash("bonding.conductor-length", "device GB1", "KeyError: 'B-1'")
    return replace(reviewed(CORRECTED), crashes=(crash,))


def not_understood() -> DesignReview:
    text = CORRECTED.replace("to: IBT", "too: IBT").replace("8 ft}", "8}")
    return review_document(read_text(text, "plans/site.coax.yaml"), shipped_registry())


MADE: dict[str, Callable[[], Review]] = {
    "returned": lambda: Review((reviewed(AS_DRAWN),)),
    "clear": lambda: Review((reviewed(CORRECTED),)),
    "not-understood": lambda: Review((not_understood(),)),
    "incomplete": lambda: Review((incomplete(),)),
    "failed": lambda: Review(
        (DesignReview("a.coax.yaml", crashes=(Crash(WHOLE_DESIGN, "", "RecursionError: deep"),)),)
    ),
    "varied": lambda: Review((varied(),)),
    "two-files": lambda: Review((reviewed(AS_DRAWN), reviewed(AS_DRAWN, "plans/copy.coax.yaml"))),
    "outstanding": outstanding,
    "since": since,
    "nothing-new": lambda: Review((replace(since().designs[0], findings=()),), since=Since("main", "c" * 40)),
    "nothing-changed": lambda: Review((), since=Since("main", "c" * 40, 7)),
    "hostile-known": lambda: replace(outstanding(HOSTILE), since=since(HOSTILE).since, designs=since(HOSTILE).designs),
    "hostile": lambda: Review((hostile(),)),
    "nothing": lambda: Review(()),
}


@pytest.fixture(params=MADE)
def each(request: pytest.FixtureRequest) -> str:
    """The name of each review."""
    return str(request.param)


@pytest.fixture
def made() -> Callable[[str], Review]:
    """A review by its name."""
    return lambda name: MADE[name]()


@pytest.fixture
def hostile_design() -> Callable[[str], DesignReview]:
    """The example with any text in every place where an author's may be."""
    return hostile


@pytest.fixture
def long_review() -> Review:
    """1234 findings."""
    return Review((many(),))
