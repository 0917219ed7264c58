"""What the network and the analysis may miss is declared and worded once."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest

import coaxwright
from coaxwright.checks import AnyCheck, all_checks
from coaxwright.network import Unknown
from coaxwright.network.causes import CAUSES
from coaxwright.rules.phrase_book import OF_THE_NETWORK, cause_text, phrases_of
from coaxwright.rules.wording import faults, placeholders

PACKAGE = Path(coaxwright.__file__).parent
MODULES = [path for room in ("network", "analysis") for path in sorted((PACKAGE / room).rglob("*.py"))]
BOOK = phrases_of(OF_THE_NETWORK)


def test_every_cause_is_worded_with_all_of_its_values_and_nothing_else() -> None:
    assert list(BOOK.cannot_be_judged) == list(CAUSES)
    for case, text in BOOK.cannot_be_judged.items():
        assert list(faults(text, CAUSES[case])) == []
        assert set(placeholders(text)) == set(CAUSES[case])


@pytest.mark.parametrize("check", all_checks().values(), ids=lambda check: check.name)
def test_no_check_has_a_cause_of_the_network_as_one_of_its_own(check: AnyCheck) -> None:
    """Its own words would stand for what the network misses, with other values."""
    assert not check.cannot_judge.keys() & CAUSES.keys()


def test_every_question_names_a_cause_that_is_declared() -> None:
    said = [(path.name, call) for path in MODULES for call in unknowns(ast.parse(path.read_text(encoding="utf-8")))]
    assert len(said) > 20
    strange = [name for name, call in said if not isinstance(call.args[0], ast.Constant)]
    assert strange == []
    assert {call.args[0].value for _, call in said if isinstance(call.args[0], ast.Constant)} == set(CAUSES)


def unknowns(tree: ast.AST) -> Iterator[ast.Call]:
    """Wherever something is said to be unknown."""
    for node in ast.walk(tree):
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id == "Unknown":
            yield node


@pytest.mark.parametrize(("written", "said"), [("KITCHN", "'KITCHN'"), ("O'Neil", '"O\'Neil"')])
def test_what_names_nothing_is_quoted_as_it_is_written(written: str, said: str) -> None:
    unknown = Unknown("no such device", ("cables", "C-1", "to"), {"written": written})
    assert cause_text(unknown) == f"{said} names no device"


def test_a_cause_is_worded_with_its_values() -> None:
    values = {"device": "SP", "one": "in", "other": "out-1", "frequency": 5.8e9}
    unknown = Unknown("no figure of a way", ("devices", "SP"), values)
    assert cause_text(unknown) == "no figure says what SP does from in to out-1 at 5.8 GHz"
