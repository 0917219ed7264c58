"""What is at work in each of the processes that review designs."""

from __future__ import annotations

import gc
import multiprocessing
import os
import signal
import threading
from collections.abc import Iterable

from coaxwright.frozen_value import frozen_value
from coaxwright.reviewing.cache.results import Made
from coaxwright.reviewing.design_reviewer import DesignReviewer, ReviewOne
from coaxwright.reviewing.review_request import ReviewRequest
from coaxwright.reviewing.search import Found
from coaxwright.reviewing.timing import Clock

Task = tuple[int, Found, ReviewRequest]
"""A design by its place among all."""
Chunk = list[Task]


@frozen_value
class Batch:
    """What a process gives back for one chunk."""

    done: list[tuple[int, Made]]
    rules: dict[str, str]
    """Sets of rules that this process has not given back before, by their digest."""
    clock: Clock | None


_desks: list[DesignReviewer] = []
_clocks: list[Clock] = []
_given: set[str] = set()
"""Of this process: its desk, its clock if it has one, and the rules that it has given back."""


def begin(review_one: ReviewOne, is_timed: bool) -> None:
    """Make a process ready, which ends with the one that started it and not by an interruption of its own."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)  # the process that started this one ends it
    if hasattr(signal, "pthread_sigmask"):
        signal.pthread_sigmask(signal.SIG_UNBLOCK, {signal.SIGINT})
    threading.Thread(target=_end_with_the_parent, daemon=True).start()
    clocks = [Clock()] if is_timed else []
    _clocks[:] = clocks
    _desks[:] = [DesignReviewer(review_one, clocks[0] if clocks else None)]
    _given.clear()
    gc.collect()
    gc.freeze()


def _end_with_the_parent() -> None:
    parent = multiprocessing.parent_process()
    if parent is not None:
        parent.join()
        os._exit(1)


def review_chunk(chunk: Iterable[Task]) -> Batch:
    """Review the designs of a chunk."""
    (desk,) = _desks
    done: list[tuple[int, Made]] = []
    rules: dict[str, str] = {}
    for index, found, asked in chunk:
        made, text = desk.made(found, desk.review(found, asked))
        if made.rules and made.rules not in _given:
            _given.add(made.rules)
            rules[made.rules] = text
        done.append((index, made))
    return Batch(done, rules, _clocks[0].take() if _clocks else None)
