"""Repeated units for people: those that a finding holds for besides its first, and those that an amendment changes."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator

from coaxwright.findings import Amendment, Finding

_COUNTED = re.compile("(.*?)([0-9]+)([^0-9]*)")
_SHORTEST_RANGE = 3
_MOST = 6
"""How many tags and ranges of tags a finding lists."""


def also_in(finding: Finding) -> str:
    """The other units that a finding holds for besides the one that it tells of; empty where there are none."""
    return units(finding.instances[1:])


def changes(amendment: Amendment) -> str:
    """What an amendment changes besides the text, as the end of a sentence; empty for what is there once."""
    return f", which changes {units(amendment.changes)}" if amendment.changes else ""


def units(names: Iterable[str], most: int = _MOST) -> str:
    """``flat-02 to flat-12 and flat-14``; long lists are cut with the number left out."""
    ranges = [(_shown(run), len(run)) for run in _ranges(names)]
    texts = [text for text, _ in ranges]
    if len(texts) > most:
        return f"{', '.join(texts[:most])} … and {sum(number for _, number in ranges[most:])} more"
    return " and ".join([", ".join(texts[:-1]), texts[-1]]) if len(texts) > 1 else "".join(texts)


def _ranges(names: Iterable[str]) -> Iterator[list[str]]:
    """Tags in their order, those together that count up as a range of the design file does."""
    run: list[str] = []
    for name in names:
        if run and not _follows(run[-1], name):
            yield from _long_or_single(run)
            run = []
        run.append(name)
    yield from _long_or_single(run)


def _long_or_single(run: list[str]) -> Iterator[list[str]]:
    if len(run) >= _SHORTEST_RANGE:
        yield run
    else:
        yield from ([name] for name in run)


def _shown(run: list[str]) -> str:
    return run[0] if len(run) == 1 else f"{run[0]} to {run[-1]}"


def _follows(name: str, following: str) -> bool:
    first, second = _COUNTED.fullmatch(name), _COUNTED.fullmatch(following)
    if first is None or second is None:
        return False
    before, figures, after = first.groups()
    return second.groups() == (before, f"{int(figures) + 1:0{len(figures)}}", after)
