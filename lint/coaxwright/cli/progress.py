"""How far a long review has come: one line on a terminal, written over and gone at the end."""

from __future__ import annotations

import os
import sys
from time import monotonic
from typing import TextIO

AFTER_S = 1.0
"""What is done sooner shows nothing, unless it is many designs."""
MANY = 50
_EVERY_S = 0.1


class Progress:
    """The line. It uses no sign that a plain terminal does not know, and goes nowhere but to a terminal."""

    def __init__(self, stream: TextIO | None = None) -> None:
        self._stream = sys.stderr if stream is None else stream
        self._is_shown = bool(self._stream) and self._stream.isatty() and os.environ.get("TERM") != "dumb"
        self._begun = self._last = monotonic()
        self._length = 0

    def watch(self, done: int, total: int) -> None:
        """Show how many designs of how many are done, where that is worth a line."""
        now = monotonic()
        if not self._is_shown or total < 2 or (total < MANY and now - self._begun < AFTER_S):
            return
        if done < total and now - self._last < _EVERY_S:
            return
        self._last = now
        self._write(f"reviewed {done:,} of {total:,} designs")

    def end(self) -> None:
        """Take the line away."""
        if self._length:
            self._stream.write(f"\r{' ' * self._length}\r")
            self._stream.flush()
            self._length = 0

    def _write(self, text: str) -> None:
        self._stream.write(f"\r{text.ljust(self._length)}")
        self._stream.flush()
        self._length = max(self._length, len(text))
