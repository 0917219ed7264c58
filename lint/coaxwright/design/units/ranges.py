"""``flat-01 to flat-12``: the tags that one line of the units stands for."""

from __future__ import annotations

import re
from collections.abc import Iterator

from coaxwright.frozen_value import frozen_value
from coaxwright.source import quoted

_TO = " to "
_FIGURES = re.compile("([0-9]+)")
_OTHER_RANGE = re.compile(r"(.*?)([0-9]+) ?(?:\.\.+|…|–| - | through | until ) ?(.*?)([0-9]+)")
"""What else people write between the ends of a range. ``flat-1-2`` and ``1.2`` may well be tags."""
_WIDEST = 9
_EXAMPLE = "write it like 'flat-01 to flat-12'"


@frozen_value
class Series:
    """Tags that count up from the first to the last, all as wide."""

    before: str
    first: int
    last: int
    width: int
    after: str

    def __len__(self) -> int:
        return self.last - self.first + 1

    def __iter__(self) -> Iterator[str]:
        for number in range(self.first, self.last + 1):
            yield f"{self.before}{number:0{self.width}}{self.after}"


@frozen_value
class NoSeries:
    """Why a key is not a range that can be counted, and what to write."""

    what: str
    expected: str
    meant: str = ""
    """The range that was probably meant."""


def tags_of(key: str) -> Series | tuple[str] | NoSeries:
    """The tags that a key of the units stands for: its own, or those of a range."""
    other = _OTHER_RANGE.fullmatch(key)
    if other is not None and _TO not in key:
        return _meant(key, *other.groups())
    if _TO not in key:
        return (key,)
    first, *others = key.split(_TO)
    if len(others) != 1:
        return NoSeries(f"{quoted(key)} is no range", _EXAMPLE)
    return _counted(key, first, others[0])


def _meant(key: str, before: str, first: str, again: str, last: str) -> NoSeries | tuple[str]:
    """What a range written with dots or a dash stands for; ``sluice 4 - level 2`` is a tag like any other."""
    if again not in ("", before) or int(first) >= int(last) or max(len(first), len(last)) > _WIDEST:
        return (key,)
    width = max(len(first), len(last))
    return NoSeries(f"{quoted(key)} is no range", "", f"{before}{first.zfill(width)}{_TO}{before}{last.zfill(width)}")


def _counted(key: str, first: str, last: str) -> Series | NoSeries:
    begins, ends = _FIGURES.split(first), _FIGURES.split(last)
    if begins[::2] != ends[::2]:
        return NoSeries(f"the words around the figures differ in {quoted(key)}", _EXAMPLE)
    figures = range(1, len(begins), 2)
    if not figures:
        return NoSeries(f"{quoted(key)} has no figures to count", _EXAMPLE)
    counting = [index for index in figures if begins[index] != ends[index]]
    if len(counting) > 1:
        return NoSeries(f"{quoted(key)} counts in more than one place", _EXAMPLE)
    if not counting:
        return NoSeries(f"{quoted(key)} does not count up", f"write {quoted(first)} for one unit")
    (index,) = counting
    low, high = begins[index], ends[index]
    if max(len(low), len(high)) > _WIDEST:
        return NoSeries(f"the figures of {quoted(key)} are too many", f"count with {_WIDEST} figures at most")
    before, after = "".join(begins[:index]), "".join(begins[index + 1 :])
    if int(low) >= int(high):
        return NoSeries(f"{quoted(key)} does not count up", f"write {quoted(f'{last}{_TO}{first}')}")
    width = max(len(low), len(high))
    if len(low) != len(high):
        wide = f"{before}{low.zfill(width)}{after}{_TO}{before}{high.zfill(width)}{after}"
        return NoSeries(f"the figures of {quoted(key)} are not of one width", f"write {quoted(wide)}")
    return Series(before, int(low), int(high), width, after)
