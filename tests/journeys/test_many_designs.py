"""Many designs from a shell: the same bytes by one process or several, cold or warm, in any order and hash seed."""

from __future__ import annotations

import json
import shutil
from collections.abc import Callable
from itertools import product
from pathlib import Path
from time import sleep

import pytest

from coaxwright.reviewing.cache.program import program

TOP = Path(__file__).parents[2]


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Twenty designs of the example sites, with their parts and their firm's files, in several folders."""
    top = tmp_path_factory.mktemp("many")
    for number in range(2):
        shutil.copytree(TOP / "examples", top / f"year-{number}", ignore=shutil.ignore_patterns("*.txt", "ci"))
    (top / "broken.coax.yaml").write_text("coaxwright: 1\ntitle: [\n", encoding="utf-8")
    return top


@pytest.mark.parametrize("form", ["text", "sarif"])
def test_the_same_bytes_in_every_way(coax: Callable, folder: Path, tmp_path: Path, form: str) -> None:
    while program() is None:  # the program was written a moment ago
        sleep(0.1)
    seen = {}
    paths = [["."], sorted((path.name for path in folder.iterdir()), reverse=True)]
    for workers, cache, (seed, order) in product(
        ("1", "3"), ("off", str(tmp_path / "cache")), (("0", 0), ("1", 1)) if form == "text" else (("1", 1),)
    ):
        done = coax(
            "review",
            *paths[order],
            "--as",
            form,
            "--workers",
            workers,
            cwd=folder,
            COAXWRIGHT_CACHE=cache,
            **({"PYTHONHASHSEED": seed} if form == "text" else {}),
        )
        seen[done.stdout, done.stderr, done.returncode] = (workers, cache, seed, order)
    assert len(seen) == 1, list(seen.values())
    assert next(iter(seen))[1:] == ("", 2)


def test_timing_stands_behind_the_report_and_never_in_it(coax: Callable, folder: Path) -> None:
    plain = coax("review", ".", cwd=folder)
    timed = coax("review", ".", "--timing", "--workers", "2", cwd=folder)
    assert (timed.stdout, timed.returncode) == (plain.stdout, plain.returncode)
    lines = timed.stderr.splitlines()
    designs = len(json.loads(coax("review", ".", "--as", "json", cwd=folder).stdout)["designs"])
    assert lines[0].startswith(f"{designs} designs reviewed in ")
    assert lines[1].split()[:3] == ["reading", "the", "files"]
    assert any(line.endswith(" subjects") for line in lines)


def test_no_progress_where_nobody_looks(coax: Callable, folder: Path) -> None:
    assert coax("review", ".", "--workers", "2", cwd=folder).stderr == ""


@pytest.mark.parametrize(("word", "told"), [("0", "--workers takes 1 or more, not 0"), ("two", "--workers")])
def test_a_number_of_workers_that_is_none(coax: Callable, word: str, told: str) -> None:
    done = coax("review", ".", "--workers", word)
    assert (done.returncode, done.stdout) == (2, "")
    assert told in done.stderr
