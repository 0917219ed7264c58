"""The designs of a repository as they stood at a revision, laid out in a folder of their own under the same names."""

from __future__ import annotations

import os
import tempfile
from collections.abc import Collection, Iterator, Sequence
from contextlib import chdir, contextmanager, suppress
from pathlib import Path

from coaxwright.frozen_value import frozen_value
from coaxwright.reviewing.model import Review
from coaxwright.reviewing.pipeline import review_found
from coaxwright.reviewing.repository import Repository, RepositoryError, every_file
from coaxwright.reviewing.review_request import ReviewRequest
from coaxwright.reviewing.search import Found, NothingToReview, find_designs

_ENDS = (".yaml", ".yml")
_WORD = "coax"
"""All files of ours have it in their names: designs, parts, catalogues, rulesets, and whatever is set for a folder."""


@frozen_value
class RevisionCheckout:
    """Where the earlier state is, and what in it stands for the working folder and for the repository."""

    here: Path
    top: Path

    def holds_as_it_is(self, name: str, path: Path) -> bool:
        """Whether a file that a review calls ``name`` was the same, whatever its line breaks."""
        before = self.here / name
        try:
            return _content(before) == _content(path)
        except OSError:
            return False

    def designs(self, named: Collection[str]) -> tuple[Found, ...]:
        """The designs that stood there, by the names that a review has for them; ``named`` are files of any name."""
        with chdir(self.here):
            others = [Path(name) for name in named if Path(name).is_file()]
            try:
                return find_designs([Path(os.path.relpath(self.top)), *others])
            except NothingToReview:
                return ()

    def review(self, designs: Collection[Found], asked: ReviewRequest) -> Review:
        """The review of designs as they stood."""
        with chdir(self.here):
            return review_found(tuple(designs), asked, {})


@contextmanager
def laid_out(repository: Repository, commit: str, revision: str, named: Collection[str]) -> Iterator[RevisionCheckout]:
    """The files of a commit that a review may read, below a temporary folder that is gone afterwards.

    ``named`` are the names that a review has for files that were asked for by name. Links that lead out of the folder
    are left out. Raises RepositoryError like ``every_file``.
    """
    here = Path.cwd()
    top = repository.top.resolve()
    try:
        base = Path(os.path.commonpath([here, top]))
    except ValueError:
        raise RepositoryError("the repository lies on another drive than this folder; review it from there") from None
    asked = {os.path.relpath(name, top).replace(os.sep, "/") for name in named}

    def is_wanted(path: str) -> bool:
        name = path.rpartition("/")[2]
        return (_WORD in name and name.endswith(_ENDS)) or path in asked

    with tempfile.TemporaryDirectory(prefix="coaxwright-") as folder:
        root = Path(folder).resolve()
        earlier = RevisionCheckout(root / here.relative_to(base), root / top.relative_to(base))
        earlier.here.mkdir(parents=True, exist_ok=True)
        earlier.top.mkdir(parents=True, exist_ok=True)
        links: list[tuple[Path, str]] = []
        for path, is_link, content in every_file(repository, commit, is_wanted, revision):
            if is_link:
                links.append((earlier.top / path, os.fsdecode(content)))
            else:
                _put(earlier.top / path, content)
        _link(links, root)
        yield earlier


def _put(file: Path, content: bytes) -> None:
    """Write a file. One whose name this system does not take is left out: no review here could read it."""
    with suppress(OSError, ValueError):
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_bytes(content)


def _link(links: Sequence[tuple[Path, str]], root: Path) -> None:
    """Make the links when all files are there, so that none is written by way of one; keep those that stay below."""
    for link, target in links:
        if not Path(target).is_absolute():
            with suppress(OSError, ValueError):
                link.parent.mkdir(parents=True, exist_ok=True)
                link.symlink_to(target)
    for link, _ in links:
        if link.is_symlink() and not _stays_below(link, root):
            link.unlink()


def _stays_below(link: Path, root: Path) -> bool:
    try:
        return link.resolve().is_relative_to(root)
    except (OSError, RuntimeError):  # a link to itself; Python says it in either way, by version
        return False


def _content(path: Path) -> bytes:
    """A file's bytes with one kind of line break: git may change them between what it stores and what it lays out."""
    return path.read_bytes().replace(b"\r\n", b"\n")
