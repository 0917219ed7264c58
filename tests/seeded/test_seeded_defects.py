"""One defect at a time, planted in a design that is clear: it is found where it is, and nothing else is.

The entries in ``defects/`` were written from what the rules say (``coaxwright cite RULE``). Each names a clear design,
the one text that is exchanged, and every finding that this has to bring: its identity, its outcome, its wording, and
its line and column. Everything else about the design has to stay as it is.
"""

from __future__ import annotations

from collections.abc import Container, Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path

import pytest

from coaxwright.findings import Outcome
from coaxwright.reviewing import DesignReview
from coaxwright.reviewing.effective_rules import RuleSources
from coaxwright.reviewing.pipeline import review_document
from coaxwright.reviewing.reading import read_design
from coaxwright.rules import EffectiveRules, combine, shipped_registry
from coaxwright.rules.examples import examples_of
from coaxwright.source import Document, read_file, read_text

OF_THE_EDIT = ("site", "replace", "with", "why", "also")
HERE = Path(__file__).parent
EXAMPLES = HERE.parents[1] / "examples"
NOT_TO_BE_SEEDED: dict[tuple[str, str], str] = {
    ("jacket.outdoor-rated", "not made"): "every class of the shipped catalogue is made with an outdoor jacket",
}
"""Cases that no edit of a design can bring about, and why."""
SITES = {path.name.removesuffix(".coax.yaml"): path for path in sorted((HERE / "sites").glob("*.coax.yaml"))} | {
    path.parent.name: path for path in sorted(EXAMPLES.glob("*/corrected.coax.yaml"))
}
"""The clear designs: the corrected example sites, and those that were made for this."""
BASES = RuleSources(shipped_registry())

ReviewResults = tuple[str, str, str, str, str, str, int, int]
"""A finding: rule, case, subject, second, facet, outcome, line and column."""
MET = "met"
"""Stands in place of an outcome where an edit leads just to a limit, and nothing is to be found."""


@dataclass(frozen=True)
class Seed:
    """One defect and what has to be found of it."""

    site: str
    name: str
    old: str
    new: str
    findings: tuple[Mapping[str, str], ...]

    @property
    def rules(self) -> set[str]:
        return {str(finding["rule"]) for finding in self.findings}

    @property
    def edited(self) -> str:
        text = clear_text(self.site)
        assert text.count(self.old) == 1, f"stands {text.count(self.old)} times in {self.site}: {self.old!r}"
        return text.replace(self.old, self.new)

    def expected(self) -> list[ReviewResults]:
        return sorted(self._to_problem(finding) for finding in self.findings if finding.get("outcome") != MET)

    def _to_problem(self, finding: Mapping[str, str]) -> ReviewResults:
        rule, case, subject, second, facet = (
            finding.get(word, "") for word in ("rule", "case", "subject", "second", "facet")
        )
        return (
            rule,
            case,
            subject,
            second,
            facet,
            finding.get("outcome", Outcome.NOT_MET),
            *self._place(finding["at"], finding.get("behind", "")),
        )

    def _place(self, at: str, behind: str) -> tuple[int, int]:
        """Line and column at which a text of the edited design begins: the only one, or the first behind another."""
        text = self.edited
        only = behind or at
        assert text.count(only) == 1, f"stands {text.count(only)} times in the edited design: {only!r}"
        before = text[: text.index(at, text.index(only))]
        return before.count("\n") + 1, len(before) - before.rfind("\n")


@cache
def clear_text(site: str) -> str:
    return SITES[site].read_text(encoding="utf-8")


@cache
def clear(site: str) -> DesignReview:
    return review_document(read_design(SITES[site], SITES[site].name), BASES)


def seeds() -> Iterator[Seed]:
    for path in sorted((HERE / "defects").glob("*.yaml")):
        for entry in read_file(path, path.name).data:
            first = {key: value for key, value in entry.items() if key not in OF_THE_EDIT}
            name = f"{first['rule']}: {first.get('case') or first['outcome']}: {entry['site']}: {shortened(entry)}"
            yield Seed(entry["site"], name, entry["replace"], entry["with"], (first, *entry.get("also", ())))


