"""A punch list is written line by line: in order, with comments kept, and proven by reading it again."""

from __future__ import annotations

import pytest

from coaxwright.amend.punch_lines import rewritten, written
from coaxwright.findings import Identity
from coaxwright.findings.preexisting import FindingRank, FindingState
from coaxwright.findings.punch_list import Item, PunchList, PunchListError, punch_list_of
from coaxwright.rules import Severity
from coaxwright.source import read_text

VIOLATION = FindingRank(Severity.VIOLATION, FindingState.NOT_MET)
ADVICE = FindingRank(Severity.ADVICE, FindingState.NOT_MET)
OPEN = FindingRank(Severity.DEFICIENCY, FindingState.CANNOT_BE_JUDGED)


def one(tag: str, design: str = "QH-07/T-1", rule: str = "plan.dead-end") -> Identity:
    return Identity(design, rule, "cable", tag)


def line(tag: str, severity: str = "violation", design: str = "QH-07/T-1") -> str:
    return f"  - {{design: {design}, rule: plan.dead-end, item: {tag}, kind: cable, severity: {severity}}}"


def listed(*lines: str, newline: str = "\n") -> PunchList:
    text = newline.join(["coaxwright punch list: 1", "outstanding:", *lines, ""])
    return punch_list_of(read_text(text, "a.coax-punch-list.yaml"))


def lines_of(before: PunchList, *tags: str) -> list[str]:
    return rewritten(before, {one(tag): VIOLATION for tag in tags}).splitlines()[2:]


def test_a_new_list_is_in_the_order_of_design_rule_and_tag() -> None:
    items = [Item(one("C-10"), VIOLATION), Item(one("C-9"), OPEN), Item(one("A", design="AB"), ADVICE)]
    text = written(items)
    assert text.startswith("coaxwright punch list: 1\n#")
    again = punch_list_of(read_text(text, "x"))
    assert [item.identity.subject for item in again.items] == ["A", "C-9", "C-10"]
    assert {*again.items} == {*items}
    assert text.count("\n") == 3 + len(items)


def test_new_items_are_put_in_their_order_and_others_are_not_touched() -> None:
    before = listed(
        "  # north wing", line("C-2"), line("C-9") + "   # ordered", "", "  # south wing", line("C-30"), "# end"
    )
    assert lines_of(before, "C-2", "C-9", "C-30", "C-1", "C-10") == [
        line("C-1"),
        "  # north wing",
        line("C-2"),
        line("C-9") + "   # ordered",
        line("C-10"),
        "",
        "  # south wing",
        line("C-30"),
        "# end",
    ]


def test_what_is_taken_off_leaves_the_comments_above_it() -> None:
    before = listed("  # north wing", line("C-2") + "  # its own", line("C-9"), "  # last", line("C-30"))
    assert lines_of(before, "C-9") == ["  # north wing", line("C-9"), "  # last"]
    assert lines_of(before) == ["  # north wing", "  # last"]


def test_what_is_graver_now_is_written_in_its_place() -> None:
    before = listed(line("C-1", "advice") + "  # since May", line("C-2"))
    assert lines_of(before, "C-1", "C-2") == [line("C-1") + "  # since May", line("C-2")]


def test_lines_of_two_branches_in_any_order_become_one_list() -> None:
    before = listed(line("C-9"), line("C-2"), line("C-9"), line("C-1"))
    assert lines_of(before, "C-1", "C-2", "C-9") == [line("C-1"), line("C-2"), line("C-9")]


@pytest.mark.parametrize("empty", ["", " []", " null", " []  # none", " [\n  ]"])
def test_an_empty_list_is_filled(empty: str) -> None:
    text = f"# ours\ncoaxwright punch list: 1\noutstanding:{empty}\n# end\n"
    after = rewritten(punch_list_of(read_text(text, "x")), {one("C-1"): VIOLATION})
    assert [item.identity for item in punch_list_of(read_text(after, "x")).items] == [one("C-1")]
    assert after.startswith("# ours\n")
    assert after.endswith(f"{line('C-1')}\n# end\n")
    assert ("# none" in after) is ("# none" in empty)


def test_an_item_of_several_lines_stays_as_it_is() -> None:
    block = [
        "- design: QH-07/T-1",
        "  rule: plan.dead-end",
        "  item: C-5",
        "  kind: cable",
        "  severity: violation  # x",
    ]
    before = listed(*block)
    assert lines_of(before, "C-5", "C-6") == [*block, line("C-6").strip()]
    assert lines_of(before, "C-6") == [line("C-6").strip()]


def test_line_breaks_stay_what_they_are() -> None:
    before = listed(line("C-1"), newline="\r\n")
    text = rewritten(before, {one("C-1"): VIOLATION, one("C-2"): VIOLATION})
    assert text.count("\r\n") == text.count("\n") == 4


def test_a_file_without_a_last_line_break_gets_one() -> None:
    text = f"coaxwright punch list: 1\noutstanding:\n{line('C-1')}"
    assert rewritten(punch_list_of(read_text(text, "x")), {one("C-1"): VIOLATION}) == f"{text}\n"


def test_the_same_items_give_the_same_text() -> None:
    before = listed("  # a", line("C-1"), "", line("C-2"), "  # b")
    assert rewritten(before, {one("C-2"): VIOLATION, one("C-1"): VIOLATION}) == before.document.text


@pytest.mark.parametrize(
    "text",
    [
        f"outstanding: [{line('C-1')[4:]}, {line('C-2')[4:]}]\n",
        f"outstanding:\n  - {line('C-1')[4:]}\n  -\n    {line('C-2')[4:]}\n",
        f"outstanding:\n  [{line('C-1')[4:]},\n   {line('C-2')[4:]}]\n",
    ],
    ids=["one line", "apart from its dash", "in brackets"],
)
def test_items_that_share_a_line_are_refused_with_their_place(text: str) -> None:
    before = punch_list_of(read_text(f"coaxwright punch list: 1\n{text}", "x"))
    with pytest.raises(PunchListError, match=r"^x:\d+:\d+: this item does not stand on a line of its own; write each"):
        rewritten(before, {one("C-3"): VIOLATION})


AWKWARD = [
    "no",
    "012",
    "a: b",
    "x # y",
    "it's",
    '"q"',
    "- z",
    "{a}",
    "é\N{HOUSE BUILDING}",
    "two\nlines",
    "a,b",
    "?x",
    "[",
    "~",
]


@pytest.mark.parametrize("tag", AWKWARD)
def test_any_tag_and_title_reads_back_from_one_line(tag: str) -> None:
    identity = Identity(tag, "plan.dead-end", "cable", tag, tag, tag)
    text = written([Item(identity, VIOLATION)])
    assert len(text.splitlines()) == 4
    (item,) = punch_list_of(read_text(text, "x")).items
    assert item.identity == identity
