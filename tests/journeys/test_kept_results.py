"""A review that was made before: the same bytes, given without making it again, and never when anything has changed."""

from __future__ import annotations

import json
import sqlite3
import subprocess
from collections.abc import Callable
from pathlib import Path
from time import sleep

import pytest

from coaxwright.reviewing.cache.database import FILE
from coaxwright.reviewing.cache.program import program

PROGRAM = """
import contextlib, io, json, sys
from coaxwright.cli import main
with contextlib.redirect_stdout(io.TextIOWrapper(io.BytesIO(), encoding="utf-8")):
    main()
print(json.dumps(sorted(sys.modules)))
"""
MUST_NOT_BE_IMPORTED = {
    "annotated_types",
    "jsonschema",
    "jsonschema_rs",
    "numpy",
    "pydantic",
    "pydantic_core",
    "ruamel",
    "typer",
    "click",
    "yaml",
}
OWN = {
    "coaxwright",
    "coaxwright.cli",
    "coaxwright.cli.cached_reports",
    "coaxwright.cli.output",
    "coaxwright.errors",
    "coaxwright.reviewing",
    "coaxwright.reviewing.cache",
    "coaxwright.reviewing.cache.answers",
    "coaxwright.reviewing.cache.database",
    "coaxwright.reviewing.cache.folder",
    "coaxwright.reviewing.cache.input_digests",
    "coaxwright.reviewing.cache.opening",
    "coaxwright.reviewing.cache.program",
    "coaxwright.reviewing.search",
    "coaxwright.frozen_value",
    "coaxwright.version",
}
FORMS = [
    "text",
    "checklist",
    "json",
    "sarif",
]


@pytest.fixture
def cache(tmp_path: Path) -> Path:
    while program() is None:  # the program was written a moment ago
        sleep(0.1)
    return tmp_path / "cache"


@pytest.fixture
def same(coax: Callable, cache: Path) -> Callable[..., subprocess.CompletedProcess[str]]:
    """Review with the cache; without it the same comes out."""

    def run(*words: str, **changes: str) -> subprocess.CompletedProcess[str]:
        done = coax("review", *words, COAXWRIGHT_CACHE=str(cache), **changes)
        plain = coax("review", *words, **changes)
        assert (done.stdout, done.returncode) == (plain.stdout, plain.returncode)
        assert done.stderr == plain.stderr
        return done

    return run


def looked_at(coax: Callable, cache: Path, *words: str) -> set[str]:
    """The modules that a review imports; the report goes elsewhere."""
    told = coax("review", *words, program=PROGRAM, COAXWRIGHT_CACHE=str(cache))
    return set(json.loads(told.stdout))


def is_given_again(coax: Callable, cache: Path, *words: str) -> bool:
    return "coaxwright.rules" not in looked_at(coax, cache, *words)


@pytest.mark.parametrize("form", FORMS)
def test_a_form_is_the_same_the_second_time(same: Callable, coax: Callable, cache: Path, form: str) -> None:
    first, second = same(".", "--as", form), same(".", "--as", form)
    assert first.stdout == second.stdout
    assert is_given_again(coax, cache, ".", "--as", form)


def test_a_report_that_is_given_again_imports_neither_rules_nor_models(
    same: Callable, coax: Callable, cache: Path
) -> None:
    same("corrected.coax.yaml")
    modules = looked_at(coax, cache, "corrected.coax.yaml")
    assert {name.partition(".")[0] for name in modules} & MUST_NOT_BE_IMPORTED == set()
    assert {name for name in modules if name.partition(".")[0] == "coaxwright"} == OWN


def test_other_words_are_another_report(same: Callable, coax: Callable, cache: Path) -> None:
    same("corrected.coax.yaml")
    for words in (["--width", "80"], ["--returns-at", "advice"]):
        assert not is_given_again(coax, cache, "corrected.coax.yaml", *words)
        same("corrected.coax.yaml", *words)
    assert is_given_again(coax, cache, "corrected.coax.yaml", "--workers", "2")


