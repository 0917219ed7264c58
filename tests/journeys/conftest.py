"""What journeys share: the command in its own process, a copy of the example site, a clean copy of the project."""

from __future__ import annotations

import json
import os
import shutil
import subprocess
import sys
from collections.abc import Callable, Iterator, Mapping, Sequence
from pathlib import Path
from select import select
from signal import SIGKILL

import pytest

import coaxwright

HERE = Path(__file__).parent
TOP = HERE.parents[1]
SECONDS = 60
"""The longest that a command may take."""
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


FOR_A_FRESH_INTERPRETER = ("PYTHON", "LC_", "LANG")
"""Beginnings of names of variables that an interpreter reads when it starts."""


def _environment(changes: Mapping[str, str]) -> dict[str, str]:
    """That of the tests; the program is kept compiled, as it is for who uses it."""
    left_out = ("NO_COLOR", "COLUMNS", "PYTHONHASHSEED", "PYTHONDONTWRITEBYTECODE")
    kept = {name: value for name, value in os.environ.items() if name not in left_out}
    return {**kept, "PYTHONPATH": str(Path(coaxwright.__file__).parents[1]), **changes}


class CommandServer:
    """Runs commands in processes that need not import the program anew; it starts when it is first asked."""

    def __init__(self, folder: Path) -> None:
        self._files = {name: folder / name for name in ("in", "out", "err")}
        self._process: subprocess.Popen[str] | None = None

    def run(
        self,
        words: Sequence[str],
        cwd: Path,
        environment: Mapping[str, str],
        given: bytes = b"",
        program: str = "",
    ) -> subprocess.CompletedProcess[str]:
        if self._process is None:
            self._process = subprocess.Popen(
                [sys.executable, HERE / "command_server.py"],
                env=_environment({"COAXWRIGHT_CACHE": "off"}),
                stdin=subprocess.PIPE,
                stdout=subprocess.PIPE,
                encoding="utf-8",
                start_new_session=True,  # a group of its own, to be ended with the command that it runs
            )
        assert self._process.stdin is not None
        assert self._process.stdout is not None
        asked = {"words": words, "folder": str(Path(cwd).resolve()), "environment": environment, "program": program}
        files = {name: str(path) for name, path in self._files.items()}
        self._files["in"].write_bytes(given)
        self._process.stdin.write(json.dumps(asked | files) + "\n")
        self._process.stdin.flush()
        is_in_time = bool(select([self._process.stdout], [], [], SECONDS)[0])
        answer = self._process.stdout.readline() if is_in_time else ""
        if not answer:
            self.end(kill=True)  # what it still says would be taken for the answer to the next command
            raise subprocess.TimeoutExpired(words, SECONDS) if not is_in_time else EOFError("the server has ended")
        out, err = (self._files[name].read_bytes().decode().replace("\r\n", "\n") for name in ("out", "err"))
        return subprocess.CompletedProcess(list(words), int(answer), out, err)

    def end(self, kill: bool = False) -> None:
        if self._process is not None:
            with self._process as process:
                if kill:
                    os.killpg(process.pid, SIGKILL)
            self._process = None


@pytest.fixture(scope="session")
def command_server(tmp_path_factory: pytest.TempPathFactory) -> Iterator[CommandServer]:
    server = CommandServer(tmp_path_factory.mktemp("printed"))
    yield server
    server.end()


@pytest.fixture
def coax(site: Path, command_server: CommandServer) -> Command:
    """Run the command as a user does; unless told otherwise, in the copy of the example site.

    A fresh interpreter runs it where it is asked for, or where the environment has something to say to it; to others
    the standard input can be given.
    """

    def run(
        *words: str | Path,
        cwd: Path = site,
        program: str = "",
        fresh: bool = False,
        given: str | bytes = "",
        **changes: str,
    ) -> subprocess.CompletedProcess[str]:
        if not (fresh or program or any(name.startswith(FOR_A_FRESH_INTERPRETER) for name in changes)):
            given = given if isinstance(given, bytes) else given.encode()
            return command_server.run([str(word) for word in words], cwd, _environment(changes), given)
        start = ["-c", program] if program else ["-m", "coaxwright"]
        return subprocess.run(
            [sys.executable, *start, *map(str, words)],
            cwd=cwd,
            env=_environment(changes),
            stdin=subprocess.DEVNULL,
            capture_output=True,
            encoding="utf-8",
            check=False,
            timeout=SECONDS,
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
