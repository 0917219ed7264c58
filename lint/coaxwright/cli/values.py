"""The values that options take: a day, a width, a number of processes."""

from __future__ import annotations

from datetime import date

from coaxwright.cli.words import WrongWord

LEAST_WIDTH = 60


def day(written: str | None) -> date | None:
    """The day of ``--as-of``. Raises WrongWord."""
    if written is None:
        return None
    try:
        found = date.fromisoformat(written)
    except ValueError:
        found = None
    if found is None or found.isoformat() != written:  # of ISO 8601's forms of a day, the one that designs have
        raise WrongWord(f"--as-of takes a day such as 2026-05-31, not {written!r}")
    return found


def one_at_least(workers: int | None) -> int | None:
    """The number of ``--workers``. Raises WrongWord."""
    if workers is not None and workers < 1:
        raise WrongWord(f"--workers takes 1 or more, not {workers}")
    return workers


def wide_enough(width: int | None) -> int | None:
    """The columns of ``--width``. Raises WrongWord."""
    if width is not None and width < LEAST_WIDTH:
        raise WrongWord(f"--width takes {LEAST_WIDTH} or more, not {width}")
    return width
