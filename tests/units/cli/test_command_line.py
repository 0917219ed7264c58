"""The door of the program: what it refuses, and that nothing but a review's own status can look like one."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from coaxwright.cli import main, review_command
from coaxwright.cli.commands import app
from coaxwright.cli.output import color_wanted, put

EXAMPLE = str(Path(__file__).parents[3] / "examples" / "tern-cottage" / "corrected.coax.yaml")
FORMS = "text, brief, notice, checklist, json, sarif, sarif-code-host, junit, code-quality or annotations"
WRONG = {
    ("--as", "jsno"): f"--as takes {FORMS}, not 'jsno'; did you mean 'json'?",
    ("--as", "xyzzy"): f"--as takes {FORMS}, not 'xyzzy'",
    ("--also", "juint=a.xml"): f"--also takes {FORMS}, not 'juint'; did you mean 'junit'?",
    ("--also", "Code Quality=a.json"): f"--also takes {FORMS}, not 'Code Quality'; did you mean 'code-quality'?",
    (
        "--also",
        "sarif",
    ): f"--also takes FORM=FILE, such as sarif=review.sarif, not 'sarif'; a form is {FORMS}",
    (
        "--also",
        "sarif=",
    ): f"--also takes FORM=FILE, such as sarif=review.sarif, not 'sarif='; a form is {FORMS}",
    (
        "--also",
        "json=a.json",
        "--also",
        "sarif=./b/../a.json",
    ): "--also would write json and sarif into one file, 'b/../a.json'",
    (
        "--into",
        "a.txt",
        "--also",
        "text=a.txt",
    ): "--also would write text and text into one file, 'a.txt'",
    ("--also", f"json={EXAMPLE}"): f"--also would write a report over a file that is reviewed, {EXAMPLE!r}",
    ("--into", "new.coax.yaml"): "--into would write a report over a file that is reviewed, 'new.coax.yaml'",
    (
        "--returns-at",
        "Violation",
    ): "--returns-at takes advice, deficiency or violation, not 'Violation'; did you mean 'violation'?",
    ("--width", "59"): "--width takes 60 or more, not 59",
}


@pytest.mark.parametrize("words", WRONG, ids=" ".join)
def test_a_wrong_value_is_told_with_the_nearest_right_one(
    words: tuple[str, ...], capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["review", EXAMPLE, *words]) == 2
    assert capsys.readouterr() == ("", f"coaxwright: {WRONG[words]}\n")


@pytest.mark.parametrize(
    "words",
    [["reveiw", EXAMPLE], ["review"], ["review", EXAMPLE, "--nope"], ["review", EXAMPLE, "--width", "x"], ["--nope"]],
)
def test_a_wrong_call_gives_2_and_reviews_nothing(words: list[str], capsys: pytest.CaptureFixture[str]) -> None:
    assert main(words) == 2
    out, err = capsys.readouterr()
    assert out == ""
    assert err


@pytest.mark.parametrize("words", [[], ["-h"], ["--help"], ["review", "--help"], ["cite", "--help"]], ids=str)
def test_help_is_no_mistake(words: list[str], capsys: pytest.CaptureFixture[str]) -> None:
    assert main(words) == 0
    assert capsys.readouterr().out.startswith("Usage: coaxwright")


def test_the_help_names_every_command_that_there_is(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["--help"]) == 0
    listed = capsys.readouterr().out.partition("Commands:\n")[2].partition("\n\n")[0]
    named = [line.split()[0] for line in listed.splitlines() if line.startswith("  ") and line[2:3] != " "]
    there = [command.name or command.callback.__name__ for command in app.registered_commands if command.callback]
    assert sorted(named) == sorted(there)


FAULTS = {
    "interrupted": (KeyboardInterrupt(), "coaxwright: interrupted; the review is incomplete\n"),
    "fault": (ZeroDivisionError("x"), "coaxwright: a fault of the program, please report it: ZeroDivisionError: x\n"),
}


@pytest.mark.parametrize("words", [[EXAMPLE], [EXAMPLE, "--plain"]], ids=["fast door", "parsed"])
@pytest.mark.parametrize("fault", FAULTS)
def test_a_run_that_ends_early_is_incomplete(
    fault: str, words: list[str], monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    error, told = FAULTS[fault]

    def fail(text: str) -> None:
        raise error

    monkeypatch.setattr(review_command, "say", fail)
    assert main(["review", *words]) == 3
    assert capsys.readouterr().err == told


def test_a_report_that_cannot_be_written_does_not_hide_an_incomplete_review(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("coaxwright.reviewing.pipeline.judge", lambda *_: 1 / 0)
    assert main(["review", EXAMPLE, "--into", str(tmp_path / "nowhere" / "x")]) == 3


def test_a_file_is_whole_or_the_old_one(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    into = tmp_path / "report.txt"
    put("the old one", into)

    def fail(self: Path, target: Path) -> Path:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(Path, "replace", fail)
    with pytest.raises(OSError, match="No space left"):
        put("the new one", into)
    assert into.read_text(encoding="utf-8") == "the old one"
    assert list(tmp_path.iterdir()) == [into]


def test_a_pipe_is_written_to_as_it_stands(tmp_path: Path) -> None:
    pipe = tmp_path / "pipe"
    os.mkfifo(pipe)
    reader = os.open(pipe, os.O_RDONLY | os.O_NONBLOCK)
    put("Möwe", pipe)
    assert os.read(reader, 100).decode() == "Möwe"
    os.close(reader)
    assert pipe.is_fifo()


def test_color_is_for_terminals_that_want_it(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delenv("NO_COLOR", raising=False)
    assert not color_wanted(plain=False), "the tests' output is no terminal"
    monkeypatch.setattr("sys.stdout.isatty", lambda: True, raising=False)
    assert color_wanted(plain=False)
    assert not color_wanted(plain=True)
    monkeypatch.setenv("NO_COLOR", "")
    assert not color_wanted(plain=False)
