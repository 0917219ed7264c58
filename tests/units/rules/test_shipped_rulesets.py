"""The rulesets that come with the program keep their contract, and the contract is a schema."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from jsonschema import Draft202012Validator

from coaxwright.rules import RulesetError, Severity, combine, read_ruleset, shipped_registry
from coaxwright.shipped import shipped
from coaxwright.source import read_file

SHELF = shipped_registry()
LABELS = [f"{name} {edition}" for name in SHELF.names for edition in SHELF.editions(name)]
FILES = sorted(SHELF.files.items())


def schema() -> object:
    return json.loads((shipped("schemas") / "ruleset-1.schema.json").read_text(encoding="utf-8"))


def test_the_schema_is_a_schema() -> None:
    Draft202012Validator.check_schema(schema())


@pytest.mark.parametrize(("key", "path"), FILES, ids=[" ".join(key) for key, _ in FILES])
def test_a_file_keeps_the_schema_and_says_what_its_name_says(key: tuple[str, str], path: Path) -> None:
    data = read_file(path, path.name).data
    assert [error.message for error in Draft202012Validator(schema()).iter_errors(data)] == []
    assert isinstance(data, dict)
    assert (data["ruleset"], str(data["edition"])) == key


@pytest.mark.parametrize("label", LABELS)
def test_every_edition_combines_and_only_a_code_makes_violations(label: str) -> None:
    rules = combine([label], SHELF).rules.values()
    violations = {rule.name for rule in rules if rule.severity is Severity.VIOLATION}
    if label.startswith("trade "):
        assert violations == set()
    else:
        assert violations == {
            "bonding.conductor-length",
            "bonding.conductor-present",
            "bonding.conductor-size",
            "bonding.electrode-accepted",
            "bonding.electrode-shared",
            "bonding.electrode-rod",
            "bonding.termination-present",
            "bonding.termination-used",
            "protection.both-buildings",
            "antenna.power-line-fall",
            "antenna.service-mast",
            "antenna.booster-kit",
            "bonding.conductor-route",
            "protection.listed",
            "protection.entry-protector",
            "jacket.listed-indoors",
            "jacket.plenum",
            "jacket.riser",
            "route.aerial-clearance",
            "route.buried-separation",
            "route.firestop",
            "route.power-raceway",
            "route.power-separation",
        }


@pytest.mark.parametrize("label", LABELS)
def test_every_source_and_every_limit_says_what_it_rests_on(label: str) -> None:
    basis = combine([label], SHELF)
    for rule in basis.rules.values():
        for citation in (*rule.sources, *(limit.source for limit in rule.limits.all())):
            if citation.confidence == "common practice":
                assert str(citation) == "common practice, no source"
            else:
                assert citation.edition
                assert citation.clause
    assert {caution.name for caution in basis.cautions} >= {
        "local-codes",
        "bonding",
        "power-lines",
        "height",
        "digging",
    }


def test_a_later_edition_changes_nothing_of_an_earlier_one() -> None:
    before = {rule.name: rule.sources for rule in combine(["us 2017"], SHELF).rules.values()}
    combine(["us 2023"], SHELF)
    assert {rule.name: rule.sources for rule in combine(["us 2017"], SHELF).rules.values()} == before


def test_the_shelf_lists_editions_in_order() -> None:
    assert SHELF.names == ("trade", "us")
    editions = SHELF.editions("us")
    assert {"2017", "2020", "2023"} <= set(editions)
    assert editions == tuple(sorted(editions))
    assert SHELF.newest("us") == f"us {editions[-1]}"


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("ruleset: Us\nedition: 1\ntitle: t\ndocuments: {}\n", "line 1, column 10: 'Us' cannot stand for 'ruleset'"),
        (
            "ruleset: us\nedition: '1'\ntitle: t\ndocuments: {}\n",
            "line 2, column 10: '1' cannot stand for 'edition'; write a whole number",
        ),
        ("ruleset: us\nedition: 1\ndocuments: {}\n", "the file has no 'title'"),
        (
            "ruleset: us\nedition: 1\ntitle: t\ndocuments: {}\nsett: {}\n",
            "the file has no field 'sett'; did you mean 'set'?",
        ),
        (
            "ruleset: us\nedition: 1\ntitle: t\ndocuments: {}\nbuilds on: [trade]\n",
            "line 5, column 13: 'trade' cannot stand for 'builds on'",
        ),
    ],
)
def test_a_broken_ruleset_is_refused_at_its_place(tmp_path: Path, text: str, said: str) -> None:
    path = tmp_path / "us.yaml"
    path.write_text(text, encoding="utf-8")
    with pytest.raises(RulesetError) as error:
        read_ruleset(read_file(path, "us.yaml"))
    assert said in str(error.value)
