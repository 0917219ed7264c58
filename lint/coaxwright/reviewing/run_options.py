"""How a run of many designs goes about it: nothing here bears on what is found."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import field
from typing import TYPE_CHECKING

from coaxwright.frozen_value import frozen_value

if TYPE_CHECKING:
    from coaxwright.reviewing.cache.input_digests import Ingredients
    from coaxwright.reviewing.cache.results import Results
    from coaxwright.reviewing.timing import Clock


def _nobody(_: str) -> None:
    """Hears a notice and says nothing."""


@frozen_value
class RunOptions:
    """How designs are reviewed: by how many processes, with which results of earlier runs, watched by whom."""

    workers: int | None = 1
    """Processes; None for as many as pay."""
    results: Results | None = None
    """What was found earlier; None where nothing is kept."""
    clock: Clock | None = None
    """Takes the time of every part of the work."""
    watch: Callable[[int, int], None] | None = None
    """Is told how many designs of how many are done."""
    notice: Callable[[str], None] = _nobody
    """Hears what went wrong without bearing on any result."""
    made_of: list[Ingredients | None] = field(default_factory=list)
    """Is filled, where results are kept, with what the review of each design was made of; None where it is not kept."""


USUAL_RUN_OPTIONS = RunOptions()
"""One after the other, in this process."""
