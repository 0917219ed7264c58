"""``coaxwright cite``: one rule, or one line that says what is not there."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from coaxwright.cli import main
from coaxwright.rules import combine, shipped_shelf

EXAMPLE = Path(__file__).parents[3] / "examples" / "tern-cottage" / "as-drawn.coax.yaml"


def test_a_rule_as_it_binds_a_design(capfdbinary: pytest.CaptureFixture[bytes]) -> None:
    assert main(["cite", "bonding.conductor-length", "--for", str(EXAMPLE), "--width", "80"]) == 0
    out = capfdbinary.readouterr().out.decode()
    assert out.startswith("bonding.conductor-length\n  The shield bond of a dwelling is short")
    assert "In us 2023\n" in out
    assert "In trade 1" not in out


def test_a_rule_in_the_edition_asked_for(capfdbinary: pytest.CaptureFixture[bytes]) -> None:
    assert main(["cite", "bonding.conductor-length", "--ruleset", "us 2017"]) == 0
    assert "820.100(A)(4)" in capfdbinary.readouterr().out.decode()


def test_without_a_rule_all_are_listed_by_topic(capfdbinary: pytest.CaptureFixture[bytes]) -> None:
    assert main(["cite", "--width", "80"]) == 0
    out = capfdbinary.readouterr().out.decode()
    rules = combine(["us 2023"], shipped_shelf()).rules
    listed = re.findall(r"^  (\S+)  ", out, re.MULTILINE)
    assert listed == sorted(rules)
    assert re.findall(r"^([A-Z]+)$", out, re.MULTILINE) == sorted({name.split(".")[0].upper() for name in rules})
    flowed = " ".join(out.split())
    assert all(rule.title in flowed for rule in rules.values())
    assert max(map(len, out.splitlines())) <= 80
    assert f"{len(rules)} rules of trade 1 and of us 2023; " in flowed


def test_the_rules_that_bind_a_design_are_listed(capfdbinary: pytest.CaptureFixture[bytes]) -> None:
    assert main(["cite", "--ruleset", "trade 1"]) == 0
    assert "rules of trade 1; 'coaxwright cite RULE'" in capfdbinary.readouterr().out.decode()
    assert main(["cite", "--for", str(EXAMPLE)]) == 0
    assert "rules of us 2023; 'coaxwright cite RULE'" in capfdbinary.readouterr().out.decode()


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (["entry.filter"], "did you mean 'indata.entry-filter'?"),
        (["bonding.conductor-lenght"], "did you mean 'bonding.conductor-length'?"),
        (["bonding.conductor-length", "--ruleset", "us 2026"], "us 2026: that edition is not here"),
        (["bonding.conductor-length", "--ruleset", "trade 1"], "no rule of that name in trade 1"),
        (
            ["bonding.conductor-length", "--for", "missing.coax.yaml"],
            "missing.coax.yaml:1:1: the file cannot be opened",
        ),
    ],
)
def test_what_is_not_there_is_told_in_one_line(words: list[str], told: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["cite", *words]) == 2
    caught = capsys.readouterr()
    assert caught.out == ""
    assert caught.err.startswith("coaxwright: ")
    assert told in caught.err
    assert caught.err.count("\n") == 1
