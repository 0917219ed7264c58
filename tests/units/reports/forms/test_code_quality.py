"""Fingerprints and grades of the code-quality form."""

from __future__ import annotations

import json
from collections.abc import Callable
from dataclasses import replace
from typing import Any

from coaxwright.reports.code_quality import render
from coaxwright.reviewing import Review
from coaxwright.source import Position, Span

Made = Callable[[str], Review]


def items(review: Review) -> list[dict[str, Any]]:
    found = json.loads(render(review))
    assert isinstance(found, list)
    return found


def test_a_finding_bears_the_fingerprint_of_its_identity(made: Made) -> None:
    review = made("returned")
    assert [item["fingerprint"] for item in items(review)] == [one.identity.fingerprint for one in review.findings]


def test_a_fingerprint_outlives_lines_words_and_the_name_of_the_file(made: Made) -> None:
    review = made("returned")
    (design,) = review.designs
    elsewhere = Span(Position(900, 1, 9000), Position(900, 2, 9001))
    moved = [
        replace(one, place=replace(one.place, file="b.coax.yaml", span=elsewhere), found="otherwise")
        for one in design.findings
    ]
    again = Review((replace(design, file="b.coax.yaml", findings=tuple(moved)),))
    assert [item["fingerprint"] for item in items(again)] == [item["fingerprint"] for item in items(review)]
    assert {item["location"]["lines"]["begin"] for item in items(again)} == {900}


def test_two_files_of_one_design_share_no_fingerprint(made: Made) -> None:
    found = items(made("two-files"))
    assert len({item["fingerprint"] for item in found}) == len(found)
    alone = items(made("returned"))
    assert found[: len(alone)] == alone
    assert {item["location"]["path"] for item in found[len(alone) :]} == {"plans/copy.coax.yaml"}


def test_mistakes_alike_in_one_file_share_no_fingerprint(made: Made) -> None:
    (design,) = made("not-understood").designs
    twice = Review((replace(design, problems=design.problems * 3),))
    found = items(twice)
    assert len({item["fingerprint"] for item in found}) == len(found) == 3 * len(design.problems)
    assert items(twice) == found


def test_grades(made: Made) -> None:
    by_severity = {"violation": "critical", "deficiency": "major", "advice": "minor"}
    review = made("returned")
    assert [item["severity"] for item in items(review)] == [by_severity[one.severity.value] for one in review.findings]
    assert {item["severity"] for item in items(made("not-understood"))} == {"blocker"}
    assert {item["severity"] for item in items(made("failed"))} == {"blocker"}
    first, second, third, fourth, *_ = items(made("varied"))
    assert (first["severity"], third["severity"], fourth["severity"]) == ("info", "info", "info")
    assert second["severity"] == "critical", "a variance that is not taken into account changes nothing"


def test_a_clear_design_is_an_empty_array(made: Made) -> None:
    assert render(made("clear")) == "[]\n"


def test_none_are_left_out(long_review: Review) -> None:
    assert len(items(long_review)) == 1234
