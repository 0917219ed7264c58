"""What the program is: everything of it that can change a result, in one digest that is soon made."""

from __future__ import annotations

import os
import sys
import time
from collections.abc import Iterator, Sequence
from hashlib import blake2b

from coaxwright.version import VERSION

_PACKAGE = os.path.dirname(os.path.dirname(os.path.dirname(os.path.abspath(__file__))))
_ENDINGS = (".py", ".yaml", ".json", ".so", ".pyd")
"""Files of the package that bear on a result: its code, its rulesets and catalogue, its schemas."""
_PACKAGES = (".dist-info", ".egg-info")
SETTLES_NS = 2_000_000_000
"""How long a file must have been left alone before its status is trusted: the coarsest clock of a file system we know
of counts in two seconds."""


def program(folders: Sequence[str] | None = None, searched: Sequence[str] | None = None) -> str | None:
    """The program as a digest, or None while one of its files has just been written.

    It takes in the status of every file of the package with its rulesets and schemas (``folders``), the interpreter,
    and the name and version of every package that is installed where imports are ``searched``.
    """
    newest = 0
    digest = blake2b(digest_size=16)
    digest.update(repr((VERSION, sys.version, sys.implementation.cache_tag, sys.flags.optimize)).encode())
    for folder in _own_folders() if folders is None else folders:
        for path, status in _files(folder):
            newest = max(newest, status.st_mtime_ns, status.st_ctime_ns)
            digest.update(f"{path}\0{status.st_size} {status.st_mtime_ns} {status.st_ino}\0".encode(errors="replace"))
    for folder in sys.path if searched is None else searched:
        digest.update("\0".join(_installed(folder)).encode(errors="replace"))
    return None if newest > time.time_ns() - SETTLES_NS else digest.hexdigest()


def _own_folders() -> Iterator[str]:
    yield _PACKAGE
    top = os.path.dirname(os.path.dirname(_PACKAGE))
    for name in ("rulesets", "schemas"):  # of a checkout, as ``shipped`` finds them
        if not os.path.isdir(os.path.join(_PACKAGE, name)):
            yield os.path.join(top, name)


def _files(folder: str) -> Iterator[tuple[str, os.stat_result]]:
    """Every file below a folder that bears on a result, in a fixed order."""
    try:
        entries = sorted(os.scandir(folder), key=lambda entry: entry.name)
    except OSError:
        return
    for entry in entries:
        if entry.is_dir():
            if entry.name != "__pycache__":
                yield from _files(entry.path)
        elif entry.name.endswith(_ENDINGS):
            yield entry.path, entry.stat()


def _installed(folder: str) -> list[str]:
    try:
        return sorted(name for name in os.listdir(folder or os.curdir) if name.endswith(_PACKAGES))
    except OSError:  # an archive, or nothing at all
        return []
