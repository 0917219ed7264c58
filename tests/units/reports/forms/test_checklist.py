"""Every rule stands in the checklist once, with the answer that its tally gives."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace

import pytest

from coaxwright.reports.checklist import render
from coaxwright.reviewing import Review, RuleTally

Made = Callable[[str], Review]


def entries(text: str) -> dict[str, str]:
    """The line of each rule, by its name."""
    lines = [line for line in text.splitlines() if line.startswith("- **")]
    found = {name: line for line in lines for name in re.findall(r"\(`([^`]+)`\)", line)}
    assert len(found) == len(lines)
    return found


def test_every_rule_that_was_asked_stands_there_once_under_its_topic(made: Made) -> None:
    for name in ("returned", "clear", "varied"):
        text = render(made(name), 2000)
        (design,) = made(name).designs
        assert sorted(entries(text)) == sorted(tally.rule for tally in design.tallies)
        topics = re.findall(r"^## (\w+)$", text, re.MULTILINE)
        assert topics == [*sorted({tally.rule.partition(".")[0].capitalize() for tally in design.tallies}), "Cautions"]


ANSWERS = {
    "met": (RuleTally("x", met=4), "Met", "Checked on 4 items: 4 met."),
    "met, and not everywhere": (
        RuleTally("x", met=1, does_not_apply=2),
        "Met",
        "Checked on 1 item: 1 met; does not apply to 2.",
    ),
    "not met": (
        RuleTally("x", met=2, not_met=1, cannot_be_judged=1),
        "Not met",
        "2 met, 1 not met, 1 cannot be judged.",
    ),
    "cannot be judged": (RuleTally("x", met=2, cannot_be_judged=1), "Cannot be judged", "2 met, 1 cannot be judged."),
    "needs a person": (RuleTally("x", met=2, needs_a_person=1), "Needs a person", "2 met, 1 needs a person."),
    "does not apply": (RuleTally("x", does_not_apply=3), "Does not apply", "It applies to none of 3 items."),
    "nothing": (RuleTally("x"), "Does not apply", "There is nothing here that it is about."),
}


@pytest.mark.parametrize("name", ANSWERS)
def test_the_answer_is_the_most_telling_outcome(name: str, made: Made) -> None:
    tally, answer, numbers = ANSWERS[name]
    (design,) = made("clear").designs
    tally = replace(tally, rule=design.tallies[0].rule)
    entry = entries(render(Review((replace(design, tallies=(tally,)),)), 2000))[tally.rule]
    assert entry.startswith(f"- **{answer}**: ")
    assert entry.endswith(numbers)


def test_only_what_needs_a_person_has_a_box(made: Made) -> None:
    assert "[ ]" not in render(made("returned"))
    text = render(made("varied"), 2000)
    person = made("varied").designs[0].findings[2]
    assert re.findall(r"^ *- \[ \] .*$", text, re.MULTILINE) == [
        f"  - [ ] {person.subject.tag} ({person.subject.where}): {person.found}; required: {person.required}."
    ]


def test_tags_that_do_not_meet_a_rule_are_named(made: Made) -> None:
    text = render(made("varied"), 2000)
    varied = made("varied").designs[0].findings[0]
    assert f"({varied.subject.tag}, under variance)" in entries(text)[varied.rule]
    assert "1 not met (GB1)" in entries(text)["bonding.conductor-length"]


def test_the_table_adds_up(made: Made) -> None:
    (design,) = made("returned").designs
    rows = [line.strip("|").split("|") for line in render(made("returned")).splitlines() if line.startswith("| ")][1:]
    numbers = {cells[0].strip(): [int(cell) for cell in cells[1:]] for cells in rows}
    assert sum(row[0] for row in numbers.values()) == len(design.tallies)
    for rules, *answers in numbers.values():
        assert sum(answers) == rules
    broken = {finding.rule for finding in design.findings if finding.outcome == "not met"}
    assert sum(row[2] for row in numbers.values()) == len(broken)


def test_what_could_not_be_judged_at_all_is_told(made: Made) -> None:
    for name in ("not-understood", "incomplete", "failed"):
        assert "\n## Could not be judged at all\n" in render(made(name))
    assert entries(render(made("incomplete"), 2000))["bonding.conductor-length"].startswith("- **Could not be run**: ")
