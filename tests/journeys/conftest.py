"""What journeys share: the command in its own process, a copy of the example site, a clean copy of the project."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from collections.abc import Callable, Mapping
from pathlib import Path

import pytest

import coaxwright

TOP = Path(__file__).parents[2]
EXAMPLE = TOP / "examples" / "tern-cottage"
LEFT_OUT = (
    ".git",
    ".venv*",
    "__pycache__",
    ".*_cache",
    ".hypothesis",
    "*.egg-info",
    "build",
    "dist",
)
Command = Callable[..., "subprocess.CompletedProcess[str]"]


def _environment(changes: Mapping[str, str]) -> dict[str, str]:
    kept = {name: value for name, value in os.environ.items() if name not in ("NO_COLOR", "COLUMNS", "PYTHONHASHSEED")}
    return {**kept, "PYTHONPATH": str(Path(coaxwright.__file__).parents[1]), **changes}


@pytest.fixture
def coax(site: Path) -> Command:
    """Run the command as a user does; unless told otherwise, in the copy of the example site."""

    def run(
        *words: str | Path, cwd: Path = site, program: str = "", **changes: str
    ) -> subprocess.CompletedProcess[str]:
        start = ["-c", program] if program else ["-m", "coaxwright"]
        return subprocess.run(
            [sys.executable, *start, *map(str, words)],
            cwd=cwd,
            env=_environment(changes),
            stdin=subprocess.DEVNULL,
            capture_output=True,
            encoding="utf-8",
            check=False,
            timeout=60,
        )

    return run


@pytest.fixture
def site(tmp_path: Path) -> Path:
    """The example site, copied into a folder that holds nothing else."""
    return Path(shutil.copytree(EXAMPLE, tmp_path / "site", ignore=shutil.ignore_patterns("*.txt")))


@pytest.fixture(scope="session")
def checkout(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A copy of the project as a fresh clone would be: no caches, no environments, no history."""
    return Path(
        shutil.copytree(TOP, tmp_path_factory.mktemp("copy") / "project", ignore=shutil.ignore_patterns(*LEFT_OUT))
    )


@pytest.fixture(scope="session")
def needed() -> Callable[[bool, str], None]:
    """Skip a journey whose tools are missing on a contributor's machine; where the project is proven, fail."""

    def need(is_there: bool, what: str) -> None:
        if not is_there:
            (pytest.fail if os.environ.get("CI") else pytest.skip)(what)

    return need