def shortened(entry: Mapping[str, str]) -> str:
    """What an edit changes, for the name of its test."""
    return (
        entry.get("why") or " ".join(entry["with"].split())[:60] or f"without {' '.join(entry['replace'].split())[:50]}"
    )


SEEDS = tuple(seeds())


def told(review: DesignReview) -> list[ReviewResults]:
    """The findings that nobody has granted an exception from."""
    assert [str(problem) for problem in review.problems] == []
    assert review.crashes == ()
    return sorted(
        (
            finding.rule,
            finding.case,
            finding.identity.subject,
            finding.identity.second,
            finding.identity.facet,
            str(finding.outcome),
            finding.place.span.start.line,
            finding.place.span.start.column,
        )
        for finding in review.unfolded
        if not finding.is_varied
    )


def varied(review: DesignReview) -> set[tuple[str, str]]:
    """The rules and subjects of findings that somebody has granted an exception from."""
    return {(finding.rule, finding.identity.subject) for finding in review.findings if finding.is_varied}


@pytest.mark.parametrize("site", SITES)
def test_the_designs_are_clear_and_nothing_in_them_is_left_open(site: str) -> None:
    assert told(clear(site)) == []
    assert "invented" in clear_text(site).splitlines()[0]


@pytest.mark.parametrize("seed", SEEDS, ids=lambda seed: seed.name)
def test_a_seeded_defect_is_found_where_it_is_and_nothing_else(seed: Seed) -> None:
    review = check(seed)
    bared = {(finding["rule"], finding.get("subject", "")) for finding in seed.findings}
    assert varied(review) == varied(clear(seed.site)) - bared


def check(seed: Seed, rules: Container[str] | None = None) -> DesignReview:
    """What is found of a seed is what has to be found; of these rules, or of all."""
    review = review_document(document_of(seed), BASES)
    found, expected = (
        [one for one in every if rules is None or one[0] in rules] for every in (told(review), seed.expected())
    )
    assert found == expected
    for finding in seed.findings:
        for one in (one for one in review.unfolded if (one.rule, one.case) == (finding["rule"], finding.get("case"))):
            assert finding.get("writes") in (None, one.mend and one.mend.text)
            assert finding.get("says", "") in f"{one.found}\n{one.required}\n{one.remedy}"
            assert any(finding.get("cites", "") in source.clause for source in one.sources)
    return review


def document_of(seed: Seed) -> Document:
    """The edited design; a site of several files is not edited here."""
    document = read_text(seed.edited, SITES[seed.site].name)
    assert "includes" not in document.data
    return document


def effective() -> dict[str, EffectiveRules]:
    shelf = shipped_registry()
    return {label: combine([label], shelf) for label in ("trade 1", "us 2023")}


def cases() -> list[tuple[str, str]]:
    """Every wording of every rule."""
    return sorted(
        {(rule.name, case) for basis in effective().values() for rule in basis.rules.values() for case in rule.words}
    )


SEEDED = {(one["rule"], one.get("case", "")) for seed in SEEDS for one in seed.findings if one.get("outcome") != MET}


def test_every_case_of_every_rule_is_seeded() -> None:
    assert [case for case in cases() if case not in SEEDED and case not in NOT_TO_BE_SEEDED] == []
    assert [case for case in cases() if case in SEEDED and case in NOT_TO_BE_SEEDED] == []


def judged_by_figures() -> list[str]:
    """The rules that a missing figure can keep from judging, as their examples show."""
    return sorted(
        name
        for basis in effective().values()
        for name in basis.rules
        if any(one.kind == "cannot be judged" for one in examples_of(name, basis.rulesets))
    )


def test_a_missing_figure_is_seeded_for_every_rule_that_needs_one() -> None:
    told = {one["rule"] for seed in SEEDS for one in seed.findings if one.get("outcome") == "cannot be judged"}
    assert [rule for rule in judged_by_figures() if rule not in told] == []


def test_no_two_seeds_are_one() -> None:
    edits = [(seed.site, seed.old, seed.new) for seed in SEEDS]
    assert len(set(edits)) == len(edits)
