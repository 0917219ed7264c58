"""Many designs: those that have not changed are answered, the others are reviewed, here or by several processes."""

from __future__ import annotations

import os
from collections.abc import Sequence
from dataclasses import replace

from coaxwright.reviewing.design_reviewer import DesignReviewer, ReviewOne
from coaxwright.reviewing.model import WHOLE_DESIGN, Crash, DesignReview
from coaxwright.reviewing.review_request import ReviewRequest
from coaxwright.reviewing.run_options import RunOptions
from coaxwright.reviewing.search import Found
from coaxwright.source import FilesRead

Task = tuple[Found, ReviewRequest]
FEW = 64
"""Of fewer designs than this, further processes cost about what they save: two come level with one at about forty small
designs, for each has its rules to put together."""


def reviewed(
    tasks: Sequence[Task], review_one: ReviewOne, run_options: RunOptions, files: FilesRead | None = None
) -> tuple[DesignReview, ...]:
    """The review of every design, in the order of the tasks: the same whatever the manner.

    ``files``: catalogues and rulesets that were read already, in finding the designs.
    """
    run = _Run(tasks, review_one, run_options, files)
    left: Sequence[int] = run.answer() if run_options.results is not None else range(len(tasks))
    workers = _workers(run_options.workers, len(left))
    if workers > 1:
        left = run.in_workers(left, workers)
    for index in left:
        run.here(index)
    return run.designs()


def _workers(wanted: int | None, designs: int) -> int:
    if wanted is None:
        wanted = 1 if designs < FEW else _cores()
    return min(wanted, designs)


def _cores() -> int:
    """The cores that this process may use."""
    if hasattr(os, "sched_getaffinity"):
        return len(os.sched_getaffinity(0))
    return os.cpu_count() or 1


class _Run:
    """The designs of one run, as they come."""

    def __init__(
        self, tasks: Sequence[Task], review_one: ReviewOne, run_options: RunOptions, files: FilesRead | None
    ) -> None:
        self.tasks = tasks
        self.review_one = review_one
        self.run_options = run_options
        self.files = files
        self.done: dict[int, DesignReview] = {}
        self.desk: DesignReviewer | None = None
        self.ingredients = run_options.made_of
        self.ingredients[:] = [None] * len(tasks)

    def designs(self) -> tuple[DesignReview, ...]:
        """All of them in order, when what is to be kept is written."""
        if self.run_options.results is not None:
            self.run_options.results.write()
        return tuple(self.done[index] for index in range(len(self.tasks)))

    def put(self, index: int, design: DesignReview) -> None:
        """One more design is done."""
        self.done[index] = design
        if self.run_options.watch is not None:
            self.run_options.watch(len(self.done), len(self.tasks))

    def answer(self) -> list[int]:
        """Put what was kept; gives the designs that are left."""
        results, clock = self.run_options.results, self.run_options.clock
        assert results is not None
        left: list[int] = []
        if clock is not None:
            from coaxwright.reviewing.timing import KEPT

            clock.turn_to(KEPT)
        for index, (found, asked) in enumerate(self.tasks):
            known = results.find(found, asked)
            if known is None:
                left.append(index)
            else:
                design, self.ingredients[index] = known
                self.put(index, design)
        if clock is not None:
            clock.turn_to("")
        return left

    def here(self, index: int) -> None:
        """Review a design in this process."""
        found, asked = self.tasks[index]
        if self.desk is None:
            self.desk = DesignReviewer(self.review_one, self.run_options.clock, self.files)
        design = self.desk.review(found, asked)
        results = self.run_options.results
        if results is not None:
            from coaxwright.reviewing.cache.serialization import NotStored

            try:
                made, rules = self.desk.made(found, design)
            except NotStored:
                pass
            else:
                results.keep(found, asked, made, rules)
                self.ingredients[index] = made.ingredients
        self.put(index, design)

    def in_workers(self, left: Sequence[int], count: int) -> Sequence[int]:
        """Review designs in several processes.

        Gives those that are left: all, where no process can be started; and where a process cannot give back what it
        made, as that is bound by rules that are not the program's own, all that were not done until then.
        """
        from coaxwright.reviewing.cache.serialization import Kept, NotStored, read
        from coaxwright.reviewing.workers import CannotStart, Lost, in_workers

        results = self.run_options.results
        texts = results.kept if results is not None else Kept()
        tasks = [(index, *self.tasks[index]) for index in left]
        try:
            for reply in in_workers(tasks, self.review_one, count, self.run_options.clock, self.run_options.notice):
                found, asked = self.tasks[reply.index]
                if isinstance(reply, Lost):
                    self.put(reply.index, not_reviewed(found, asked, reply.why, self.review_one))
                    continue
                self.put(reply.index, read(reply.made.review, reply.rules, texts))
                if results is not None:
                    results.keep(found, asked, reply.made, reply.rules_text)
                    self.ingredients[reply.index] = reply.made.ingredients
        except (CannotStart, NotStored):
            return [index for index in left if index not in self.done]
        return ()


def not_reviewed(found: Found, asked: ReviewRequest, why: str, review_one: ReviewOne) -> DesignReview:
    """What stands for a design that could not be reviewed: it makes the review incomplete.

    Made like any other, of a file that is not read: with the cautions that hold always.
    """
    unread = DesignReviewer(review_one).review(replace(found, fault=why), asked)
    return replace(unread, problems=(), crashes=(Crash(WHOLE_DESIGN, "", why),))
