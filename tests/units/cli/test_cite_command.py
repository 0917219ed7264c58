"""``coaxwright cite``: one rule, or one line that says what is not there."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from coaxwright.cli import main
from coaxwright.rules import combine, shipped_registry

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
    rules = combine(["us 2023"], shipped_registry()).rules
    listed = re.findall(r"^  (\S+)  ", out, re.MULTILINE)
    assert listed == sorted(rules)
    assert re.findall(r"^([A-Z]+)$", out, re.MULTILINE) == sorted({name.split(".")[0].upper() for name in rules})
    flowed = " ".join(out.split())
    assert all(rule.title in flowed for rule in rules.values())
    assert max(map(len, out.splitlines())) <= 80
    assert f"{len(rules)} rules of trade 1 and of us 2023; " in flowed


@pytest.mark.parametrize(
    ("words", "of"),
    [([], "trade 1 and of us 2023"), (["--ruleset", "trade 1"], "trade 1"), (["--for", str(EXAMPLE)], "us 2023")],
)
def test_with_a_topic_its_rules_are_listed(
    words: list[str], of: str, capfdbinary: pytest.CaptureFixture[bytes]
) -> None:
    assert main(["cite", "bonding", *words, "--width", "80"]) == 0
    out = capfdbinary.readouterr().out.decode()
    listed = re.findall(r"^  (\S+)  ", out, re.MULTILINE)
    assert "bonding.conductor-present" in listed
    assert {name.split(".")[0] for name in listed} == {"bonding"}
    assert f"{len(listed)} rules of {of}; 'coaxwright cite RULE' shows one of them." in " ".join(out.split())


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


def told(capfdbinary: pytest.CaptureFixture[bytes], *words: str) -> str:
    assert main(["cite", *words, "--width", "100"]) == 0
    return capfdbinary.readouterr().out.decode()


def test_what_came_of_a_rule_in_a_design_thing_by_thing(capfdbinary: pytest.CaptureFixture[bytes]) -> None:
    out = told(capfdbinary, "bonding.conductor-length", "--for", str(EXAMPLE))
    page, _, here = out.partition("as-drawn.coax.yaml, judged by us 2023\n")
    assert "In us 2023\n" in page
    rows = [" ".join(line.split()) for line in here.splitlines()]
    assert rows[0] == "checked on 4 items: 1 not met, 1 met, 2 does not apply"
    assert rows[1] == "not met GB1 (north wall, house)"
    assert rows[2].startswith("GB1 is bonded over 26 ft of conductor (B-1) to IBT; required: at most 20 ft")
    assert "met GB3 (garden wall, house)" in rows
    assert "does not apply GB2 (north wall, house): masts and antenna lead-ins have no length limit" in rows
    one = told(capfdbinary, "bonding.conductor-length", "--for", str(EXAMPLE), "--subject", "GB3")
    assert "  checked on        1 item: 1 met\n  met               GB3 (garden wall, house)\n" in one


def test_why_a_rule_was_not_asked_of_a_design(
    capfdbinary: pytest.CaptureFixture[bytes], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    text = EXAMPLE.read_text(encoding="utf-8")
    (tmp_path / "a.coax.yaml").write_text(text, encoding="utf-8")
    (tmp_path / "b.coax.yaml").write_text(text.replace("us 2023", "trade 1"), encoding="utf-8")
    (tmp_path / "coax-settings.yaml").write_text(
        "coaxwright settings: 1\nrules left out: {plan: not our trade}\n", encoding="utf-8"
    )
    left = told(capfdbinary, "plan.loop-free", "--for", "a.coax.yaml")
    assert left.startswith("plan.loop-free\n")
    assert "  not asked         left out by settings: not our trade (coax-settings.yaml:2)\n" in left
    absent = told(capfdbinary, "bonding.conductor-length", "--for", "b.coax.yaml")
    assert absent.startswith("bonding.conductor-length\n  The shield bond of a dwelling is short")
    why = "none of these rulesets has the rule; it is in us 2017, us 2020, us 2023"
    assert f"In b.coax.yaml, judged by trade 1\n  not asked         {why}\n" in absent
    nothing = told(capfdbinary, "variance.used", "--for", "a.coax.yaml")
    assert "  checked on nothing  the design holds nothing that the rule is about\n" in nothing


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (["bonding.conductor-length", "--subject", "GB1"], "--subject narrows what came of one rule in one design"),
        (["--for", str(EXAMPLE), "--subject", "GB1"], "--subject narrows what came of one rule in one design"),
        (
            ["bonding.conductor-length", "--for", str(EXAMPLE), "--subject", "GB7"],
            "is asked of every protector and metal mast, and none here is called 'GB7'; did you mean 'GB1'?",
        ),
        (["bonding.conductor-lenght", "--for", str(EXAMPLE)], "did you mean 'bonding.conductor-length'?"),
    ],
)
def test_a_wrong_rule_or_tag_is_told_in_one_line(
    words: list[str], told: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["cite", *words]) == 2
    caught = capsys.readouterr()
    assert (caught.out, caught.err.count("\n")) == ("", 1)
    assert told in caught.err
