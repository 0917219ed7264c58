"""The digest of the program: every file of it, the interpreter and the packages beside it make another one."""

from __future__ import annotations

import os
import sys
import time
from pathlib import Path

import pytest

import coaxwright
from coaxwright.reviewing.cache import program as module
from coaxwright.reviewing.cache.program import program

PACKAGE = Path(coaxwright.__file__).parent


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A package of a few files, left alone for long."""
    for name in ("a.py", "rulesets/us/2023.yaml", "schemas/x.json", "notes.txt", "__pycache__/a.pyc"):
        path = tmp_path / "package" / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text("1", encoding="utf-8")
    return tmp_path / "package"


def digest(folder: Path, monkeypatch: pytest.MonkeyPatch, searched: tuple[str, ...] = ()) -> str | None:
    later = time.time_ns() + 10_000_000_000
    with monkeypatch.context() as patched:
        patched.setattr(module.time, "time_ns", lambda: later)
        return program([str(folder)], searched)


@pytest.mark.parametrize("name", ["a.py", "rulesets/us/2023.yaml", "schemas/x.json", "new.py", "rulesets/ca/1.yaml"])
def test_a_file_that_is_changed_or_new(folder: Path, name: str, monkeypatch: pytest.MonkeyPatch) -> None:
    before = digest(folder, monkeypatch)
    assert before == digest(folder, monkeypatch)
    (folder / name).parent.mkdir(exist_ok=True)
    (folder / name).write_text("22", encoding="utf-8")
    assert digest(folder, monkeypatch) != before


def test_a_file_of_the_same_size_and_time_in_another_place_on_the_disk(
    folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    before = digest(folder, monkeypatch)
    status = (folder / "a.py").stat()
    (folder / "b.tmp").write_text("2", encoding="utf-8")
    os.utime(folder / "b.tmp", ns=(status.st_atime_ns, status.st_mtime_ns))
    os.replace(folder / "b.tmp", folder / "a.py")
    assert digest(folder, monkeypatch) != before


def test_a_file_that_has_no_bearing(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    before = digest(folder, monkeypatch)
    (folder / "notes.txt").write_text("22", encoding="utf-8")
    (folder / "__pycache__" / "b.py").write_text("22", encoding="utf-8")
    assert digest(folder, monkeypatch) == before


def test_a_file_that_was_written_a_moment_ago(folder: Path) -> None:
    assert program([str(folder)], []) is None


def test_a_package_beside_it_that_is_renewed(folder: Path, monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    (tmp_path / "site" / "pyyaml-6.0.2.dist-info").mkdir(parents=True)
    searched = (str(tmp_path / "site"), str(tmp_path / "missing.zip"))
    before = digest(folder, monkeypatch, searched)
    (tmp_path / "site" / "pyyaml-6.0.2.dist-info").rename(tmp_path / "site" / "pyyaml-6.0.3.dist-info")
    assert digest(folder, monkeypatch, searched) != before


@pytest.mark.parametrize(("name", "value"), [("VERSION", "99.0"), ("sys", None)])
def test_another_version_or_interpreter(
    folder: Path, monkeypatch: pytest.MonkeyPatch, name: str, value: str | None
) -> None:
    before = digest(folder, monkeypatch)
    if name == "VERSION":
        monkeypatch.setattr(module, "VERSION", value)
    else:
        monkeypatch.setattr(sys, "version", "4.0")
    assert digest(folder, monkeypatch) != before


def test_the_digest_takes_in_code_rulesets_catalogue_and_schemas() -> None:
    taken = {path for folder in module._own_folders() for path, _ in module._files(folder)}
    code = {str(path) for path in PACKAGE.rglob("*.py")}
    data = {str(path) for path in (PACKAGE / "catalogue" / "data").rglob("*.yaml")}
    assert code <= taken
    assert data <= taken
    assert any(path.endswith("rulesets/us/2023.yaml") for path in taken)
    assert any(path.endswith("schemas/ruleset-1.schema.json") for path in taken)
