"""Where a report goes: to standard output as UTF-8, or to a file that is whole or not there."""

from __future__ import annotations

import os
import sys
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from pathlib import Path

PLAIN_WIDTH = 100
"""Width of text that goes to no terminal: the same on every machine."""


class CannotSay(Exception):
    """Standard output takes nothing: it is closed, or what it goes to is full."""


def terminal_width() -> int:
    """The width to write for."""
    import shutil

    return shutil.get_terminal_size().columns if _is_terminal() else PLAIN_WIDTH


def color_wanted(plain: bool) -> bool:
    """Whether to paint: on a terminal, unless ``plain`` or the NO_COLOR variable says no."""
    return not plain and "NO_COLOR" not in os.environ and _is_terminal()


def _is_terminal() -> bool:
    return sys.stdout is not None and sys.stdout.isatty()  # None where the shell has closed it


def say(text: str) -> None:
    """Write to standard output, the same bytes on every platform."""
    say_bytes(as_bytes(text))


def say_bytes(content: bytes) -> None:
    """Write what is UTF-8 already to standard output.

    Raises CannotSay with the reason; a reader that has closed its end is no fault, and stays a BrokenPipeError.
    """
    if sys.stdout is None:
        raise CannotSay("it is closed")
    try:
        sys.stdout.flush()
        sys.stdout.buffer.write(content)
        sys.stdout.buffer.flush()
    except BrokenPipeError:
        raise
    except OSError as error:
        raise CannotSay((error.strerror or "unknown reason").lower()) from None


def complain(text: str) -> None:
    """Write one line to standard error."""
    print(f"coaxwright: {text}", file=sys.stderr)


def put(text: str, into: Path) -> None:
    """Write a file in one step: a reader sees the old one or the whole new one.

    What is no regular file, such as a pipe or the null device, is written to as it stands.
    Raises OSError where the folder cannot be written.
    """
    import tempfile
    from pathlib import Path

    if into.exists() and not into.is_file():
        into.write_bytes(as_bytes(text))
        return
    handle, name = tempfile.mkstemp(dir=into.parent, prefix=f".{into.name}.")
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(as_bytes(text))
        Path(name).chmod(0o644)
        Path(name).replace(into)
    except BaseException:
        Path(name).unlink(missing_ok=True)
        raise


def as_bytes(text: str) -> bytes:
    """The text as UTF-8; what remains of a file name that is not UTF-8 shows as a question mark."""
    return text.encode("utf-8", errors="replace")
