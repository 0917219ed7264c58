"""What a correction notice asks, of whom, and with which blanks."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace

from coaxwright.reports.notice import render
from coaxwright.reports.wording import MOST_ITEMS, Standing
from coaxwright.reviewing import Review
from coaxwright.rules import Severity

Made = Callable[[str], Review]


def section(text: str, heading: str) -> str:
    found = re.search(rf"^## {re.escape(heading)}$(.*?)(?=^## |\Z)", text, re.MULTILINE | re.DOTALL)
    return found.group(1) if found else ""


def items(text: str) -> list[str]:
    return re.findall(r"^### \d+\. .*$", text, re.MULTILINE)


def test_the_head_names_the_drawing_and_leaves_a_blank_for_the_date(made: Made) -> None:
    head = render(made("returned"), 200).partition("**")[0].splitlines()
    assert head[2:-1] == [
        "- Site: Tern Cottage, Quillhaven (invented)",
        "- Job: QH-07",
        "- Sheet: T-1",
        "- Revision: A",
        "- Stage: permit",
        "- Authority: the building department of Quillhaven (invented)",
        "- Judged by: us 2023",
        "- File: plans/site.coax.yaml",
        "- Date: ________________________",
    ]
    assert "\n- Date: 2026-11-25\n" in render(made("returned"), dated="2026-11-25")
    assert "- Authority: not stated\n" in render(made("failed"))


def test_every_item_to_correct_has_its_place_source_and_blank(made: Made) -> None:
    review = made("returned")
    part = section(render(review, 2000), Standing.RETURNS.value)
    (design,) = review.designs
    returning = [finding for finding in design.findings if finding.returns(design.returns_at)]
    assert part.count("- Corrected by: ________________________  Date: ______________") == len(items(part))
    for finding in returning:
        if finding.outcome == "not met":
            assert f"- Found: {finding.found}\n" in part
            assert f"- Required: {finding.required}\n" in part
            start = finding.place.span.start
            place = f"{finding.place.file}:{start.line}:{start.column}"
            where = finding.subject.where
            assert f"- Place: {f'{where} ({place})' if where else place}\n" in part
            assert f"- Reference: {'; '.join(map(str, finding.sources))}\n" in part
    assert "- Waits on it: impedance.port-match (C-104)\n" in part


def test_items_are_numbered_through_the_most_serious_of_each_part_first(made: Made) -> None:
    for name in ("returned", "varied"):
        text = render(made(name))
        assert [int(item.split(".")[0].removeprefix("### ")) for item in items(text)] == [
            *range(1, len(items(text)) + 1)
        ]
        words = [item.split()[2].strip(":,") for item in items(section(text, Standing.RETURNS.value))]
        assert words == sorted(words, key=("Violation", "Deficiency", "Advice").index)


def test_only_what_returns_the_design_is_to_be_corrected(made: Made) -> None:
    text = render(made("varied"), 2000)
    assert "Looked at by" in section(text, Standing.PERSON.value)
    assert "granted by the site engineer, until 2027-06-30" in section(text, Standing.VARIED.value)
    assert "- Due: at the stage 'as-built'\n" in section(text, Standing.LATER.value)
    for heading in (Standing.PERSON, Standing.VARIED, Standing.LATER, Standing.ADVICE):
        assert "Corrected by" not in section(text, heading.value)
    assert "- Variances judged as of: 2026-11-25\n" in text


def test_a_deficiency_is_never_called_advice(made: Made) -> None:
    review = made("returned")
    lenient = replace(review, designs=tuple(replace(one, returns_at=Severity.VIOLATION) for one in review.designs))
    text = render(lenient, 2000)
    assert {line.split(":")[0].split()[-1] for line in items(section(text, Standing.RETURNS.value))} == {"Violation"}
    assert "Deficiency" in "".join(items(section(text, Standing.FURTHER.value)))
    assert "Corrected by" not in section(text, Standing.FURTHER.value)
    assert "Deficiency" not in "".join(items(section(text, Standing.ADVICE.value)))


def test_mistakes_are_items_too(made: Made) -> None:
    part = section(render(made("not-understood")), "Mistakes in the file")
    problems = made("not-understood").designs[0].problems
    assert len(items(part)) == part.count("Corrected by") == len(problems)
    for problem in problems:
        assert f"- Found: {problem.message}\n" in render(made("not-understood"), 2000)


def test_each_notice_is_whole(made: Made) -> None:
    first, second = render(made("two-files")).split("\n\n---\n\n")
    for notice in (first, second):
        assert notice.startswith("# Correction notice\n")
        assert "\n## Cautions\n" in notice
        assert "\nIssued by: ____" in notice
    assert first.replace("site.coax", "copy.coax").rstrip() == second.rstrip()


def test_a_clear_design_has_nothing_to_correct(made: Made) -> None:
    text = render(made("clear"))
    assert "This review found no item to correct. It compared a drawing with rules, and nothing else." in text.replace(
        "\n", " "
    )
    assert items(text) == []


def test_very_many_items_end_with_their_number(long_review: Review) -> None:
    text = render(long_review)
    part = section(text, Standing.RETURNS.value)
    assert len(items(part)) == MOST_ITEMS
    assert f"\n{1224 - MOST_ITEMS} more, none of them more serious than those above.\n" in part
    assert len(items(section(text, Standing.ADVICE.value))) == 10
