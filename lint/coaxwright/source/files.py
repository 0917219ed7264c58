"""Reading one file: its size and encoding are checked before its text is."""

from __future__ import annotations

import os
from pathlib import Path as FilePath

from coaxwright.source.document import Document
from coaxwright.source.limits import DEFAULT, Limits
from coaxwright.source.place import Position, Span, position_at
from coaxwright.source.problem import Problem, ReadError
from coaxwright.source.reader import read_text


def read_file(path: FilePath, name: str, limits: Limits = DEFAULT) -> Document:
    """Read the file at ``path``; findings call it ``name``.

    Raises ReadError where the file is missing, no regular file, too large, not UTF-8 or not plain YAML data.
    """
    try:
        if path.is_dir():
            raise _refusal(name, "this is a folder", "a design file")
        if path.exists() and not path.is_file():
            raise _refusal(name, "this is no regular file", "a design file")
        with path.open("rb") as file:
            before = os.fstat(file.fileno())
            content = file.read(limits.size_bytes + 1)
            after = os.fstat(file.fileno())
    except OSError as error:
        reason = (error.strerror or "unknown reason").lower()
        raise _refusal(name, f"the file cannot be opened ({reason})", "") from None
    except ValueError:  # a null character in the name
        raise _refusal(name, "the file cannot be opened (no such name is possible)", "") from None
    if (before.st_size, before.st_mtime_ns) != (after.st_size, after.st_mtime_ns):
        raise _refusal(name, "the file changed while it was read", "review it again when it is saved")
    return read_text(decode(content, name, limits), name, limits)


def decode(content: bytes, name: str, limits: Limits = DEFAULT) -> str:
    """The text of a file's bytes, line breaks and byte-order mark kept.

    Raises ReadError for too many bytes or for bytes that are not UTF-8.
    """
    if len(content) > limits.size_bytes:
        raise _refusal(
            name, f"the file is larger than {limits.size_bytes / 1e6:g} MB", "divide the site into several files"
        )
    if content.startswith((b"\xff\xfe", b"\xfe\xff")):
        raise _refusal(name, "the file is saved as UTF-16", "save it as UTF-8")
    try:
        return content.decode("utf-8")
    except UnicodeDecodeError as error:
        readable = content[: error.start].decode("utf-8").removeprefix("\ufeff")
        place = position_at(readable, len(readable))
        end = Position(place.line, place.column + 1, place.index + 1)
        what = f"byte 0x{content[error.start]:02X} is not UTF-8"
        raise ReadError(Problem(name, Span(place, end), what, "save the file as UTF-8")) from None


def _refusal(name: str, what: str, expected: str) -> ReadError:
    start = Position(1, 1, 0)
    return ReadError(Problem(name, Span(start, start), what, expected))