def test_each_change_of_what_a_report_is_made_of_is_seen(same: Callable, site: Path) -> None:
    (site / "p").mkdir()
    part = site / "p" / "more.coax-part.yaml"
    design = site / "own.coax.yaml"
    rules = site / "firm.coax-ruleset.yaml"
    rules.write_text("ruleset: firm\nedition: 1\ntitle: A\ndocuments: {}\nbuilds on: [trade 1]\n", encoding="utf-8")
    design.write_text(
        "coaxwright: 1\ntitle: Pipit Lane 4 (invented)\nbasis: {rulesets: [firm.coax-ruleset.yaml]}\n"
        "includes: [p/more.coax-part.yaml]\n",
        encoding="utf-8",
    )
    said = [same(".").stdout]  # the part is missing

    def seen(of: str) -> None:
        said.append(same(".").stdout)
        assert said[-1] != said[-2], of
        assert same(".").stdout == said[-1]

    part.write_text("coaxwright part: 1\ndevices: {SP: {kind: splitter, ways: 2}}\n", encoding="utf-8")
    seen("a part that is there now")
    part.write_text(
        "coaxwright part: 1\ndevices: {SP: {kind: splitter, ways: 2}}\n"
        "cables: {C-1: {from: SP, to: NOWHERE, type: series 6}}\n",
        encoding="utf-8",
    )
    seen("a part that has changed")
    rules.write_text(rules.read_text(encoding="utf-8") + "off: {plan.reference-known: {reason: x}}\n", encoding="utf-8")
    seen("a ruleset that has changed")
    (site / "p").rename(site / "q")
    seen("a folder that was renamed")
    (site / "p").symlink_to("q")
    seen("a link that leads there")
    (site / "other").mkdir()
    (site / "other" / "more.coax-part.yaml").write_bytes((site / "q" / "more.coax-part.yaml").read_bytes())
    (site / "p").unlink()
    (site / "p").symlink_to("other")
    seen("a link that leads elsewhere")
    (site / "new.coax.yaml").write_text(design.read_text(encoding="utf-8"), encoding="utf-8")
    seen("a design that is new")
    design.unlink()
    seen("a design that is gone")


def test_a_file_that_is_written_again_at_once(same: Callable, site: Path) -> None:
    """Of the same size, and often within one tick of the clock that files are stamped by."""
    design = site / "corrected.coax.yaml"
    text = design.read_text(encoding="utf-8")
    said = set()
    for number in range(3):
        design.write_text(text.replace("QH-07", f"QH-{number}7"), encoding="utf-8")
        said.add(same("corrected.coax.yaml", "--as", "json").stdout)
    assert len(said) == 3


def test_fresh_asks_nothing_of_the_cache_and_renews_it(same: Callable, coax: Callable, cache: Path, site: Path) -> None:
    same(".")
    with sqlite3.connect(cache / FILE) as connection:
        connection.execute("DELETE FROM kept")
    connection.close()
    assert not is_given_again(coax, cache, ".", "--fresh")
    assert is_given_again(coax, cache, ".")
    assert not is_given_again(coax, cache, ".", "--fresh")
    same(".", "--fresh")


def test_off_keeps_nothing(coax: Callable, tmp_path: Path) -> None:
    coax("review", ".", COAXWRIGHT_CACHE="off", XDG_CACHE_HOME=str(tmp_path / "xdg"))
    assert not (tmp_path / "xdg").exists()
    coax("review", ".", COAXWRIGHT_CACHE="", XDG_CACHE_HOME=str(tmp_path / "xdg"))
    assert (tmp_path / "xdg" / "coaxwright" / FILE).is_file()


TROUBLE = {
    "damaged": "",
    "damaged inside": "",
    "locked": "database is locked",
    "read-only": "",
    "no folder": "not a directory",
    "under review": "which could bring it along",
    "relative": "takes the full path of a folder",
    "open to others": "others can write into it",
}


