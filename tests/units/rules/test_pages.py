"""An edition may stand on several pages, one for each topic."""

import pytest

from coaxwright.rules import RulesetError, read_ruleset
from coaxwright.rules.load import with_page
from coaxwright.source import read_text

FIRST = """\
ruleset: firm
edition: 2
title: x
documents: {a: {name: A}}
off: {one.rule: {reason: x}}
"""


def page(text: str) -> object:
    return with_page(read_ruleset(read_text(FIRST, "firm/2.yaml")), read_text(text, "firm/2/level.yaml"))


def test_a_page_adds_documents_and_operations_and_tells_its_own_lines() -> None:
    whole = with_page(
        read_ruleset(read_text(FIRST, "firm/2.yaml")),
        read_text("page of: firm 2\ndocuments: {b: {name: B}}\noff:\n  two.rule: {reason: y}\n", "firm/2/level.yaml"),
    )
    assert list(whole.documents) == ["a", "b"]
    assert [(operation.rule, operation.where) for operation in whole.operations] == [
        ("one.rule", "firm/2.yaml:5"),
        ("two.rule", "firm/2/level.yaml:4"),
    ]
    assert whole.label == "firm 2"


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("page of: firm 1\n", "firm/2/level.yaml: a page begins with 'page of: firm 2'"),
        ("add: {}\n", "firm/2/level.yaml: a page begins with 'page of: firm 2'"),
        ("- x\n", "firm/2/level.yaml: a page begins with 'page of: firm 2'"),
    ],
)
def test_a_page_says_what_it_is_a_page_of(text: str, said: str) -> None:
    with pytest.raises(RulesetError) as raised:
        page(text)
    assert str(raised.value) == said


def test_a_page_keeps_to_the_schema_of_rulesets() -> None:
    with pytest.raises(RulesetError, match=r"firm/2/level.yaml: .*hue"):
        page("page of: firm 2\nhue: red\n")
