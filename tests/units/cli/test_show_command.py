"""``coaxwright show``: what was understood goes out, what was not is told as a review tells it."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from coaxwright.cli import main

TERN = Path(__file__).parents[3] / "examples" / "tern-cottage"
CORRECTED = str(TERN / "corrected.coax.yaml")
NOT_UNDERSTOOD = {
    "a word too much": "coaxwright: 1\ntitle: T\nbasis: {rulesets: [us 2023]}\ncolor: red\n",
    "several mistakes": "coaxwright: 1\ntitel: T\nbasis: {rulesets: [us 2023]}\nplaces: {attic: {exposure: atic}}\n",
    "no data": "coaxwright: [1\n",
    "a ruleset that is not here": "coaxwright: 1\ntitle: T\nbasis: {rulesets: [us 1999]}\n",
}


@pytest.mark.parametrize("name", ["corrected", "as-drawn"])
def test_a_design_is_shown_and_not_judged(name: str, capfdbinary: pytest.CaptureFixture[bytes]) -> None:
    assert main(["show", str(TERN / f"{name}.coax.yaml"), "--width", "80"]) == 0
    out = capfdbinary.readouterr().out.decode()
    assert out.startswith("Tern Cottage, Quillhaven (invented)\n")
    assert max(map(len, out.splitlines())) <= 80
    assert "\x1b" not in out
    assert "VIOLATION" not in out


def test_the_same_as_json(capfdbinary: pytest.CaptureFixture[bytes]) -> None:
    assert main(["show", CORRECTED, "--as", "json"]) == 0
    told = json.loads(capfdbinary.readouterr().out)
    assert [one["tag"] for one in told["design"]["buildings"]] == ["house", "studio"]
    assert told["problems"] == []


@pytest.mark.parametrize("mistake", NOT_UNDERSTOOD)
def test_what_is_not_understood_is_told_as_a_review_tells_it(
    mistake: str, tmp_path: Path, capfdbinary: pytest.CaptureFixture[bytes]
) -> None:
    file = tmp_path / "a.coax.yaml"
    file.write_text(NOT_UNDERSTOOD[mistake], encoding="utf-8")
    assert main(["review", str(file), "--width", "90"]) == 2
    told = capfdbinary.readouterr()
    assert main(["show", str(file), "--width", "90"]) == 2
    assert capfdbinary.readouterr() == told
    assert b"NOT UNDERSTOOD" in told.out
    assert main(["show", str(file), "--as", "json"]) == 2
    again = json.loads(capfdbinary.readouterr().out)
    assert again["design"] is None
    words = " ".join(told.out.decode().split())
    assert [problem for problem in again["problems"] if " ".join(problem["message"].split()) not in words] == []


def test_into_a_file_at_a_width_that_no_terminal_decides(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capfdbinary: pytest.CaptureFixture[bytes]
) -> None:
    monkeypatch.setenv("COLUMNS", "61")
    assert main(["show", CORRECTED]) == 0
    shown = capfdbinary.readouterr().out
    assert main(["show", CORRECTED, "--into", str(tmp_path / "shown.txt")]) == 0
    assert capfdbinary.readouterr().out == b""
    assert (tmp_path / "shown.txt").read_bytes() == shown


WRONG = {
    (CORRECTED, "--as", "sarif"): "--as takes text or json, not 'sarif'",
    (CORRECTED, "--as", "jsno"): "--as takes text or json, not 'jsno'; did you mean 'json'?",
    (CORRECTED, "--width", "20"): "--width takes 60 or more, not 20",
    (CORRECTED, "--into", "nowhere/x"): "cannot write nowhere/x: no such file or directory",
    (str(TERN),): f"show takes one design, and {TERN} is a folder",
    ("flat.coax-part.yaml",): "show takes one design, and flat.coax-part.yaml is a part of one",
}


@pytest.mark.parametrize("words", WRONG, ids=lambda words: " ".join(words[1:]) or Path(words[0]).name)
def test_a_wrong_call_is_told_in_one_line(words: tuple[str, ...], capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["show", *words]) == 2
    assert capsys.readouterr() == ("", f"coaxwright: {WRONG[words]}\n")


def test_a_missing_file_is_not_understood(tmp_path: Path, capfdbinary: pytest.CaptureFixture[bytes]) -> None:
    assert main(["show", str(tmp_path / "missing.coax.yaml")]) == 2
    assert b"the file cannot be opened" in capfdbinary.readouterr().out
