"""Changes to a text as splices: everything outside the spliced spans stays as the author wrote it, byte for byte."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence

from coaxwright.frozen_value import frozen_value
from coaxwright.source.place import Span


@frozen_value
class Splice:
    """Replace what stands from one code point to another."""

    start: int
    end: int
    text: str

    @classmethod
    def of(cls, span: Span, text: str) -> Splice:
        """Replace what stands in a span."""
        return cls(span.start.index, span.end.index, text)


def apply(text: str, splices: Sequence[Splice]) -> str:
    """The text with every splice made; two insertions at one point in the order in which they are given.

    Raises ValueError for splices that overlap.
    """
    parts: list[str] = []
    done = 0
    for splice in sorted(splices, key=_place):
        if splice.start < done:
            raise ValueError("two changes overlap")
        parts += (text[done : splice.start], splice.text)
        done = splice.end
    return "".join([*parts, text[done:]])


def _place(splice: Splice) -> tuple[int, int]:
    return splice.start, splice.end


class Moves:
    """Where the points of a text are after its splices, and where those of the changed text were before."""

    def __init__(self, splices: Sequence[Splice]) -> None:
        self._old: list[tuple[int, int]] = []
        self._new: list[tuple[int, int]] = []
        moved = 0
        for splice in sorted(splices, key=_place):
            start = splice.start + moved
            self._old.append((splice.start, splice.end))
            self._new.append((start, start + len(splice.text)))
            moved += len(splice.text) - (splice.end - splice.start)

    def after(self, index: int) -> int:
        """The point of the changed text; of what was replaced, where its replacement begins."""
        return _across(index, self._old, self._new)

    def before(self, index: int) -> int:
        """The point of the text as it was; of a replacement, where what it replaces begins."""
        return _across(index, self._new, self._old)


def _across(index: int, here: list[tuple[int, int]], there: list[tuple[int, int]]) -> int:
    at = bisect_right(here, index, key=lambda span: span[0]) - 1
    if at < 0:
        return index
    (start, end), (other_start, other_end) = here[at], there[at]
    if start == index or index < end:
        return other_start
    return other_end + index - end
