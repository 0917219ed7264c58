"""A firm's ruleset in former words gives the rules of one in the present words."""

from __future__ import annotations

import pytest

from coaxwright.rules import RulesetError, combine, shipped_registry
from coaxwright.rules.load import read_ruleset
from coaxwright.rules.model import Rule
from coaxwright.source import read_text

HEAD = """\
ruleset: house
edition: 1
title: House (invented)
builds on: [trade 1]
documents: {practice: {name: our practice, confidence: common practice}, table: {name: our table}}
set:
  cable.conductor-material:
"""
FORMER = """\
    sources: [{document: practice}, {document: table, cases: [clad aluminium]}]
    words:
      clad aluminium: {is: "{cable} has a centre of {centre}", should be: copper, remedy: run another}
"""
PRESENT = """\
    sources: [{document: practice}, {document: table, cases: [clad aluminum]}]
    words:
      clad aluminum: {found: "{cable} has a centre of {center}", required: copper, remedy: run another}
"""


def of_house(text: str) -> Rule:
    ruleset = read_ruleset(read_text(HEAD + text, "house.coax-ruleset.yaml"))
    return combine(["house 1"], shipped_registry().with_own([ruleset])).rule("cable.conductor-material")


def test_keys_cases_and_values_have_former_words() -> None:
    former, present = of_house(FORMER), of_house(PRESENT)
    assert former.words == present.words
    assert former.cases == present.cases
    assert former.words["clad aluminum"].found == "{cable} has a centre of {center}"


def test_what_is_wrong_is_told_where_it_is_written() -> None:
    with pytest.raises(RulesetError) as error:
        of_house(FORMER.replace("{centre}", "{cantre}"))
    (told,) = error.value.every
    assert told.path == ("set", "cable.conductor-material", "words", "clad aluminum", "found")
    document = read_text(HEAD + FORMER, "house.coax-ruleset.yaml")
    read_ruleset(document)
    span = document.span(told.path, of_key=True)
    assert document.text[span.start.index : span.end.index] == "is"


@pytest.mark.parametrize("keys", ["is: a, found: a, required: b", "is: a, should be: b, required: b", "is: a"])
def test_two_words_for_one_key_and_none_at_all_are_refused(keys: str) -> None:
    with pytest.raises(RulesetError):
        of_house(f"    words:\n      clad aluminium: {{{keys}, remedy: c}}\n")
