"""An editor hands over a text that is not saved: it is judged as the file of its name would be."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

import coaxwright

DESIGN = """\
coaxwright: 1
title: Redshank Quay (invented)
basis: {rulesets: [trade 1]}
includes: [parts/den.coax-part.yaml]
devices:
  SP1: {kind: splitter, ways: 2}
cables:
  C-1: {from: SP1, to: TV1, type: series 6, length: 25 m, route: [den: 9 m]}
"""
PART = "coaxwright part: 1\nplaces: {den: {}}\ndevices: {TV1: {kind: outlet, place: den}}\n"
Command = Callable[..., "subprocess.CompletedProcess[str]"]
LARGEST = 16_000_000


@pytest.fixture
def repository(tmp_path: Path) -> Path:
    (tmp_path / "plans" / "parts").mkdir(parents=True)
    (tmp_path / "plans" / "parts" / "den.coax-part.yaml").write_text(PART, encoding="utf-8")
    return tmp_path


@pytest.fixture
def review(coax: Command) -> Command:
    return lambda folder, text, *words: coax("review", *words, cwd=folder, given=text)


def review_of_a_pipe(folder: Path, text: str, *words: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-m", "coaxwright", "review", *words],
        cwd=folder,
        env={**os.environ, "PYTHONPATH": str(Path(coaxwright.__file__).parents[1])},
        input=text,
        capture_output=True,
        encoding="utf-8",
        check=False,
        timeout=60,
    )


@pytest.mark.parametrize("form", ["text", "json", "sarif", "brief"])
def test_it_is_judged_as_the_file_of_its_name(review: Command, repository: Path, form: str) -> None:
    given = review(repository, DESIGN, "-", "--called", "plans/a.coax.yaml", "--as", form)
    assert given.returncode == 1
    assert not (repository / "plans" / "a.coax.yaml").exists()
    (repository / "plans" / "a.coax.yaml").write_text(DESIGN, encoding="utf-8")
    saved = review(repository, "", "plans/a.coax.yaml", "--as", form)
    assert (given.stdout, given.stderr) == (saved.stdout, "")
    assert "plans/a.coax.yaml" in given.stdout


def test_it_stands_in_place_of_the_file_as_saved(review: Command, repository: Path) -> None:
    (repository / "plans" / "a.coax.yaml").write_text("nonsense: [\n", encoding="utf-8")
    (repository / "plans" / "b.coax.yaml").write_text(DESIGN, encoding="utf-8")
    for words in (["plans", "-"], ["-", "plans"], ["-", "./plans/a.coax.yaml", "plans/b.coax.yaml"]):
        told = review(repository, DESIGN, *words, "--called", "plans/a.coax.yaml", "--as", "json")
        assert [design["file"] for design in json.loads(told.stdout)["designs"]] == [
            "plans/a.coax.yaml",
            "plans/b.coax.yaml",
        ]
        assert told.returncode == 1


def test_settings_are_found_from_its_name(review: Command, repository: Path) -> None:
    (repository / "plans" / "coax-settings.yaml").write_text(
        "coaxwright settings: 1\nrules left out: {plan: x}\n", encoding="utf-8"
    )
    assert review(repository, DESIGN, "-", "--called", "plans/a.coax.yaml").returncode == 0


def test_without_a_name_it_lies_in_the_working_folder(repository: Path) -> None:
    told = review_of_a_pipe(repository / "plans", DESIGN, "-", "--as", "brief")
    assert told.returncode == 1
    assert told.stdout.startswith("standard-input.coax.yaml:")
    elsewhere = review_of_a_pipe(repository, DESIGN, "-", "--as", "brief")
    assert elsewhere.returncode == 2
    assert elsewhere.stdout.startswith("standard-input.coax.yaml:4:12: not understood: there is no part")


BAD = {
    b"\xff\xfea": "plans/a.coax.yaml: not understood: the file is saved as UTF-16; save it as UTF-8",
    b"coaxwright: 1\ntitle: \x80": "2:8: not understood: byte 0x80 is not UTF-8; save the file as UTF-8",
    b"a: [": "1:4: not understood: ",
    b"": "nothing is written here; a design begins with 'coaxwright: 1'",
    b"a" * (LARGEST + 1): "not understood: the file is larger than 16 MB; divide the site into several files",
}


@pytest.mark.parametrize("content", BAD, ids=lambda content: content[:9].hex())
def test_what_is_no_design_is_one_error(review: Command, repository: Path, content: bytes) -> None:
    told = review(repository, content, "-", "--called", "plans/a.coax.yaml", "--as", "brief")
    assert (told.returncode, told.stderr) == (2, "")
    first, outcome, *_ = told.stdout.splitlines()
    assert first.startswith("plans/a.coax.yaml:")
    assert BAD[content] in first
    assert outcome == "Not understood: 1 mistake to correct first (plans/a.coax.yaml)"


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (
            ["plans", "--called", "a.coax.yaml"],
            "--called names what standard input holds; write - among the paths to read",
        ),
        (["-", "--called", "plans/x.coax-part.yaml"], "--called takes the name of a design (*.coax.yaml), not "),
        (["-", "--called", ""], "--called takes the name of a design (*.coax.yaml), not ''"),
        (["-", "--called", "plans/a.yml"], "--called takes the name of a design (*.coax.yaml), not 'plans/a.yml'"),
        (["-", "--called", "a.coax.yaml", "--into", "a.coax.yaml"], "--into would write a report over a file that is"),
    ],
)
def test_a_wrong_name_is_refused_before_anything_is_read(
    review: Command, repository: Path, words: list[str], told: str
) -> None:
    done = review(repository, DESIGN, *words)
    assert (done.returncode, done.stdout) == (2, "")
    assert done.stderr.startswith(f"coaxwright: {told}")


def test_from_python(repository: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(repository)
    by_text = coaxwright.review([], texts={"plans/a.coax.yaml": DESIGN})
    by_bytes = coaxwright.review([], texts={"plans/a.coax.yaml": DESIGN.encode()})
    (repository / "plans" / "a.coax.yaml").write_text(DESIGN, encoding="utf-8")
    saved = coaxwright.review(["plans/a.coax.yaml"])
    assert list(by_text.findings) == list(by_bytes.findings) == list(saved.findings)
    assert [design.file for design in by_text.designs] == ["plans/a.coax.yaml"]
    assert by_text.exit_status == 1
