"""What a result was made of, and whether it is still the same: contents, and where the names of files lead."""

from __future__ import annotations

import os
import stat
import time
from collections.abc import Iterable, Sequence
from hashlib import blake2b

from coaxwright.frozen_value import frozen_value
from coaxwright.reviewing.cache.program import SETTLES_NS

MOST_BYTES = 16_000_000
"""No file of a design may be larger."""

Status = tuple[int, int, int, int, int]
"""Device, inode, size, and when the file was last written and last changed [ns]."""


@frozen_value
class Ingredients:
    """The files of one result."""

    files: tuple[tuple[str, str], ...]
    """Each file with the digest of its content: the design's own first, as it is named, then the full path of each of
    the others."""
    links: tuple[tuple[str, str], ...] = ()
    """Each path that leads to one of them, and the full path at which it ended."""
    here: str = ""
    """The working folder, where one of the files names another: how far names may lead depends on it."""


def digest_of(content: bytes) -> str:
    """Stands for a content."""
    return blake2b(content, digest_size=20).hexdigest()


def content_digest(path: str) -> str | None:
    """The digest of a file as it is now; None for what is missing or is no file that a review reads."""
    try:
        status = os.stat(path)
        if not stat.S_ISREG(status.st_mode) or status.st_size > MOST_BYTES:
            return None
        with open(path, "rb") as file:
            return digest_of(file.read(MOST_BYTES + 1))
    except (OSError, ValueError):  # ValueError: a null character in the name
        return None


def status_of(path: str, now_ns: int) -> Status | None:
    """What tells that a file is still the same without reading it; None where that is not certain.

    A file that was written within the last seconds may be written again without a sign of it. Where the last of the
    times is that of the file's making, as on Windows, any may.
    """
    if os.name == "nt":
        return None
    try:
        found = os.stat(path)
    except (OSError, ValueError):
        return None
    if not stat.S_ISREG(found.st_mode) or max(found.st_mtime_ns, found.st_ctime_ns) > now_ns - SETTLES_NS:
        return None
    return found.st_dev, found.st_ino, found.st_size, found.st_mtime_ns, found.st_ctime_ns


def lead_on(links: Iterable[Sequence[str]]) -> bool:
    """Whether every path ends where it did."""
    return all(os.path.realpath(path) == end for path, end in links)


class Looked:
    """Files that were looked at in one run, each once."""

    def __init__(self) -> None:
        self._digests: dict[str, str | None] = {}
        self._statuses: dict[str, Status | None] = {}

    def digest(self, path: str) -> str | None:
        """The content of a file, with its status as it was before."""
        if path not in self._digests:
            self._statuses[path] = status_of(path, time.time_ns())
            self._digests[path] = content_digest(path)
        return self._digests[path]

    def status(self, path: str) -> Status | None:
        """The status that a file had before its content was looked at."""
        return self._statuses.get(path)

    def is_same(self, path: str, digest: str, status: Sequence[int] | None) -> bool:
        """Whether a file has the content that it had, by its status if that is the same, else by reading it."""
        if status is not None and status_of(path, time.time_ns()) == tuple(status):
            self._statuses[path] = tuple(status)  # type: ignore[assignment]  # the same one
            return True
        return self.digest(path) == digest