@pytest.mark.parametrize("trouble", TROUBLE)
def test_no_trouble_with_the_cache_is_more_than_a_line(
    trouble: str, coax: Callable, cache: Path, site: Path, tmp_path: Path
) -> None:
    plain = coax("review", "as-drawn.coax.yaml", COAXWRIGHT_CACHE=str(cache))
    where, other = str(cache), None
    if trouble == "damaged":
        (cache / FILE).write_bytes(b"\x00\xff" * 9000)
    elif trouble == "damaged inside":
        content = bytearray((cache / FILE).read_bytes())
        content[5000:] = b"\xa5" * (len(content) - 5000)
        (cache / FILE).write_bytes(content)
    elif trouble == "locked":
        other = sqlite3.connect(cache / FILE)
        other.execute("BEGIN EXCLUSIVE")
    elif trouble == "read-only":
        (cache / FILE).chmod(0o400)
        cache.chmod(0o500)
    elif trouble == "no folder":
        (tmp_path / "file").write_text("", encoding="utf-8")
        where = str(tmp_path / "file" / "cache")
    elif trouble == "under review":
        where = str(site / "cache")
    elif trouble == "relative":
        where = "cache"
    elif trouble == "open to others":
        cache.chmod(0o777)
    done = coax("review", "as-drawn.coax.yaml", COAXWRIGHT_CACHE=where)
    assert (done.stdout, done.returncode) == (plain.stdout, plain.returncode)
    assert done.stderr.count("\n") <= 1
    assert TROUBLE[trouble] in done.stderr
    assert not (site / "cache").exists()
    cache.chmod(0o700)
    if other is not None:
        other.close()


def test_a_full_disk_is_one_line(coax: Callable, cache: Path) -> None:
    """The limit on the size of files stands for the disk."""
    limited = (
        "import resource, signal, sys\n"
        "signal.signal(signal.SIGXFSZ, signal.SIG_IGN)\n"
        "resource.setrlimit(resource.RLIMIT_FSIZE, (20_000, 20_000))\n"
        "from coaxwright.cli import main\nsys.exit(main())"
    )
    done = coax("review", ".", program=limited, COAXWRIGHT_CACHE=str(cache))
    plain = coax("review", ".")
    assert (done.stdout, done.returncode) == (plain.stdout, plain.returncode)
    assert done.stderr.count("\n") == 1
    assert "results are not kept" in done.stderr


def test_several_runs_at_once(coax: Callable, cache: Path, site: Path) -> None:
    from concurrent.futures import ThreadPoolExecutor

    def run(number: int) -> tuple[str, int]:
        done = coax("review", ".", "--width", str(80 + number % 2), fresh=True, COAXWRIGHT_CACHE=str(cache))
        assert done.stderr.count("\n") <= 1
        return done.stdout, done.returncode

    with ThreadPoolExecutor(4) as pool:
        done = list(pool.map(run, range(6)))
    assert len(set(done)) == 2
    assert done[0] == (coax("review", ".", "--width", "80").stdout, 1)


def test_what_another_user_s_repository_brings_along_is_not_asked(coax: Callable, cache: Path, site: Path) -> None:
    """A folder of the default name in the repository is nothing to the program."""
    coax("review", "as-drawn.coax.yaml", COAXWRIGHT_CACHE=str(cache))
    with sqlite3.connect(cache / FILE) as connection:
        assert connection.execute("SELECT count(*) FROM kept").fetchone()[0] > 0
    connection.close()
    (site / ".cache").mkdir()
    cache.rename(site / ".cache" / "coaxwright")
    done = coax("review", "as-drawn.coax.yaml", COAXWRIGHT_CACHE="", XDG_CACHE_HOME=str(site / ".cache"))
    assert "which could bring it along" in done.stderr
    assert done.returncode == 1
