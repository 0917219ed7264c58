"""Writing a changed file in the place of the old one, whole or not at all."""

from __future__ import annotations

import os
import tempfile
from pathlib import Path

from coaxwright.errors import CoaxwrightError


class ChangedMeanwhile(CoaxwrightError):
    """A file is no longer what it was when it was read."""

    def __init__(self, name: str) -> None:
        super().__init__(f"{name} was changed by another hand meanwhile; nothing was written to it")


def put_in_place(path: Path, name: str, before: str, after: str) -> None:
    """Write ``after`` where ``before`` was read; the file keeps its rights, and a link still leads to it.

    Raises ChangedMeanwhile where the file, called ``name``, no longer holds ``before``; OSError where it, or a file
    beside it, cannot be written.
    """
    target = path.resolve(strict=True)
    if not os.access(target, os.W_OK):
        raise PermissionError(13, os.strerror(13), str(path))
    handle, written = tempfile.mkstemp(dir=target.parent, prefix=".coaxwright-")
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(after.encode("utf-8"))
            file.flush()
            os.fsync(file.fileno())
        Path(written).chmod(target.stat().st_mode & 0o7777)
        if target.read_bytes() != before.encode("utf-8"):
            raise ChangedMeanwhile(name)
        Path(written).replace(target)
    finally:
        Path(written).unlink(missing_ok=True)
    _settle(target.parent)


def _settle(folder: Path) -> None:
    """Have the file's new entry in its folder on the disk as well, on systems where a folder can be opened for that."""
    try:
        handle = os.open(folder, os.O_RDONLY)
    except OSError:
        return
    try:
        os.fsync(handle)
    except OSError:
        pass
    finally:
        os.close(handle)
