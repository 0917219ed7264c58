"""Several processes that review designs, each at a desk of its own; what goes between them is small.

A process that ends before its time takes nobody's work with it: what it had before it is reviewed once more, each
design alone, and a design at which a process ends again is given back as lost. An interruption ends them all, and so
does the end of the process that started them.
"""

from __future__ import annotations

import multiprocessing
import signal
import threading
from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import FIRST_COMPLETED, Future, ProcessPoolExecutor, wait
from concurrent.futures.process import BrokenProcessPool
from contextlib import contextmanager

from coaxwright.frozen_value import frozen_value
from coaxwright.reviewing.cache.results import Made
from coaxwright.reviewing.cache.rule_serialization import rules_read
from coaxwright.reviewing.design_reviewer import ReviewOne
from coaxwright.reviewing.timing import Clock
from coaxwright.reviewing.worker_process import Batch, Chunk, Task, begin, review_chunk
from coaxwright.rules import Rule

_MOST_IN_CHUNK = 16
_AHEAD = 3
"""Chunks for each process that are handed out and not yet back: enough that none waits, few enough to hold."""
_MOST_LOST = 20
"""After so many lost designs no further process is started: the rest is lost as well."""
ENDED = "the process that reviewed it ended before its time: killed, or out of memory"
_GIVEN_UP = "it was not begun, because the processes that reviewed others ended before their time"


class CannotStart(Exception):
    """This machine starts no further processes."""


@frozen_value
class Reply:
    """One design that was reviewed."""

    index: int
    made: Made
    rules: tuple[Rule, ...]
    rules_text: str | None
    """In the first reply that has them, the rules as they are written."""


@frozen_value
class Lost:
    """One design that could not be."""

    index: int
    why: str


def in_workers(
    tasks: Sequence[Task],
    review_one: ReviewOne,
    count: int,
    clock: Clock | None = None,
    notice: Callable[[str], None] = lambda _: None,
) -> Iterator[Reply | Lost]:
    """Review designs in ``count`` processes; each is given back when it is done, in no order.

    Raises CannotStart where no process can be started.
    """
    yield from _Work(tasks, review_one, count, clock, notice).replies()


class _Work:
    """The designs of one run, on their way to the processes and back."""

    def __init__(
        self,
        tasks: Sequence[Task],
        review_one: ReviewOne,
        count: int,
        clock: Clock | None,
        notice: Callable[[str], None],
    ) -> None:
        self.chunks = list(reversed(list(chunked(tasks, count))))
        self.count = count
        self.clock = clock
        self.notice = notice
        self.how = (review_one, clock is not None)
        self.rules: dict[str, tuple[Rule, ...]] = {"": ()}
        self.lost = 0

    def replies(self) -> Iterator[Reply | Lost]:
        while self.chunks:
            if self.lost >= _MOST_LOST:
                yield from (Lost(index, _GIVEN_UP) for chunk in reversed(self.chunks) for index, *_ in chunk)
                return
            unfinished: list[Chunk] = []
            with _pool(self.count, self.how) as pool:
                yield from self.all_in(pool, unfinished)
            for task in sorted((task for chunk in unfinished for task in chunk), key=lambda task: task[0]):
                yield from self.alone(task)

    def all_in(self, pool: ProcessPoolExecutor, unfinished: list[Chunk]) -> Iterator[Reply | Lost]:
        """Hand out all chunks; those that were out when a process ended before its time are put in ``unfinished``."""
        out: dict[Future[Batch], Chunk] = {}
        broken = False
        while (self.chunks and not broken) or out:
            try:
                while self.chunks and not broken and len(out) < self.count * _AHEAD:
                    out[_handed(pool, self.chunks[-1])] = self.chunks[-1]
                    self.chunks.pop()
            except BrokenProcessPool:
                broken = True
            batches: list[Batch] = []
            for future in wait(out, return_when=FIRST_COMPLETED).done:
                chunk = out.pop(future)
                try:
                    batches.append(future.result())
                except BrokenProcessPool:
                    broken = True
                    unfinished.append(chunk)
            yield from self.taken(batches)
        if broken:
            self.notice("a process ended before its time; what it had not finished is reviewed again")

    def alone(self, task: Task) -> Iterator[Reply | Lost]:
        """One design in a process of its own."""
        if self.lost >= _MOST_LOST:
            yield Lost(task[0], _GIVEN_UP)
            return
        with _pool(1, self.how) as pool:
            try:
                batch = _handed(pool, [task]).result()
            except BrokenProcessPool:
                self.lost += 1
                yield Lost(task[0], ENDED)
            else:
                yield from self.taken([batch])

    def taken(self, batches: Sequence[Batch]) -> Iterator[Reply]:
        """What came back; the rules first, for of two chunks of one process the second has them no more."""
        new: dict[str, str] = {}
        for batch in batches:
            new.update((digest, text) for digest, text in batch.rules.items() if digest not in self.rules)
            if self.clock is not None and batch.clock is not None:
                self.clock.add(batch.clock)
        self.rules.update((digest, rules_read(text)) for digest, text in new.items())
        for batch in batches:
            for index, made in batch.done:
                yield Reply(index, made, self.rules[made.rules], new.pop(made.rules, None))


def chunked(tasks: Sequence[Task], count: int) -> Iterator[Chunk]:
    """Designs by the handful; towards the end by fewer, so that all processes end together."""
    begun = 0
    while begun < len(tasks):
        size = max(1, min(_MOST_IN_CHUNK, (len(tasks) - begun) // (count * 4)))
        yield list(tasks[begun : begun + size])
        begun += size


def _handed(pool: ProcessPoolExecutor, chunk: Chunk) -> Future[Batch]:
    """A chunk that is handed out; starting a process for it may fail."""
    try:
        with _interruptions_wait():
            return pool.submit(review_chunk, chunk)
    except OSError as error:
        raise CannotStart(str(error)) from None


@contextmanager
def _pool(count: int, how: tuple[ReviewOne, bool]) -> Iterator[ProcessPoolExecutor]:
    """Processes that end with the block, however it is left."""
    before = set(multiprocessing.active_children())
    try:
        pool = ProcessPoolExecutor(count, _start_method(), begin, how)
    except (OSError, ImportError, NotImplementedError) as error:  # no semaphores on this machine
        raise CannotStart(str(error)) from None
    try:
        yield pool
    except BaseException:
        for process in set(multiprocessing.active_children()) - before:
            process.kill()
        pool.shutdown(cancel_futures=True)  # its own thread ends first, or the interpreter would stumble over it
        raise
    pool.shutdown()


def _start_method() -> multiprocessing.context.BaseContext:
    """The usual one, but never the copy of a process that has several threads."""
    usual = multiprocessing.get_context()
    if usual.get_start_method() == "fork" and threading.active_count() > 1:
        return multiprocessing.get_context("spawn")
    return usual


@contextmanager
def _interruptions_wait() -> Iterator[None]:
    """Keep an interruption until the block is left: a process that is begun in it does not hear of it."""
    if not hasattr(signal, "pthread_sigmask"):
        yield
        return
    before = signal.pthread_sigmask(signal.SIG_BLOCK, {signal.SIGINT})
    try:
        yield
    finally:
        signal.pthread_sigmask(signal.SIG_SETMASK, before)
