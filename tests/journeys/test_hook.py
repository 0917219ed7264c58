"""The plan repository: the real hook tool installs this project from a revision and stands before a commit."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from collections.abc import Callable, Mapping
from pathlib import Path

import pytest

EXAMPLE = Path(__file__).parents[2] / "examples" / "tern-cottage"


def environment(home: Path) -> Mapping[str, str]:
    clean = {
        name: value
        for name, value in os.environ.items()
        if not name.startswith(("GIT_", "PYTHON", "PRE_COMMIT", "VIRTUAL"))
    }
    names = {
        f"GIT_{who}_{what}": f"{what.lower()}@example.org"
        for who in ("AUTHOR", "COMMITTER")
        for what in ("NAME", "EMAIL")
    }
    tools = {"PATH": f"{Path(sys.executable).parent}{os.pathsep}{clean['PATH']}"}
    return {
        **clean,
        **names,
        **tools,
        "PRE_COMMIT_HOME": str(home),
        "GIT_CONFIG_GLOBAL": os.devnull,
        "GIT_CONFIG_NOSYSTEM": "1",
    }


class Repository:
    """A repository of plans with the hook in place."""

    def __init__(self, folder: Path, variables: Mapping[str, str]) -> None:
        self.folder = folder
        self.variables = variables

    def run(self, *words: str) -> subprocess.CompletedProcess[str]:
        return subprocess.run(
            words,
            cwd=self.folder,
            env=self.variables,
            stdin=subprocess.DEVNULL,
            stdout=subprocess.PIPE,
            stderr=subprocess.STDOUT,
            encoding="utf-8",
            check=False,
        )

    def must(self, *words: str) -> str:
        done = self.run(*words)
        assert done.returncode == 0, done.stdout
        return done.stdout.strip()

    def commit(self, **files: str) -> subprocess.CompletedProcess[str]:
        for name, text in files.items():
            (self.folder / name.replace("__", ".")).write_text(text, encoding="utf-8")
        self.must("git", "add", "--all")
        return self.run("git", "commit", "--quiet", "-m", "plans")


@pytest.fixture(scope="module")
def home(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return tmp_path_factory.mktemp("hooks")


@pytest.fixture(scope="module")
def linter(
    checkout: Path, tmp_path_factory: pytest.TempPathFactory, home: Path, needed: Callable[[bool, str], None]
) -> Repository:
    """This project as a repository with one revision."""
    needed(shutil.which("git") is not None, "this journey needs git")
    repository = Repository(
        Path(shutil.copytree(checkout, tmp_path_factory.mktemp("linter") / "project")), environment(home)
    )
    repository.must("git", "init", "--quiet")
    repository.must("git", "add", "--all")
    repository.must("git", "commit", "--quiet", "-m", "the project")
    return repository


@pytest.fixture
def plans(linter: Repository, home: Path, tmp_path: Path) -> Repository:
    repository = Repository(tmp_path, environment(home))
    revision = linter.must("git", "rev-parse", "HEAD")
    (tmp_path / ".pre-commit-config.yaml").write_text(
        f"repos:\n  - repo: {linter.folder.as_uri()}\n    rev: {revision}\n    hooks:\n      - id: coaxwright-review\n",
        encoding="utf-8",
    )
    repository.must("git", "init", "--quiet")
    repository.must("git", "-c", "protocol.file.allow=always", "config", "protocol.file.allow", "always")
    repository.must(sys.executable, "-m", "pre_commit", "install", "--install-hooks")
    return repository


AS_DRAWN = (EXAMPLE / "as-drawn.coax.yaml").read_text(encoding="utf-8")
CORRECTED = (EXAMPLE / "corrected.coax.yaml").read_text(encoding="utf-8")


def test_the_hook_stands_before_a_commit(plans: Repository) -> None:
    other = plans.commit(notes__yaml="cables: {C-1: {too: many}}\n", README__md="words\n")
    assert other.returncode == 0
    assert "(no files to check)Skipped" in other.stdout

    returned = plans.commit(house__coax__yaml=AS_DRAWN)
    assert returned.returncode == 1
    assert "review coaxial wiring designs" in returned.stdout
    assert "exit code: 1" in returned.stdout
    assert "house.coax.yaml:78:65" in returned.stdout
    assert "GB1 is bonded over 26 ft of conductor" in returned.stdout
    assert plans.must("git", "log", "--oneline").count("\n") == 0

    clear = plans.commit(house__coax__yaml=CORRECTED)
    assert clear.returncode == 0
    assert "Passed" in clear.stdout
    assert plans.must("git", "status", "--porcelain") == ""


def test_many_files_are_reviewed_in_one_call(plans: Repository) -> None:
    files = {f"house-{number}__coax__yaml": CORRECTED for number in range(20)}
    told = plans.commit(**files, barn__coax__yaml=AS_DRAWN, sheds__yaml="no: design\n")
    assert told.returncode == 1
    assert told.stdout.count("Cautions") == 1
    assert "21 designs: 20 clear, 1 returned" in told.stdout
