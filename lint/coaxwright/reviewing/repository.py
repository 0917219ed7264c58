"""What git keeps of a folder: the files of a revision, read without touching the working tree.

Only commands are used that read objects as they are stored: no filter, text conversion, hook, comparison program or
file watcher of the repository runs, and nothing is fetched. What its settings could still start is turned off besides.
Source: git's own manual pages, git(1) on the environment, git-config(1), git-ls-tree(1), git-cat-file(1).
"""

from __future__ import annotations

import os
import shutil
import subprocess
import tempfile
from collections.abc import Callable, Iterable, Iterator, Mapping
from pathlib import Path, PurePosixPath
from typing import IO

from coaxwright.design.nearest import nearest_word
from coaxwright.errors import CoaxwrightError
from coaxwright.frozen_value import frozen_value

_MOST_BYTES = 17_000_000
"""As much of a file as is kept: more than is ever read, so that one that is too large is refused like any other."""
_SETTINGS = (
    "core.fsmonitor=false",
    "core.hooksPath=/dev/null",
    "core.pager=cat",
    "diff.external=",
    "protocol.allow=never",
    "safe.bareRepository=explicit",
)
_ENVIRONMENT = {
    "GIT_ALLOW_PROTOCOL": "none",  # a list of the protocols that are allowed, and there is none of that name
    "GIT_NO_LAZY_FETCH": "1",
    "GIT_OPTIONAL_LOCKS": "0",
    "GIT_TERMINAL_PROMPT": "0",
    "LC_ALL": "C",
}
_LINK, _MODULE = "120000", "160000"


class RepositoryError(CoaxwrightError):
    """What is asked of a repository cannot be had: git, the repository, the revision or a file of it is missing."""


@frozen_value
class Stored:
    """One entry of a revision: a file, a link, or the commit of a repository within."""

    path: str
    mode: str
    object: str

    @property
    def is_link(self) -> bool:
        return self.mode == _LINK


@frozen_value
class Repository:
    """A working tree with its repository."""

    git: str
    top: Path
    """The folder of the whole working tree."""

    @classmethod
    def around(cls, folder: Path) -> Repository:
        """The repository that a folder is in. Raises RepositoryError where git is missing or there is none."""
        git = shutil.which("git")
        if git is None:
            raise RepositoryError("git is not installed, or not where programs are looked for")
        done = _run(git, folder, "rev-parse", "--show-toplevel")
        if done.returncode:
            raise RepositoryError(_no_repository(_words(done.stderr)))
        return cls(git, Path(os.fsdecode(done.stdout.removesuffix(b"\n"))))

    def commit(self, revision: str) -> str:
        """The commit that a revision is. Raises RepositoryError with the nearest name where there is none."""
        done = self._run("rev-parse", "--verify", "--quiet", "--end-of-options", f"{revision}^{{commit}}")
        if done.returncode == 0 and revision and "\0" not in revision:
            return os.fsdecode(done.stdout).strip()
        near = (
            nearest_word(revision, self._names(), cutoff=0.6) if revision and not set("~^@:") & set(revision) else None
        )
        hint = f"; did you mean {near!r}?" if near else ""
        if not near and self._run("rev-parse", "--is-shallow-repository").stdout.strip() == b"true":
            hint = "; this copy of it holds the newest commits only: fetch the others first"
        raise RepositoryError(f"there is no revision {revision!r} in this repository{hint}")

    def holds(self, commit: str) -> bool:
        """Whether a commit is there."""
        return self._run("cat-file", "-e", f"{commit}^{{commit}}").returncode == 0

    def stored(self, commit: str) -> Iterator[Stored]:
        """Every file, link and repository within that a commit holds, by its path from the top."""
        done = self._run("ls-tree", "-r", "-z", "--full-tree", commit)
        if done.returncode:
            raise RepositoryError(f"git cannot list the files of {commit[:12]}: {_words(done.stderr)}")
        for line in done.stdout.split(b"\0"):
            if line:
                about, _, path = line.partition(b"\t")
                mode, _, name = os.fsdecode(about).split(" ")
                yield Stored(os.fsdecode(path), mode, name)

    def contents(self, wanted: Iterable[Stored]) -> Iterator[tuple[Stored, bytes]]:
        """The bytes of stored files, as they are stored. Raises RepositoryError for one that is not there."""
        entries = list(wanted)
        with tempfile.TemporaryFile() as asked:
            asked.write(b"".join(f"{entry.object}\n".encode("ascii") for entry in entries))
            asked.seek(0)
            command = _command(self.git, self.top, "cat-file", "--batch")
            with subprocess.Popen(
                command, stdin=asked, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, env=_environment()
            ) as process:
                assert process.stdout is not None
                try:
                    for entry in entries:
                        yield entry, _content(process.stdout, entry)
                finally:
                    process.stdout.close()

    def within(self, module: Stored) -> Repository | None:
        """The repository of a submodule, where it is checked out in the working tree."""
        folder = self.top / module.path
        if folder.is_symlink() or not folder.is_dir() or not (folder / ".git").exists():
            return None
        found = Repository.around(folder)
        return found if found.top.resolve() == folder.resolve() else None

    def _names(self) -> list[str]:
        """Branches and tags, and what is checked out."""
        names = self._run("for-each-ref", "--format=%(refname:short)", "refs/heads", "refs/tags", "refs/remotes")
        return ["HEAD", *os.fsdecode(names.stdout).split()]

    def _run(self, *words: str) -> subprocess.CompletedProcess[bytes]:
        return _run(self.git, self.top, *words)


def every_file(
    repository: Repository, commit: str, is_wanted: Callable[[str], bool], revision: str, below: str = ""
) -> Iterator[tuple[str, bool, bytes]]:
    """The files of a commit that are wanted, and all links, with those of submodules: path, whether a link, bytes.

    A link to a file makes that file wanted as well. Raises RepositoryError where something is not there.
    """
    stored = {f"{below}{stored.path}": stored for stored in repository.stored(commit) if _is_plain(stored.path)}
    links = {
        path: content
        for path, (_, content) in zip(
            [path for path, one in stored.items() if one.is_link],
            repository.contents(file for file in stored.values() if file.is_link),
            strict=True,
        )
    }
    meant = {_target(path, os.fsdecode(content)) for path, content in links.items()}
    files = {
        path: one
        for path, one in stored.items()
        if not one.is_link and one.mode != _MODULE and (is_wanted(path) or path in meant)
    }
    for path, content in links.items():
        yield path, True, content
    for path, (_, content) in zip(files, repository.contents(files.values()), strict=True):
        yield path, False, content
    for path, one in stored.items():
        module = repository.within(one) if one.mode == _MODULE else None
        if module is not None:
            if not module.holds(one.object):
                raise RepositoryError(f"the submodule {path!r} lacks its commit of {revision!r}; fetch it first")
            yield from every_file(module, one.object, is_wanted, revision, f"{path}/")


def _target(path: str, written: str) -> str:
    """The path that a link leads to, as far as its letters tell."""
    return os.path.normpath(os.path.join(os.path.dirname(path), written)).replace(os.sep, "/")  # noqa: PTH118, PTH120


def _is_plain(path: str) -> bool:
    """Whether a path stays below the folder that it is laid out in: git keeps to that, a forged tree may not."""
    parts = PurePosixPath(path).parts
    return bool(parts) and not path.startswith("/") and not {"..", ".git"} & {part.casefold() for part in parts}


def _content(stream: IO[bytes], entry: Stored) -> bytes:
    head = stream.readline().split()
    if len(head) != 3:
        raise RepositoryError(f"the repository does not hold the content of {entry.path!r}; fetch it first")
    size = int(head[2])
    content = stream.read(min(size, _MOST_BYTES))
    left = size - len(content) + 1  # with the line break behind it
    while left > 0:
        read = stream.read(min(left, 1 << 20))
        if not read:
            break
        left -= len(read)
    return content


def _run(git: str, folder: Path, *words: str) -> subprocess.CompletedProcess[bytes]:
    try:
        return subprocess.run(
            _command(git, folder, *words),
            stdin=subprocess.DEVNULL,
            capture_output=True,
            env=_environment(),
            check=False,
        )
    except (OSError, ValueError) as error:  # ValueError: a null character in a word
        raise RepositoryError(f"git cannot be run: {str(error).lower()}") from None


def _command(git: str, folder: Path, *words: str) -> list[str]:
    settings = [word for setting in _SETTINGS for word in ("-c", setting)]
    return [git, "--no-pager", "-C", str(folder), *settings, *words]


def _environment() -> Mapping[str, str]:
    """The caller's, without what it tells git: a hook is told of the repository that it runs for, by relative paths."""
    kept = {name: value for name, value in os.environ.items() if not name.startswith("GIT_") or name in _KEPT}
    return {**kept, **_ENVIRONMENT}


_KEPT = frozenset({"GIT_CONFIG_GLOBAL", "GIT_CONFIG_NOSYSTEM", "GIT_CONFIG_SYSTEM", "GIT_EXEC_PATH"})
"""Where git and the user's own settings are: the user's to say, and no part of a repository."""


def _no_repository(said: str) -> str:
    if "dubious ownership" in said:
        return "git does not read this repository, since it belongs to another user of the machine"
    return "this folder is in no git repository with a working tree"


def _words(said: bytes) -> str:
    return " ".join(os.fsdecode(said).split()).removeprefix("fatal: ")
